"""The pages: coupons mirrored like every transfer, each with its number and its heat to read outside the trim."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.units import mm_words
from wrapwright.core.design.path import Path, joined
from wrapwright.core.press.trial.sheet.card import BLACK, HEIGHT_MM, WIDTH_MM, Tint, card
from wrapwright.core.sheet.marks import SetLabel, check_bar, line, motion
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.scale.drawn import GREY, LEADING, Pen

EDGE_MM = 3.0  # least that the card keeps from the trim
USUAL_MM = (WIDTH_MM + 2 * EDGE_MM, HEIGHT_MM + 2 * EDGE_MM)
LARGEST_MM = 200.0
BAR_MM = 50.0
_CLEAR_MM, _TICK_MM = 3.0, 2.2  # marks lie 3 mm outside the trim
_ACROSS_MM = 2 * _CLEAR_MM + _TICK_MM  # from trim to trim
_CAP_MM = 2.0
_INDENT_MM = 2.5  # the upright trim marks stand at the label's left and would read as a digit 1
_LABEL_MM = _CLEAR_MM + 2 * LEADING * _CAP_MM + _CLEAR_MM  # below the trim, to the next one
_TITLE_MM = 3.4
_ROLL_MM = 2000.0


@dataclass(frozen=True)
class Labelled:
    """One printed coupon: its number, and the two lines that are read beside it."""

    number: int
    heat: str
    time: str


@dataclass(frozen=True, eq=False)
class PrintedPage:
    """A page: exactly the paper, page mm from its lower left corner, tints bottom to top."""

    width_mm: float
    height_mm: float
    tints: tuple[Tint, ...]


@dataclass(frozen=True)
class Piece:
    """What is cut out in one: coupons that hang together, one, or the positions of a strip."""

    coupons: tuple[Labelled, ...]
    cell_mm: tuple[float, float]

    @property
    def width_mm(self) -> float:
        """From trim to trim."""
        return len(self.coupons) * self.cell_mm[0]


def pieces_for(
    coupons: Sequence[Labelled], size_mm: tuple[float, float], sheet: SheetRequest, *, strip_mm: float | None = None
) -> tuple[Piece, ...]:
    """Return what is cut out: each coupon for itself, or (`strip_mm`, the girth) positions that hang together.

    A strip longer than the paper is wide is made of several, which are laid end to end.

    Raises:
        WrapwrightError: unusable for a size that holds no card, that cannot be printed, or a girth too short for so
            many positions.
    """
    width, height = size_mm if strip_mm is None else (strip_mm / len(coupons), size_mm[1])
    room = _room(sheet)
    if strip_mm is not None and width < WIDTH_MM + 1.0:
        most = math.floor(strip_mm / (WIDTH_MM + 1.0))
        raise unusable(
            f"{len(coupons)} positions on {mm_words(strip_mm)} have {mm_words(width)} each, and a card needs"
            f" {mm_words(WIDTH_MM + 1.0)}.",
            remedy=f"Plan {most} or fewer." if most >= 2 else "Take a blank with a larger girth.",
            where="length",
        )
    least = (WIDTH_MM + (1.0 if strip_mm is not None else 2 * EDGE_MM), HEIGHT_MM + 2 * EDGE_MM)
    for name, one, low, high in (("wide", width, least[0], room[0]), ("high", height, least[1], room[1])):
        limit = min(high, LARGEST_MM)
        if not low - 1e-9 <= one <= limit:
            raise unusable(
                f"a coupon {mm_words(one)} {name} cannot be printed: {mm_words(low)} to {mm_words(limit)} can on"
                f" {sheet.paper}.",
                remedy="Give another size, or take another paper.",
                where="size",
            )
    if strip_mm is None:
        return tuple(Piece((one,), (width, height)) for one in coupons)
    fit = max(1, math.floor(room[0] / width + 1e-9))
    return tuple(Piece(tuple(coupons[at : at + fit]), (width, height)) for at in range(0, len(coupons), fit))


def _room(sheet: SheetRequest) -> tuple[float, float]:
    """Return the widest and the highest that can be cut out, true mm."""
    top, right, bottom, left = sheet.margins_mm
    height = _ROLL_MM if sheet.height_mm is None else sheet.height_mm
    wide = (sheet.width_mm - left - right) * sheet.scale_across - 2 * (_CLEAR_MM + _TICK_MM)
    high = (height - top - bottom) * sheet.scale_along - _LABEL_MM - _CLEAR_MM - _TICK_MM - _foot_mm()
    return wide, high


def _foot_mm() -> float:
    return 8.0


def coupon_pages(
    pieces: Sequence[Piece], sheet: SheetRequest, *, title: str, words: Sequence[str], set_label: SetLabel
) -> tuple[PrintedPage, ...]:  # fmt: skip
    """Return the pages.

    Args:
        pieces: from `pieces_for`.
        sheet: the set-up's paper, margins and scale.
        title: stands on every page.
        words: what to do, on the first page, a paragraph each.
        set_label: sets words.
    """
    maker = _Maker(sheet, lru_cache(maxsize=None)(set_label), title)
    maker.begin(words)
    for piece in pieces:
        maker.put(piece)
    return maker.finished()


class _Maker:
    """Lays pieces on pages, row by row from the top, in true millimetres of the printable field."""

    def __init__(self, sheet: SheetRequest, set_label: SetLabel, title: str) -> None:
        self.sheet, self.set_label, self.title = sheet, set_label, title
        self.scale = (sheet.scale_across, sheet.scale_along)
        top, right, bottom, left = sheet.margins_mm
        height = _ROLL_MM if sheet.height_mm is None else sheet.height_mm
        self.left, self.right = left * self.scale[0], (sheet.width_mm - right) * self.scale[0]
        self.bottom, self.top = bottom * self.scale[1], (height - top) * self.scale[1]
        self.height = height
        self.pages: list[PrintedPage] = []
        self.pen, self.cards = Pen(set_label), list[Tint]()
        self.x, self.y, self.row = self.left, self.top, 0.0

    def begin(self, words: Sequence[str]) -> None:
        """Begin a page with its title and, on the first, what to do."""
        self.pen, self.cards = Pen(self.set_label), []
        at = self.top - 1.0
        self.pen.text(self.title, (self.left + 1.0, at - _TITLE_MM), _TITLE_MM)
        at -= _TITLE_MM + 3.0
        for one in words:
            at -= self.pen.paragraph(one, (self.left + 1.0, at), _CAP_MM, self.right - self.left - 2.0, grey=GREY) + 1.2
        self.x, self.y, self.row = self._start(), at - _CLEAR_MM - _TICK_MM, 0.0

    def _start(self) -> float:
        return self.left + _CLEAR_MM + _TICK_MM

    def put(self, piece: Piece) -> None:
        """Lay one piece where there is room for it, in this row, the next, or on the next page."""
        width, height = piece.width_mm, piece.cell_mm[1]
        if self.x + width > self.right - _CLEAR_MM - _TICK_MM + 1e-6:
            self.x, self.y, self.row = self._start(), self.y - self.row, 0.0
        if self.y - height - _LABEL_MM < self.bottom + _foot_mm() - 1e-6:
            self.end()
            self.begin(())
        self._draw(piece, self.x, self.y - height)
        self.x += width + _ACROSS_MM
        self.row = max(self.row, height + _LABEL_MM)

    def _draw(self, piece: Piece, left: float, bottom: float) -> None:
        wide, high = piece.cell_mm
        for at, one in enumerate(piece.coupons):
            # As seen the positions run to the right; on the paper, mirrored, to the left.
            right = left + piece.width_mm - at * wide
            corner = (right - (wide - WIDTH_MM) / 2.0, bottom + (high - HEIGHT_MM) / 2.0)
            to_page = mirrored(0, self.scale, corner)
            self.cards += [Tint(tint.colour, tint.path.times(to_page), tint.words) for tint in self._card(one.number)]
            self._label(one, right - wide, bottom, wide)
        self.pen.shape(_ticks(left, bottom, piece.width_mm, high))

    def _card(self, number: int) -> tuple[Tint, ...]:
        return card(number, self.set_label)

    def _label(self, one: Labelled, left: float, bottom: float, width: float) -> None:
        first = f"{one.number}   {one.heat}"
        widest = max(self.pen.width(text, _CAP_MM) for text in (first, one.time))
        cap = min(_CAP_MM, _CAP_MM * (width - _INDENT_MM - 1.0) / widest)
        y = bottom - _CLEAR_MM - _CAP_MM
        self.pen.text(first, (left + _INDENT_MM, y), cap)
        self.pen.text(one.time, (left + _INDENT_MM, y - LEADING * _CAP_MM), cap)

    def end(self) -> None:
        """Finish the page with its check bar."""
        used = self.y - self.row
        bar = check_bar(BAR_MM, set_label=self.set_label)
        foot = self.bottom if self.sheet.height_mm is not None else used - _foot_mm()
        place = motion(0.0, (self.left + 1.0 - bar.box[0], foot + 0.5 - bar.box[1]))
        self.pen.shape(bar.lines.times(place))
        height = self.height
        shift = 0.0
        if self.sheet.height_mm is None:
            shift = foot - self.bottom
            height = self.height - shift / self.scale[1]
        page = self.pen.page((self.sheet.width_mm, height), self.scale)
        grey = [Tint((ink.grey,) * 3, ink.path, ink.words) for ink in page.inks]
        words = [
            Tint(BLACK, one.path.times(np.diag([1 / self.scale[0], 1 / self.scale[1], 1]) @ place)) for one in bar.words
        ]
        lift = motion(0.0, (0.0, -shift / self.scale[1]))
        tints = [*self.cards, *grey, *words]
        moved = tuple(Tint(one.colour, one.path.times(lift), one.words) for one in tints) if shift else tuple(tints)
        self.pages.append(PrintedPage(self.sheet.width_mm, height, moved))

    def finished(self) -> tuple[PrintedPage, ...]:
        """Return the pages."""
        self.end()
        return tuple(self.pages)


def _ticks(left: float, bottom: float, width: float, height: float) -> Path:
    """Return short lines that go on from the trim's edges at each corner, 3 mm outside it."""
    found = []
    for x, out_x in ((left, -1.0), (left + width, 1.0)):
        for y, out_y in ((bottom, -1.0), (bottom + height, 1.0)):
            corner = np.array([x, y])
            ways = (np.array([out_x, 0.0]), np.array([0.0, out_y]))
            found += [line(corner + way * _CLEAR_MM, corner + way * (_CLEAR_MM + _TICK_MM), 0.15) for way in ways]
    return joined(found)
