"""The papers that go with sheets of many jobs: a proof and a ticket for each job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from wrapwright.core.base.findings import Finding
from wrapwright.core.checks.facts import Facts
from wrapwright.core.design.borders import bleed_outline, trim_outline
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.printed.parts import clear_of_trim
from wrapwright.core.sheet.lay.printed.values import Good, LaidPage, LaidPiece
from wrapwright.core.sheet.placed import Arrangement, PlacedPage
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.lay.gathering import Gathered, Member
from wrapwright.jobs.lay.goods import Goods

Judged = tuple[tuple[Finding, ...], Facts]


def papers_of(
    gathered: Gathered, goods: Goods, pages: Sequence[LaidPage], judged: Sequence[Judged], bench: Bench, watch: Watch
) -> list[tuple[str, bytes]]:
    """Return the proofs and tickets, name and bytes, in the order of the jobs."""
    names = list(file_names(gathered.members))
    done: list[tuple[str, bytes]] = []

    def both(index: int) -> tuple[bytes, bytes]:
        good = goods.members.index(index)
        own = arrangement_of(good, goods.goods[good], pages)
        wraps = [one.wrap for one, member in zip(goods.goods, goods.members, strict=True) if member == index]
        own = replace(own, panels=tuple(wraps) if len(wraps) > 1 else ())
        which = {piece.slip.piece for page in pages for piece in page.pieces if goods.members[piece.good] == index}
        return _both(gathered.members[index], own, judged[index], cut_note(which), bench)

    with ThreadPoolExecutor(max_workers=max(1, min(bench.threads, 2))) as beside:
        for index, (proof, ticket) in enumerate(beside.map(both, range(len(names)))):
            watch.step("drawing proofs and tickets", 0.75 + 0.2 * index / len(names))
            done += [(f"{names[index]}-proof.pdf", proof), (f"{names[index]}-ticket.pdf", ticket)]
    return done


def cut_note(numbers: set[int]) -> str:
    """Return the sentence that leads from a ticket to the cut list; a job's pieces are numbered one after the other."""
    first, last = min(numbers), max(numbers)
    which = f"Pieces {first}–{last} lie" if last > first else f"Piece {first} lies"
    return f"{which} on sheets with others: the cut list has the strokes, and what is left to scissors."


def file_names(members: Sequence[Member]) -> Iterator[str]:
    """Yield for each job the first part of its files' names: its own file's name, with a number where two have one."""
    from wrapwright.outside.system.files import clean_name

    used: set[str] = set()
    for member in members:
        stem = clean_name(member.composed.opened.name.rpartition(".")[0] or member.title, otherwise="job")
        name, number = stem, 2
        while name.casefold() in used:
            name, number = f"{stem}-{number}", number + 1
        used.add(name.casefold())
        yield name


def arrangement_of(index: int, good: Good, pages: Sequence[LaidPage]) -> Arrangement:
    """Return a job's pieces as pages of one piece each, as a ticket reads them; first the first piece."""
    own = [(page, piece) for page in pages for piece in page.pieces if piece.good == index]
    first = min(own, key=lambda one: one[1].slip.piece)
    placed = _placed(*first, good)
    return Arrangement(tuple(replace(placed, piece=number) for number in range(1, len(pages) + 1)))


def _placed(page: LaidPage, piece: LaidPiece, good: Good) -> PlacedPage:
    guides = (f"guide arcs {clear_of_trim(good.bleed_mm):g} mm",) if piece.guides else ()
    marks = (*(one for one in piece.marks if one != "guide lines"), *guides, *page.marks)
    return PlacedPage(
        piece=piece.slip.piece,
        width_mm=page.width_mm,
        height_mm=page.height_mm,
        to_page=piece.to_page,
        turn_deg=piece.turn_deg,
        trim=trim_outline(good.wrap).times(piece.to_page),
        bleed=bleed_outline(good.wrap, good.bleed_mm).times(piece.to_page),
        trim_box=piece.trim_box,
        bleed_box=piece.bleed_box,
        bleed_mm=good.bleed_mm,
        lines=Path(),
        labels=(),
        marks=marks,
        panel=good.panel,
    )


def _both(member: Member, arrangement: Arrangement, judged: Judged, note: str, bench: Bench) -> tuple[bytes, bytes]:
    from wrapwright.jobs.work.papers import proof_data, seen_of, ticket_data
    from wrapwright.outside.documents.proof import proof_pdf
    from wrapwright.outside.documents.ticket import ticket_pdf

    findings, facts = judged
    composed, cache = member.composed, bench.folders.cache
    seen = seen_of(composed)
    ticket = ticket_data(composed, seen, findings, arrangement)
    ticket = replace(ticket, sheet=replace(ticket.sheet, notes=(note, *ticket.sheet.notes)))
    return (
        proof_pdf(proof_data(composed, seen, findings, facts), cache=cache),
        ticket_pdf(ticket, cache=cache),
    )
