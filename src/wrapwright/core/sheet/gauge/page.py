"""The gauge's pages: the strips the way the wraps lie in the printer, and what to do with them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.gauge.strip import LEAST_MM, MOST_PIECES, REACHES_MM, Strip, strip_for
from wrapwright.core.sheet.gauge.drawing import Placed, draw_piece, draw_rule, size_of
from wrapwright.core.sheet.gauge.example import draw_example, example_of
from wrapwright.core.sheet.marks import SetLabel
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.scale.drawn import GREY, DrawnPage, Ink, Pen

Lies = Literal["across", "along"]
GAP_MM = 5.0
_EDGE_MM = 0.5  # of room kept beyond what is drawn
_RULE_MM = 16.0  # room that the paper rule takes
_MAX_ROLL_MM = 1200.0
_WORDS_MM = 240.0  # that the steps and the example like to have beside each other


@dataclass(frozen=True)
class Field:
    """The page as the gauge is drawn on it: the strip's length to the right.

    Attributes:
        width_mm, height_mm: of the page, height 0 on a roll until its length is known.
        margins_mm: left, bottom, right, top.
        scale: measured / asked along the drawing's x and y.
        turned: whether the drawing is laid on the page a quarter turn round (a roll, along).
    """

    width_mm: float
    height_mm: float
    margins_mm: tuple[float, float, float, float]
    scale: tuple[float, float]
    turned: bool = False

    @property
    def room_mm(self) -> tuple[float, float]:
        """Printable width and height in true mm."""
        left, bottom, right, top = self.margins_mm
        return (
            (self.width_mm - left - right) * self.scale[0],
            (self.height_mm - bottom - top) * self.scale[1],
        )


def field_for(sheet: SheetRequest, lies: Lies) -> Field:
    """Return the page for strips that lie across (the head's travel) or along (the feed)."""
    top, right, bottom, left = sheet.margins_mm
    across, along = sheet.scale_across, sheet.scale_along
    if sheet.height_mm is None:
        if lies == "along":
            return Field(_MAX_ROLL_MM, sheet.width_mm, (bottom, right, top, left), (along, across), turned=True)
        return Field(sheet.width_mm, _MAX_ROLL_MM, (left, bottom, right, top), (across, along))
    if lies == "across":
        return Field(sheet.width_mm, sheet.height_mm, (left, bottom, right, top), (across, along))
    ends, sides = max(top, bottom), max(left, right)
    return Field(sheet.height_mm, sheet.width_mm, (ends, sides, ends, sides), (along, across))


def strips_for(flats: tuple[tuple[float | None, float, float], ...], field: Field) -> tuple[Strip, ...]:
    """Return the strips, each (wall position or None, rough flat length, radius of its middle line), as they fit.

    A strip that can be read 8 mm to either side is made where it fits, else one with less play, else one of two
    pieces.

    Raises:
        WrapwrightError: unusable; a girth too small to leave anything between the ends, or too long for two pieces.
    """
    return tuple(_strip(*one, field.room_mm[0] - 2.0 * _EDGE_MM) for one in flats)


def _strip(at_mm: float | None, flat_mm: float, radius_mm: float, room_mm: float) -> Strip:
    if flat_mm < LEAST_MM:
        raise unusable(
            f"a girth of {mm_words(flat_mm)} is too small for a gauge; its two ends need {LEAST_MM:g} mm.",
            remedy="Measure it with a strip of paper pricked through both layers.",
            where="girth",
        )
    for pieces in range(1, MOST_PIECES + 1):
        for reach in REACHES_MM:
            made = strip_for(flat_mm, reach_mm=reach, pieces=pieces, radius_mm=radius_mm, at_mm=at_mm)
            if _widest((made,)) <= room_mm:
                return made
    raise unusable(
        f"a girth of {mm_words(flat_mm)} needs more than {MOST_PIECES} pieces of {mm_words(room_mm)}, all that is"
        " printed.",
        remedy="Take a larger paper, or read it with a strip of paper pricked through both layers.",
        where="girth",
    )


def _widest(strips: tuple[Strip, ...]) -> float:
    return max(size_of(strip, piece)[0] for strip in strips for piece in strip.pieces)


def gauge_pages(
    strips: tuple[Strip, ...], field: Field, *, words: tuple[str, ...], steps: tuple[str, ...], wall_mm: float | None,
    set_label: SetLabel,
) -> tuple[DrawnPage, ...]:  # fmt: skip
    """Return the pages.

    Args:
        strips: from `strips_for`.
        field: the page.
        words: what stands on every strip: its set-up, paper and way.
        steps: what to do, a paragraph each.
        wall_mm: height of the wall, for a paper rule beside the strips; None: no rule.
        set_label: sets words.
    """
    maker = _Pages(field, set_label, _widest(strips) + (_RULE_MM if wall_mm is not None else 0.0))
    beside = wall_mm is not None and _widest(strips) <= maker.right - maker.left - _RULE_MM
    if wall_mm is not None and beside:
        maker.rule(wall_mm)
    for strip in strips:
        for piece in strip.pieces:
            maker.strip(Placed(strip, piece, 0.0, 0.0), words)
    if wall_mm is not None and not beside:
        maker.turn_over()
        maker.rule(wall_mm)
    maker.steps(steps, example_of((strips[0].low_mm + strips[0].high_mm) / 2.0))
    return maker.finished()


class _Pages:
    """Pages filled from the top down."""

    def __init__(self, field: Field, set_label: SetLabel, needed_mm: float) -> None:
        self.field, self.set_label = field, set_label
        self.done: list[DrawnPage] = []
        left, bottom, _, top = field.margins_mm
        self.left = left * field.scale[0] + _EDGE_MM
        room = field.room_mm[0] - 2.0 * _EDGE_MM
        # Along a roll nothing is wider than it must be: it is cut where the drawing ends.
        self.right = self.left + (min(room, max(needed_mm, _WORDS_MM)) if field.turned else room)
        self.top = (field.height_mm - top) * field.scale[1] - _EDGE_MM
        self.bottom = bottom * field.scale[1] + _EDGE_MM
        self.cap = 2.1 if self.right - self.left > 150.0 else 1.6
        self._begin()

    def _begin(self) -> None:
        self.pen = Pen(self.set_label)
        self.y = self.top
        self.clear_right = self.right

    def turn_over(self) -> None:
        """Go on with a new page."""
        self._finish()
        self._begin()

    def rule(self, wall_mm: float) -> None:
        """Draw the paper rule at the right edge, as long as the wall or the page lets it be."""
        length = min(wall_mm + 12.0, self.top - self.bottom - 3.5)
        draw_rule(self.pen, (self.right - 12.0, self.top - length - 3.0), length)
        self.clear_right = self.right - _RULE_MM

    def strip(self, placed: Placed, words: tuple[str, ...]) -> None:
        """Draw a piece below what stands there."""
        _, height, below = size_of(placed.strip, placed.piece)
        if self.y - height < self.bottom:
            self.turn_over()
        middle = (self.left + self.clear_right) / 2.0
        here = Placed(placed.strip, placed.piece, middle, self.y - height + below)
        draw_piece(self.pen, here, (_called(placed), *words))
        self.y -= height + GAP_MM

    def steps(self, steps: tuple[str, ...], example: tuple[int, int]) -> None:
        """Write what to do in one column and draw the example in the other, or below it."""
        wide = self.clear_right - self.left
        two = wide > 160.0
        column = (wide - 8.0) / 2.0 if two else wide
        tall = self._tall(steps, column)
        needed = tall if two else tall + 42.0 * self.cap
        if self.y - needed < self.bottom:
            self.turn_over()
        start = self.y - 1.0
        at = start
        for number, one in enumerate(steps, start=1):
            self.pen.text(str(number), (self.left, at - self.cap), self.cap)
            at -= self.pen.paragraph(one, (self.left + 2.6 * self.cap, at), self.cap, column - 2.6 * self.cap)
            at -= 0.8 * self.cap
        corner = (self.left + column + 8.0, start) if two else (self.left, at - self.cap)
        self.pen.text("How to read it", (corner[0], corner[1] - self.cap), self.cap, grey=GREY)
        spot = (corner[0], corner[1] - 1.6 * self.cap)
        self.y = min(at, spot[1] - draw_example(self.pen, spot, min(column, 110.0), example, self.cap))

    def _tall(self, steps: tuple[str, ...], column: float) -> float:
        rows = sum(len(self.pen.lines_of(one, self.cap, column - 2.6 * self.cap)) for one in steps)
        return max(rows * 1.95 * self.cap + len(steps) * 0.8 * self.cap, 36.0 * self.cap) + 2.0

    def _finish(self) -> None:
        field = self.field
        height = field.height_mm
        if height != _MAX_ROLL_MM and not field.turned:
            self.done.append(self.pen.page((field.width_mm, height), field.scale))
            return
        self.done.append(_cut_from_roll(self.pen, field, self.y))

    def finished(self) -> tuple[DrawnPage, ...]:
        """Return all pages."""
        self._finish()
        return tuple(self.done)


def _cut_from_roll(pen: Pen, field: Field, y: float) -> DrawnPage:
    """Return the page of a roll, cut where the drawing ends; one that runs along is turned a quarter round."""
    page = pen.page((field.width_mm, field.height_mm), field.scale)
    if not field.turned:
        drop = math.floor(y / field.scale[1] - field.margins_mm[1])
        down = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, -drop], [0.0, 0.0, 1.0]])
        inks = tuple(Ink(one.grey, one.path.times(down), one.words) for one in page.inks)
        return DrawnPage(page.width_mm, page.height_mm - drop, inks)
    box = [one.path.box() for one in page.inks if one.path.subpaths]
    first, last = min(one[0] for one in box), max(one[2] for one in box)
    left, _, right, _ = field.margins_mm
    length = float(math.ceil(last - first + left + right))
    turn = np.array([[0.0, -1.0, field.height_mm], [1.0, 0.0, left - first], [0.0, 0.0, 1.0]])
    inks = tuple(Ink(one.grey, one.path.times(turn), one.words) for one in page.inks)
    return DrawnPage(field.height_mm, length, inks)


def _called(placed: Placed) -> str:
    strip = placed.strip
    span = f"reads {strip.low_mm:g} to {strip.high_mm:g} mm"
    place = "" if strip.at_mm is None else f" · middle line at {mm_words(strip.at_mm)} of the wall"
    piece = f" · {placed.piece.name}" if placed.piece.name else ""
    return f"Girth gauge{piece}{place} · {span}"
