"""The papers that go with the sheets of a list: the cut list, and of the typical piece the proof and the ticket."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from wrapwright.core.names.making.places import Places
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.planning import Planned

if TYPE_CHECKING:
    from wrapwright.core.base.findings import Finding
    from wrapwright.core.checks.facts import Facts
    from wrapwright.core.sheet.cut.values import CutList
    from wrapwright.core.sheet.placed import Arrangement


def cuts_of(planned: Planned) -> CutList:
    """Return how the sheets are cut: of each kind as many at once as the trimmer takes."""
    from wrapwright.core.sheet.cut.listing import cut_list
    from wrapwright.jobs.names.making.base import asked_of

    trimmer = replace(asked_of(planned.composed).trimmer, paper_mm=planned.composed.opened.job.sheet.thickness_mm)
    return cut_list(planned.layout, trimmer)


def papers_of(
    planned: Planned, cuts: CutList, findings: Sequence[Finding], facts: Facts, bench: Bench
) -> Iterator[tuple[str, bytes]]:
    """Yield the papers, name and bytes."""
    from wrapwright.jobs.work.papers import proof_data, seen_of, ticket_data
    from wrapwright.outside.documents.proof import proof_pdf
    from wrapwright.outside.documents.ticket import ticket_pdf

    composed, cache, places = planned.composed, bench.folders.cache, planned.run.places
    yield "cut-list.pdf", _cut_pages(planned, cuts, bench)
    seen = seen_of(composed)
    proof = proof_data(composed, seen, findings, facts)
    note = f"The piece of row {planned.run.typical.number} stands for all {places.pieces}."
    yield "proof.pdf", proof_pdf(replace(proof, quantity=places.pieces, notes=(note, *proof.notes)), cache=cache)
    ticket = ticket_data(composed, seen, findings, _arrangement(planned, bench))
    notes = (f"{pieces_words(places)}: the cut list has the strokes.", *ticket.sheet.notes)
    sheet = replace(ticket.sheet, pages=places.sheets, notes=notes)
    yield "ticket.pdf", ticket_pdf(replace(ticket, sheet=sheet, quantity=places.pieces), cache=cache)


def pieces_words(places: Places) -> str:
    """Return how many pieces lie on how many sheets, in words."""
    pieces = "1 piece" if places.pieces == 1 else f"{places.pieces} pieces"
    sheets = "1 sheet" if places.sheets == 1 else f"{places.sheets} sheets"
    return f"{pieces} on {sheets}, {places.a_sheet} on a full one"


def alike_words(places: Places) -> tuple[str, ...]:
    """Return for each kind of sheet which they are: "Sheets 1-124, alike"."""
    from wrapwright.core.sheet.cut.words import ranges

    found = []
    for _, runs in places.alike():
        numbers = [number + 1 for run in runs for number in run]
        many = len(numbers) > 1
        found.append(f"{'Sheets' if many else 'Sheet'} {ranges(numbers)}{', alike' if many else ''}")
    return tuple(found)


def cut_notes(places: Places) -> tuple[str, ...]:
    """Return what the cut list has to say of all the sheets that it does not show."""
    found = [f"In all {pieces_words(places)}."]
    most = max(sum(map(len, runs)) for _, runs in places.alike())
    if most > places.stack:
        stacks = -(-most // places.stack)
        found.append(
            f"The strokes are those of one stack of each kind: the sheets that are alike make {stacks} stacks of up "
            f"to {places.stack}, all cut the same way; the numbers of the pieces are those of the first."
        )
    if places.order == "piles" and places.stack > 1 and places.sheets > 1:
        found.append(
            f"Keep the sheets in their order, {places.stack} to a stack. Cut, each pile holds pieces that follow each "
            "other, the lowest number on top; pile on pile they are in the list's order."
        )
    return tuple(found)


def _cut_pages(planned: Planned, cuts: CutList, bench: Bench) -> bytes:
    from wrapwright.jobs.work.papers import LETTER_USERS
    from wrapwright.outside.documents.cutting.cut_pages import CutPages, cut_list_pdf

    job, places = planned.composed.opened.job, planned.run.places
    pages = CutPages(
        title=job.title,
        layout=planned.layout,
        cuts=replace(cuts, notes=(*cut_notes(places), *cuts.notes)),
        date=job.date.isoformat() if job.date else "",
        paper="Letter" if job.sheet.paper.casefold() in LETTER_USERS else "A4",
        called=alike_words(places),
    )
    return cut_list_pdf(pages, cache=bench.folders.cache)


def _arrangement(planned: Planned, bench: Bench) -> Arrangement:
    """Return the first piece as a page of its own, as a ticket reads it."""
    from wrapwright.jobs.lay.papers import arrangement_of
    from wrapwright.jobs.names.making.base import lettering_of
    from wrapwright.jobs.names.making.pages import Pages

    run, good = planned.run, planned.good
    sheet = planned.composed.opened.job.sheet
    pages = Pages(good, sheet, run.places, run.total, run.pattern, run.mark, lettering_of(bench))
    count = len(run.places.on(0))
    page = pages.page(0, [(number, "") for number in range(1, count + 1)])
    return arrangement_of(0, good, [page])
