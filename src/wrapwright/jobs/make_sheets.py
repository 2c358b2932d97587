"""Make a job: the sheets, the proof, the ticket and the report, all of them or none."""

from __future__ import annotations

import json
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import raise_all
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Made, MakeRequest

if TYPE_CHECKING:
    from wrapwright.core.base.findings import Finding
    from wrapwright.core.checks.facts import Facts
    from wrapwright.core.sheet.placed import Arrangement
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.jobs.work.opening import Opened
    from wrapwright.jobs.work.papers import SeenWrap


def make_sheets(request: MakeRequest, bench: Bench, watch: Watch) -> Made:
    """Return the report of what was left in the folder.

    Raises:
        ChecksSayNoError: kind checks, with all findings, when an error is not accepted; nothing is made.
        WrapwrightError: the job cannot be read or composed, or the folder must not be written.
    """
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.work.opening import opened

    watch.step("reading the job", 0.0)
    job = opened(request.job, request.text, bench.folders.fonts, shelf_of(bench))
    return make_opened(job, request, bench, watch)


def make_opened(job: Opened, request: MakeRequest, bench: Bench, watch: Watch) -> Made:
    """Return the report of what was left in the request's folder of a job that was read already.

    Raises:
        ChecksSayNoError, WrapwrightError: as `make_sheets`.
    """
    from wrapwright.jobs.verdict import stand_or_stop
    from wrapwright.jobs.work.composing import compose
    from wrapwright.jobs.work.judging import judged
    from wrapwright.jobs.work.papers import seen_of
    from wrapwright.jobs.work.reporting import report_of
    from wrapwright.jobs.work.sheets import arranged, output_in_doubt, sheet_files
    from wrapwright.outside.jobfile.report import report_text
    from wrapwright.outside.system.delivery import delivery

    with delivery(request.folder, force=request.force) as folder:
        composed = compose(job, bench, watch)
        raise_all(output_in_doubt(composed, request.output))
        arrangement = arranged(composed, bench)
        # The wrap as seen is drawn beside the checks, the papers beside the packing: neither needs the other.
        with ThreadPoolExecutor(max_workers=1) as beside:
            seen = beside.submit(seen_of, composed)
            findings, facts = judged(composed, watch, raised=arrangement.findings, accepted=request.accept)
            stand_or_stop(findings)
            watch.step("making the sheets", 0.45)
            packing = beside.submit(sheet_files, composed, arrangement.pages, request.output, bench)
            papers = _papers(composed, seen.result(), findings, facts, arrangement, bench, watch)
            sheets = packing.result()
        notes = (*composed.remarks, *arrangement.notes)
        report = report_text(report_of(composed, facts, findings, sheets, papers, notes=notes))
        for name, data in [*((one.name, one.data) for one in sheets), *papers]:
            (folder / name).write_bytes(data)
        (folder / "report.json").write_text(report, encoding="utf-8", newline="\n")
        watch.step("handing over", 0.98)
    return Made(json.loads(report), findings)


def _papers(
    composed: Composition,
    seen: SeenWrap,
    findings: Sequence[Finding],
    facts: Facts,
    arrangement: Arrangement,
    bench: Bench,
    watch: Watch,
) -> list[tuple[str, bytes]]:
    """Return the proof and the ticket, name and bytes."""
    from wrapwright.jobs.work.papers import proof_data, ticket_data
    from wrapwright.outside.documents.proof import proof_pdf
    from wrapwright.outside.documents.ticket import ticket_pdf

    cache = bench.folders.cache
    watch.step("drawing the proof", 0.6)
    proof = proof_pdf(proof_data(composed, seen, findings, facts, arrangement.panels), cache=cache)
    watch.step("writing the ticket", 0.9)
    return [
        ("proof.pdf", proof),
        ("ticket.pdf", ticket_pdf(ticket_data(composed, seen, findings, arrangement), cache=cache)),
    ]
