"""The handling list: every piece in the order in which it comes to the tray, with room to tick it off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from wrapwright.outside.documents.lettering import spelt
from wrapwright.outside.documents.typeset import pdf_of

_TEMPLATE = "handling.typ"
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
_MARGIN, _HEAD, _ROW, _FOOT = 11.0, 7.0, 5.6, 4.0
_FIRST = 24.0  # of the title and the summary
_LINE = 4.6  # of one more sentence below them
PAGES_AT_ONCE = 2  # set together: the typesetter remembers its last ten documents, so that few pages each cost little


@dataclass(frozen=True)
class TrayLine:
    """One piece: its number, name, row, blank, and the sheet it is cut from."""

    piece: int
    name: str
    row: int
    blank: str
    sheet: int


@dataclass(frozen=True)
class TrayGroup:
    """Pieces that come from the cutter together: what is said over them, and how many they are."""

    said: str
    pieces: int


@dataclass(frozen=True, eq=False)
class HandlingList:
    """What the list says.

    Attributes:
        title: of the job.
        summary: one sentence on the whole.
        how: sentences on how it is used.
        cautions: what to mind.
        groups: the groups in order.
        foot: what stands at every page's foot.
        date: "2026-05-02", or "" for none.
        paper: "Letter" or "A4".
    """

    title: str
    summary: str
    how: tuple[str, ...]
    cautions: tuple[str, ...]
    groups: Sequence[TrayGroup]
    foot: str
    date: str = ""
    paper: str = "Letter"


def handling_words(data: HandlingList, lines: Iterable[TrayLine]) -> Iterator[dict[str, object]]:
    """Yield what `handling_part` sets, a few pages each time, in order; `lines` are read as they are needed."""
    rooms = list(_pages(data))
    given = iter(lines)
    for first in range(0, len(rooms), PAGES_AT_ONCE):
        pages = [
            {"first": number == 0, "number": number + 1, "lines": [_line(one, data, given) for one in rooms[number]]}
            for number in range(first, min(first + PAGES_AT_ONCE, len(rooms)))
        ]
        yield _words(data, pages, len(rooms))


def handling_part(words: Mapping[str, object], *, cache: Path, on: str) -> bytes:
    """Return the PDF of a few pages of the list.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    return pdf_of(_TEMPLATE, words, {}, cache=cache, on=on)


def _pages(data: HandlingList) -> Iterator[list[int]]:
    """Yield for each page what its lines are: a group's number for a heading, -1 for a piece."""
    high = PAPERS[data.paper][1] - 2 * _MARGIN - _FOOT - _HEAD
    room = int((high - _FIRST - _LINE * (len(data.how) + len(data.cautions))) / _ROW)
    page: list[int] = []
    for number, group in enumerate(data.groups):
        left = group.pieces
        while left:
            if room - len(page) < 3 and len(page) + left + 1 > room:
                yield page
                page, room = [], int(high / _ROW)
            page.append(number)
            fit = min(left, room - len(page))
            page += [-1] * fit
            left -= fit
    if page:
        yield page


def _line(kind: int, data: HandlingList, lines: Iterator[TrayLine]) -> list[str]:
    if kind >= 0:
        return [data.groups[kind].said]
    one = next(islice(lines, 1))
    return [str(one.piece), spelt(one.name), str(one.row), one.blank, str(one.sheet)]


def _words(data: HandlingList, pages: list[dict[str, object]], of: int) -> dict[str, object]:
    return {
        "kind": "Handling list",
        "title": data.title,
        "date": data.date,
        "page": list(PAPERS[data.paper]),
        "margin": _MARGIN,
        "head_mm": _HEAD,
        "row_mm": _ROW,
        "summary": data.summary,
        "how": list(data.how),
        "cautions": list(data.cautions),
        "foot": data.foot,
        "pages": pages,
        "of": of,
    }
