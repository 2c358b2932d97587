"""The contact sheet: every piece as it will be finished, to be looked at and signed off before it is made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.names.signing import Since
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.contact.art import ContactArt
from wrapwright.jobs.names.contact.choosing import Choice, Shown, chosen, cut_key, sheet_of
from wrapwright.jobs.names.contact.grid import Cells, cells_of
from wrapwright.jobs.names.making.planning import Planned
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.names.proving.anew import anew_of
from wrapwright.jobs.names.signing import named_rows, signed_words, since

if TYPE_CHECKING:
    from wrapwright.outside.documents.names.contact import Caption, ContactData, Exceptional, Grid
    from wrapwright.outside.pdf.listed.seen import SeenPages

_NONE: Mapping[int, str] = {}
_ROOM, _SMALL_ROOM = 1900.0, 760.0  # mm² of a piece in the file's order, and in the order of cutting
_SIZE, _SMALL_SIZE = 8.6, 6.8  # pt of the names
_STEP = 100
_CLOSE = ";  below each piece what it writes, at true size where there is room"
_GRAVE = {"error": 0, "warning": 1, "note": 2}


def contact_pdf(
    names: NamesList,
    planned: Planned,
    file: Path,
    bench: Bench,
    watch: Watch,
    *,
    rows: frozenset[int] | None = None,
    refused: Mapping[int, str] = _NONE,
) -> None:
    """Write the contact sheet of a run, in bounded memory.

    Up to 500 rows stand on it all, of a longer list a sample and every exception (edited, accepted in spite of a
    problem, with a picture of its own, edited after the sign-off, not made).

    Args:
        names: the list.
        planned: which piece lies where.
        file: where it goes.
        bench: for its cache.
        watch: asked whether to stop, told how far it is.
        rows: numbers of the rows that are made; None: all.
        refused: rows that could not be made, with the reason.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    from wrapwright.outside.documents.names.contact import contact_frames
    from wrapwright.outside.pdf.listed.seen import SeenPages

    watch.step("drawing the contact sheet", 0.95)
    state = since(names)
    choice = chosen(names, rows, refused, frozenset() if state is None else state.rows)
    art = ContactArt(anew_of(names, planned.composed, planned.run.typical, bench))
    sheet = _Sheet(planned, art, choice)
    sheet.lay()
    data = sheet.data(names, state)
    pages = SeenPages(contact_frames(data, cache=bench.folders.cache), len(sheet.grids), art.shared())
    sheet.draw(pages, watch)
    pages.save(file, title=data.title, on=data.date)


@dataclass
class _Sheet:
    """Puts a contact sheet together."""

    planned: Planned
    art: ContactArt
    choice: Choice
    grids: list[Grid] = field(default_factory=list)
    places: list[tuple[int, Shown, Cells, int]] = field(default_factory=list)
    cut_apart: bool = False

    def lay(self) -> None:
        """Lay the pieces on pages: in the file's order, and in the order of cutting where that is another."""
        by_row = list(self.choice.shown)
        run = self.planned.run.places
        by_cut = sorted(by_row, key=lambda one: cut_key(run, one.at))
        self.cut_apart = [one.row.number for one in by_cut] != [one.row.number for one in by_row]
        head = "In the order of the file" + ("" if self.cut_apart else ", which is that of the cut sheets too")
        self._pages(by_row, _ROOM, head, _SIZE, close=True)
        if self.cut_apart:
            self._pages(by_cut, _SMALL_ROOM, "In the order the sheets are cut", _SMALL_SIZE, close=False)

    def _pages(self, shown: Sequence[Shown], room: float, head: str, size: float, *, close: bool) -> None:
        noted = any(one.whys for one in shown)
        cells = cells_of(
            trim_outline(self.planned.composed.wrapped.wrap).box(), self._paper(), room, size_pt=size, noted=noted,
            close=self._close_mm() if close else 0.0,
        )  # fmt: skip
        for first in range(0, len(shown), cells.a_page):
            here = shown[first : first + cells.a_page]
            page = len(self.grids)
            captions = []
            for place, one in enumerate(here):
                self.places.append((page, one, cells, place))
                captions.append(self._caption(one, cells, place, by_cut=not close))
            self.grids.append(_grid(head, self._side(here, by_cut=not close), captions, size))

    def _side(self, here: Sequence[Shown], *, by_cut: bool) -> str:
        if by_cut:
            run = self.planned.run.places
            first, last = (cut_key(run, one.at)[0] + 1 for one in (here[0], here[-1]))
            return f"stack {first}" if first == last else f"stacks {first}–{last}"
        first, last = here[0].row.number, here[-1].row.number
        return (f"row {first}" if first == last else f"rows {first}–{last}") + _CLOSE

    def _caption(self, one: Shown, cells: Cells, place: int, *, by_cut: bool) -> Caption:
        from wrapwright.outside.documents.names.contact import Caption

        told = f"row {one.row.number}  ·  {pieces_of_row(one)}"
        if by_cut:
            told = f"sheet {sheet_of(self.planned.run.places, one.at)}  ·  {told}"
        note = "; ".join(why.words for why in one.whys)
        tone = one.whys[0].tone if one.whys else "note"
        left, top = cells.corner(place)
        below = top + cells.high + cells.close_mm
        return Caption(
            one.name or "(no name)",
            told,
            note,
            tone,
            bool(one.absent),
            (left, below + 0.9),
            cells.wide,
            top,
            cells.high,
            _other(one),
        )

    def _close_mm(self) -> float:
        """Return how tall the close-ups are, 0 for none: as the first few rows ask for."""
        boxes = [box for one in self.choice.shown[:5] if (box := self._close_up(one)) is not None]
        return min(16.0, max(box[3] - box[1] for box in boxes) + 2.0) if boxes else 0.0

    def _close_up(self, one: Shown) -> tuple[float, float, float, float] | None:
        try:
            return None if one.absent else self.art.close_up(one.row)
        except WrapwrightError:
            return None

    def _paper(self) -> tuple[float, float]:
        from wrapwright.outside.documents.names.contact import PAPERS

        return PAPERS[_paper_of(self.planned)]

    def draw(self, pages: SeenPages, watch: Watch) -> None:
        """Draw every piece into its places."""
        drawn: set[int] = set()
        for count, (page, one, cells, place) in enumerate(self.places):
            if count % _STEP == 0:
                watch.step("drawing the contact sheet", 0.95)
            if one.absent:
                continue
            number = one.row.number
            if number not in drawn:
                pages.add(number, self.art.piece(one.row))
                drawn.add(number)
            pages.draw(cells.whole(page, number, place))
            if cells.close_mm and (box := self._close_up(one)) is not None:
                pages.draw(cells.close(page, number, place, box))

    def data(self, names: NamesList, state: Since | None) -> ContactData:
        """Return what the pages say."""
        from wrapwright.outside.documents.names.contact import ContactData

        job = self.planned.composed.opened.job
        listed = sorted((_exceptional(one) for one in self.choice.shown if one.whys), key=lambda one: _GRAVE[one.tone])
        return ContactData(
            title=job.title,
            summary=_summary(self.choice),
            facts=tuple(_facts(names, self.planned, self.choice)),
            said=tuple(_said(self.choice, state)),
            sha256=names.sha256,
            exceptions=listed,
            exceptions_more=_more(self.choice, [one.row for one in listed]),
            grids=self.grids,
            date=job.date.isoformat() if job.date else "",
            paper=_paper_of(self.planned),
        )


def _other(one: Shown) -> str:
    """Return what a row's fields say but for its name, each once."""
    found = dict.fromkeys(" ".join(value.split()) for value in one.row.fields.values())
    return "  ·  ".join(value for value in found if value and value != " ".join(one.name.split()))


def pieces_of_row(one: Shown) -> str:
    """Return which pieces a row makes, in words."""
    if one.row.quantity == 1:
        return f"piece {one.piece}"
    return f"pieces {one.piece}–{one.piece + one.row.quantity - 1}"


def _grid(head: str, side: str, captions: Sequence[Caption], size: float) -> Grid:
    from wrapwright.outside.documents.names.contact import Grid

    return Grid(head, side, tuple(captions), size)


def _paper_of(planned: Planned) -> str:
    from wrapwright.jobs.work.papers import LETTER_USERS

    return "Letter" if planned.composed.opened.job.sheet.paper.casefold() in LETTER_USERS else "A4"


def _exceptional(one: Shown) -> Exceptional:
    from wrapwright.outside.documents.names.contact import Exceptional

    numbers = pieces_of_row(one).split(" ", 1)[1] if not one.absent else "–"
    return Exceptional(
        one.row.number, numbers, one.name or "(no name)", "; ".join(why.words for why in one.whys), one.whys[0].tone
    )


def _summary(choice: Choice) -> str:
    rows = "1 row" if choice.rows == 1 else f"{choice.rows} rows"
    pieces = "1 piece" if choice.pieces == 1 else f"{choice.pieces} pieces"
    if choice.whole:
        return f"{rows}, {pieces}: all of them are shown, as they will be finished."
    return (
        f"{rows}, {pieces}: {len(choice.shown)} rows are shown, as they will be finished: a sample spread over the "
        "whole list, the longest names, and every exception."
        if not choice.left
        else f"{rows}, {pieces}: {len(choice.shown)} rows are shown: a sample, the longest names, and of "
        f"{choice.exceptions} exceptions {choice.exceptions - choice.left}."
    )


def _facts(names: NamesList, planned: Planned, choice: Choice) -> Iterator[tuple[str, str]]:
    from wrapwright.jobs.names.contact.handling import blank_words
    from wrapwright.jobs.names.making.papers import pieces_words

    wrap = planned.composed.wrapped.wrap
    trim = trim_outline(wrap).box()
    yield "Table", names.asked.file + (f", sheet {names.table.taken.sheet}" if names.table.taken.sheet else "")
    yield "Rows", f"{choice.rows} made, {choice.skipped_count} left out"
    yield "Pieces", pieces_words(planned.run.places)
    yield "Blank", blank_words(planned.composed)
    yield "Wrap, cut", f"{trim[2] - trim[0]:.1f} × {trim[3] - trim[1]:.1f} mm"
    yield "Codes", f"{planned.run.mark}-1 to {planned.run.mark}-{planned.run.total}"


def _said(choice: Choice, state: Since | None) -> Iterator[tuple[str, str]]:
    for number, said in enumerate(signed_words(state)):
        yield ("ok" if number == 0 else "error"), said
    if state is not None and state.holds:
        yield "ok", "Nothing was changed since."
    if choice.skipped_count:
        named = named_rows(choice.skipped, choice.skipped_count)
        yield "warning", f"Left out, no piece is made: row{'' if choice.skipped_count == 1 else 's'} {named}."
    if choice.exceptions:
        yield "warning", f"{choice.exceptions} {'row' if choice.exceptions == 1 else 'rows'} to look at twice, below."
    yield "note", "Colours as printed on this coating, near enough to judge; shine and texture are not shown."


def _more(choice: Choice, listed: Sequence[int]) -> str:
    from wrapwright.outside.documents.names.contact import MOST_LISTED

    rest = listed[MOST_LISTED:]
    if not rest and not choice.left:
        return ""
    more = f" and {choice.left} that are not drawn" if choice.left else ""
    return f"And {len(rest)} more{more}, each marked where it stands: rows {named_rows(tuple(rest), len(rest))}."
