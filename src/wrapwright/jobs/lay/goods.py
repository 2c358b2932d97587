"""From composed jobs to what is laid: a part and a label for each, with what has to give way on small papers."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.lay.grid import Grid
from wrapwright.core.sheet.lay.printed.labels import Lettering, Need, needs
from wrapwright.core.sheet.lay.printed.parts import Asked, parts_of
from wrapwright.core.sheet.lay.printed.values import Good, Level, Modules, Slip
from wrapwright.core.sheet.lay.values import LayRequest, Part, Pin, Stock
from wrapwright.core.sheet.panels.arrange import ends_of
from wrapwright.core.sheet.stand import ENDS
from wrapwright.core.sheet.unfit import does_not_fit
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.lay.gathering import Gathered, Member

if TYPE_CHECKING:
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.outside.jobfile.together.reading import SheetsAsked

_LETTERS = 3  # of a job's own mark in its pieces' codes when no order is named


@dataclass(frozen=True, eq=False)
class Goods:
    """What is laid.

    Attributes:
        goods: one a job that fits, in order; of a wrap in panels one a panel.
        members: for each, the index of its job.
        codes: the modules of each piece's code.
        pen: sets words.
        findings: for each job, what is said of its fitting.
        notes: for each job, what gave way.
    """

    goods: tuple[Good, ...]
    members: tuple[int, ...]
    codes: dict[str, Modules]
    pen: Lettering
    findings: tuple[tuple[Finding, ...], ...]
    notes: tuple[tuple[str, ...], ...]


def goods_of(gathered: Gathered, bench: Bench) -> Goods:
    """Return the goods of gathered jobs; one that fits no paper has a finding instead."""
    from wrapwright.outside.codes.matrix import matrix_modules

    asked, members = gathered.asked, gathered.members
    pen = lettering(bench)
    of = sum(one.quantity for one in members)
    slips = slips_of(members, of)
    codes = {slip.code: matrix_modules(slip.code) for each in slips for slip in each}
    goods, places = list[Good](), list[int]()
    findings: list[tuple[Finding, ...]] = []
    notes: list[tuple[str, ...]] = []
    for index, (member, own) in enumerate(zip(members, slips, strict=True)):
        found, raised, said = _goods(member, own, asked, _Pens(codes, pen, bench))
        goods += found
        places += [index] * len(found)
        findings.append(raised)
        notes.append(said)
    return Goods(tuple(goods), tuple(places), codes, pen, tuple(findings), tuple(notes))


@dataclass(frozen=True, eq=False)
class _Pens:
    """What labels are made with."""

    codes: dict[str, Modules]
    pen: Lettering
    bench: Bench


def lettering(bench: Bench) -> Lettering:
    """Return a pen that sets words in the labels' own font."""
    from wrapwright.outside.fonts.labels import label_path
    from wrapwright.outside.fonts.shelf import FontShelf

    return Lettering(partial(label_path, fonts=FontShelf(job_folder=None, user_folder=bench.folders.fonts)))


def request_of(goods: Goods, asked: SheetsAsked, seed: int = 1) -> LayRequest:
    """Return the request to lay goods as a sheets file asks."""
    parts = tuple(good.part for good in goods.goods)
    return LayRequest(parts, asked.stocks, asked.gutter_mm, asked.way, seed=seed, step_mm=step_of(asked.sheet))


def pinned(request: LayRequest, goods: Goods, pins: Sequence[Pin]) -> tuple[LayRequest, tuple[int, ...]]:
    """Return the request with what was put by hand, and the places of those pins that pin nothing any more.

    Args:
        request: for these goods.
        goods: what is laid.
        pins: `part` counts the jobs, not the goods.
    """
    parts = {member: part for part, member in enumerate(goods.members)}
    kept, loose = [], []
    for number, pin in enumerate(pins):
        part = parts.get(pin.part)
        if part is None or pin.copy >= request.parts[part].copies:
            loose.append(number)
        else:
            kept.append(replace(pin, part=part))
    return replace(request, pins=tuple(kept)), tuple(loose)


def step_of(sheet: SheetRequest) -> tuple[float, float]:
    """Return a pixel of the sheet in true mm, across and along."""
    pitch = 25.4 / sheet.ppi
    return pitch * sheet.scale_across, pitch * sheet.scale_along


def slips_of(members: Sequence[Member], of: int) -> list[tuple[Slip, ...]]:
    """Return what is written beside each copy of each job: pieces are numbered through all jobs.

    A code is the order, or three letters of the job's own content, and the piece's number.
    """
    found, number = [], 0
    for member in members:
        own = member.asked.order.upper() or _mark(member.composed.opened.sha256)
        count = member.quantity
        found.append(tuple(Slip(number + copy, of, f"{own}-{number + copy}") for copy in range(1, count + 1)))
        number += count
    return found


def _mark(sha256: str) -> str:
    return base64.b32encode(bytes.fromhex(sha256))[:_LETTERS].decode("ascii")


def _goods(
    member: Member, slips: tuple[Slip, ...], asked: SheetsAsked, pens: _Pens
) -> tuple[list[Good], tuple[Finding, ...], tuple[str, ...]]:
    """Return the goods of a job: one, or of a wrap that needs panels one a panel; none when it fits no paper."""
    from wrapwright.jobs.work.sheets import arranged

    job, wrap = member.composed.opened.job, member.composed.wrapped.wrap
    if not job.wrap.joins_deg:
        good, findings, notes = _good(member, wrap, slips, asked, pens)
        if good is not None:
            return [good], findings, notes
    largest = _on(asked.sheet, max(asked.stocks, key=lambda one: one.width_mm * (one.height_mm or 1e6)))
    if not job.wrap.panels and not job.wrap.joins_deg:
        return [], (does_not_fit(wrap, largest),), ()
    opened = replace(member.composed.opened, job=replace(job, sheet=largest, quantity=1))
    arrangement = arranged(replace(member.composed, opened=opened), pens.bench)
    panels, goods, said = arrangement.panels, list[Good](), list[str](arrangement.notes[-1:])
    for number, panel in enumerate(panels, 1):
        ends = ends_of(number, len(panels))
        good, findings, notes = _good(member, panel, slips, asked, pens, panel=(number, len(panels)), ends=ends)
        if good is None:
            return [], (does_not_fit(panel, largest),), ()
        goods.append(good)
        said += notes
    return goods, arrangement.findings, tuple(dict.fromkeys(said))


def _good(
    member: Member, wrap: FlatWrap, slips: tuple[Slip, ...], asked: SheetsAsked, pens: _Pens, *,
    panel: tuple[int, int] = (0, 0), ends: tuple[str, str] = ENDS,
) -> tuple[Good | None, tuple[Finding, ...], tuple[str, ...]]:  # fmt: skip
    job, name = member.composed.opened.job, member.asked.name
    title = f"{job.title}, panel {panel[0]} of {panel[1]}" if panel[0] else job.title
    lines = ("  ·  ".join(one for one in (title, name) if one), max(ends, key=len) if wrap.plate is None else "")
    labels = needs(slips, pens.codes, tuple(line for line in lines if line), pens.pen)
    wanted = Asked(
        copies=len(slips),
        turns=member.asked.turns,
        gutter_mm=asked.gutter_mm,
        order=member.asked.order,
        name=" · ".join(one for one in (title, name) if one),
        folded=(job.wrap.rim == "fold", job.wrap.base == "fold"),
        first=slips[0].piece,
    )
    bleeds = (job.wrap.bleed_mm, 0.0) if job.wrap.bleed_mm > 0.0 else (0.0,)
    for bleed in bleeds:
        found = _first_that_fits(parts_of(wrap, bleed, wanted, labels), asked)
        if found is not None:
            part, level = found
            findings = (_bleed_cut(job.wrap.bleed_mm, asked),) if bleed < job.wrap.bleed_mm else ()
            good = Good(wrap, bleed, part, level, title, name, slips, panel[0], ends)
            return good, findings, _gave_way(level, labels)
    return None, (), ()


def _first_that_fits(choices: Iterator[tuple[Part, Level]], asked: SheetsAsked) -> tuple[Part, Level] | None:
    for part, level in choices:
        if fits_any(part, asked):
            return part, level
    return None


def fits_any(part: Part, asked: SheetsAsked) -> bool:
    """Return whether a part lies on any of the papers."""
    request = LayRequest((part,), asked.stocks, asked.gutter_mm, step_mm=step_of(asked.sheet))
    return not Grid(request).over


def _on(sheet: SheetRequest, stock: Stock) -> SheetRequest:
    height = None if stock.height_mm is None else stock.height_mm / sheet.scale_along
    return replace(sheet, paper=stock.paper, width_mm=stock.width_mm / sheet.scale_across, height_mm=height)


def _gave_way(level: Level, labels: Sequence[Need]) -> tuple[str, ...]:
    if not labels or level == labels[0].level:
        return ()
    left = {
        "code": "only the piece's number and its code stand",
        "piece number": "only the piece's number stands",
    }.get(level, "nothing stands")
    return (f"There is no room for the label: {left} beside the piece.",)


def _bleed_cut(asked_mm: float, asked: SheetsAsked) -> Finding:
    papers = ", ".join(stock.paper for stock in asked.stocks)
    message = (
        f"There is room on {papers} but not for the bleed: 0 mm of {asked_mm:g} mm is left. "
        "Cut exactly on the trim, or take a larger paper."
    )
    return Finding("bleed-cut", Severity.WARNING, message, figure=0.0, limit=asked_mm, unit="mm")
