"""Make several jobs together: the sheets, the cut list, a proof and a ticket for each, and the report; all or none."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.lay.requests import MadeTogether, TogetherRequest

if TYPE_CHECKING:
    from wrapwright.core.base.findings import Finding
    from wrapwright.core.checks.facts import Facts
    from wrapwright.core.sheet.cut.values import CutList
    from wrapwright.core.sheet.lay.values import Layout
    from wrapwright.jobs.lay.gathering import Gathered
    from wrapwright.jobs.lay.goods import Goods


def make_together(request: TogetherRequest, bench: Bench, watch: Watch) -> MadeTogether:
    """Return the report of what was left in the folder.

    Raises:
        ChecksSayNoError: kind checks, with the findings of all jobs, when an error is not accepted; nothing is made.
        WrapwrightError: a file cannot be read, a job cannot be composed, the sheets at hand are too few, or the folder
            must not be written.
    """
    from wrapwright.jobs.lay.gathering import gathered
    from wrapwright.outside.system.delivery import delivery

    with delivery(request.folder, force=request.force) as folder:
        jobs = gathered(request, bench, watch)
        return _made(jobs, request, folder, bench, watch)


def make_gathered(jobs: Gathered, request: TogetherRequest, bench: Bench, watch: Watch) -> MadeTogether:
    """Return the report of what was left in the request's folder, of jobs that were gathered already.

    Raises:
        ChecksSayNoError, WrapwrightError: as `make_together`.
    """
    from wrapwright.outside.system.delivery import delivery

    with delivery(request.folder, force=request.force) as folder:
        return _made(jobs, request, folder, bench, watch)


def _made(jobs: Gathered, request: TogetherRequest, folder: Path, bench: Bench, watch: Watch) -> MadeTogether:
    from wrapwright.core.sheet.cut.listing import cut_list
    from wrapwright.jobs.lay.arranging import ArrangeParts, arrange_parts
    from wrapwright.jobs.lay.goods import goods_of, pinned, request_of
    from wrapwright.jobs.lay.papers import papers_of
    from wrapwright.jobs.lay.printing import FILE, pages_of, print_pages
    from wrapwright.jobs.lay.telling import together_report
    from wrapwright.outside.jobfile.report import report_text

    goods = goods_of(jobs, bench)
    judged = _judged(jobs, goods, request.accept, watch)
    trimmer = jobs.asked.trimmer
    wanted, _ = pinned(request_of(goods, jobs.asked), goods, jobs.pins)
    layout = arrange_parts(ArrangeParts(wanted, request.seconds, trimmer), bench, watch)
    _all_laid(layout, goods)
    watch.step("listing the cuts", 0.38)
    cuts = cut_list(layout, trimmer)
    pages = pages_of(jobs, goods, layout, cuts)
    scratch = folder / ".waiting"
    scratch.mkdir()
    printed = print_pages(jobs, goods, pages, folder / FILE, scratch, bench, watch)
    shutil.rmtree(scratch)
    (folder / "cut-list.pdf").write_bytes(_cut_pages(jobs, layout, cuts, bench))
    for name, data in papers_of(jobs, goods, pages, judged, bench, watch):
        (folder / name).write_bytes(data)
    report = report_text(together_report(jobs, goods, layout, cuts, printed, judged, sorted(folder.iterdir())))
    (folder / "report.json").write_text(report, encoding="utf-8", newline="\n")
    watch.step("handing over", 0.98)
    named = [(member.title, one) for member, found in zip(jobs.members, judged, strict=True) for one in found[0]]
    return MadeTogether(json.loads(report), tuple(named))


def _cut_pages(jobs: Gathered, layout: Layout, cuts: CutList, bench: Bench) -> bytes:
    from wrapwright.jobs.work.papers import LETTER_USERS
    from wrapwright.outside.documents.cutting.cut_pages import CutPages, cut_list_pdf

    asked = jobs.asked
    paper = "Letter" if asked.sheet.paper.casefold() in LETTER_USERS else "A4"
    date = asked.date.isoformat() if asked.date else ""
    return cut_list_pdf(CutPages(asked.title, layout, cuts, date=date, paper=paper), cache=bench.folders.cache)


def _judged(
    jobs: Gathered, goods: Goods, accept: frozenset[str], watch: Watch
) -> list[tuple[tuple[Finding, ...], Facts]]:
    """Return what the checks say of each job; stop with all of it when an error is not accepted."""
    from wrapwright.jobs.verdict import stand_or_stop
    from wrapwright.jobs.work.judging import judged

    found = []
    for number, (member, raised) in enumerate(zip(jobs.members, goods.findings, strict=True)):
        watch.step(f"checking {member.asked.job}", 0.22 + 0.13 * number / len(jobs.members))
        quiet = Watch(cancelled=watch.cancelled)
        found.append(judged(member.composed, quiet, raised=raised, accepted=accept | jobs.asked.accept))
    stand_or_stop(
        replace(one, message=f"{member.title}: {one.message}")
        for member, (findings, _facts) in zip(jobs.members, found, strict=True)
        for one in findings
    )
    return found


def _all_laid(layout: Layout, goods: Goods) -> None:
    laid = sum(len(sheet.pieces) for sheet in layout.sheets)
    wanted = sum(good.part.copies for good in goods.goods)
    if laid < wanted:
        papers = ", ".join(
            f"{stock.at_hand} of {stock.paper}" for stock in layout.request.stocks if stock.at_hand is not None
        )
        where_laid = f"the sheets at hand ({papers}) hold" if papers else "the papers hold, as they were laid,"
        raise unusable(
            f"{where_laid} {laid} of the {wanted} pieces.",
            remedy="Make fewer, or name a further paper.",
            where="sheet: papers",
        )
