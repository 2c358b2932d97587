"""The handling list of a run: every piece in the order in which the cut piles bring it to the tray."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.names.making.places import Places
from wrapwright.core.names.values import Row
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.planning import Planned, pieces_of
from wrapwright.jobs.names.opening import NamesList

if TYPE_CHECKING:
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.documents.names.handling import HandlingList, TrayGroup, TrayLine

_NONE: Mapping[int, str] = {}
_A_PART = 90  # pieces or so on the pages that are set together


def handling_pdf(
    names: NamesList,
    planned: Planned,
    file: Path,
    bench: Bench,
    watch: Watch,
    *,
    rows: frozenset[int] | None = None,
    refused: Mapping[int, str] = _NONE,
) -> None:
    """Write the handling list of a run, in bounded memory.

    Args:
        names: the list.
        planned: which piece lies where.
        file: where it goes.
        bench: for its cache, and its pool, which sets the pages.
        watch: asked whether to stop, told how far it is.
        rows: numbers of the rows that are made; None: all.
        refused: rows that could not be made, with the reason: their lines say so.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    from wrapwright.outside.documents.names.handling import handling_words
    from wrapwright.outside.pdf.listed.joining import joined_pdf
    from wrapwright.outside.system.pool import surely

    data = _list_of(planned, len(refused))
    lines = tray_lines(names, planned, rows, refused)
    with tempfile.TemporaryDirectory(prefix="wrapwright-") as folder:
        asked = (
            _SetPages(words, data.date, bench.folders.cache, Path(folder) / f"{number:06d}.pdf")
            for number, words in enumerate(handling_words(data, lines))
        )
        parts: dict[int, Path] = {}
        for number, part in surely(bench.pool, _pages_set, asked):
            parts[number] = part
            watch.step("writing the handling list", len(parts) * _A_PART / max(planned.run.places.pieces, 1))
        joined_pdf([parts[number] for number in range(len(parts))], file, title=data.title, on=data.date)


@dataclass(frozen=True)
class _SetPages:
    """Set a few pages of the list into a file."""

    words: Mapping[str, object]
    on: str
    cache: Path
    file: Path


def _pages_set(request: _SetPages) -> Path:
    from wrapwright.outside.documents.names.handling import handling_part

    request.file.write_bytes(handling_part(request.words, cache=request.cache, on=request.on))
    return request.file


def tray_lines(
    names: NamesList, planned: Planned, rows: frozenset[int] | None, refused: Mapping[int, str]
) -> Iterator[TrayLine]:
    """Yield the pieces as they come from the cutter, in the memory of one stack of sheets."""
    from wrapwright.outside.documents.names.handling import TrayLine

    who, blank = names.mapping.who, blank_words(planned.composed)
    for piece, row, sheet in in_cut_order(planned.run.places, pieces_of(names, rows)):
        name = row.fields.get(who, "")
        said = f"not made: {refused[row.number]}" if row.number in refused else name
        yield TrayLine(piece, said, row.number, blank, sheet)


def in_cut_order(places: Places, pieces: Iterator[tuple[int, Row]]) -> Iterator[tuple[int, Row, int]]:
    """Yield (number, row, sheet from 1) of every piece in the order in which it comes from the cutter."""
    coming, held = enumerate(pieces), dict[int, tuple[int, Row]]()
    for index, sheet in places.cut_order():
        while index not in held:
            at, one = next(coming)
            held[at] = one
        yield (*held.pop(index), sheet + 1)


def blank_words(composed: Composition) -> str:
    """Return the blank in a word or two: its name, or its kind and girth."""
    blank, profile = composed.opened.job.blank, composed.wrapped.profile
    if blank.name:
        return blank.name
    if composed.wrapped.wrap.plate is not None:
        flat = composed.wrapped.wrap
        return f"flat, {flat.turn_length(0.0):.0f} × {flat.height_mm:.0f} mm"
    girths = [f"{girth:.0f}" for girth in sorted({round(girth) for _, girth in profile})]
    spread = girths[0] if len(girths) == 1 else f"{girths[0]}–{girths[-1]}"
    return f"{blank.kind}, girth {spread} mm"


def _list_of(planned: Planned, refused: int) -> HandlingList:
    from wrapwright.data.press import cautions_for
    from wrapwright.jobs.names.making.papers import pieces_words
    from wrapwright.jobs.press.plan.for_job import is_double
    from wrapwright.jobs.work.papers import LETTER_USERS
    from wrapwright.outside.documents.names.handling import HandlingList

    composed, places = planned.composed, planned.run.places
    job, recipe = composed.opened.job, composed.recipe
    flat = composed.wrapped.wrap.plate is not None
    ware = recipe.ware if recipe else "unknown"
    heater = recipe.heater if recipe else "unknown"
    told = cautions_for("heat", ware, heater, flat=flat, double=is_double(job, recipe))
    grave = [one.text for one in told if one.grave]
    how = [
        "Pieces stand in the order in which they come from the cutter: stack by stack, pile by pile, from the top. "
        "Lay each on its blank, tick it when it is wrapped, heated, and found good; the code beside a piece says its "
        "number."
    ]
    if refused:
        how.append(f"{refused} {'row was' if refused == 1 else 'rows were'} not made: their places are empty.")
    return HandlingList(
        title=job.title,
        summary=f"{pieces_words(places)}.",
        how=tuple(how),
        cautions=tuple(grave[:3]),
        groups=list(_groups(places)),
        foot=f"List {planned.run.mark}, {places.pieces} pieces.",
        date=job.date.isoformat() if job.date else "",
        paper="Letter" if job.sheet.paper.casefold() in LETTER_USERS else "A4",
    )


def _groups(places: Places) -> Iterator[TrayGroup]:
    from wrapwright.outside.documents.names.handling import TrayGroup

    deep = max(1, places.stack)
    for number, first in enumerate(range(0, places.sheets, deep), start=1):
        last = min(first + deep, places.sheets)
        held = sum(len(places.on(sheet)) for sheet in range(first, last))
        sheets = f"sheet {first + 1}" if last == first + 1 else f"sheets {first + 1}–{last}"
        yield TrayGroup(f"Stack {number}: {sheets}", held)
