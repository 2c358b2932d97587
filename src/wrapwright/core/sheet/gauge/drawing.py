"""Strips drawn: where they are cut, their marks, the halves that go away, and the words on them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.blank.gauge.strip import HALF_MM, WIDTH_MM, Piece, Strip, Tick
from wrapwright.core.design.path import polygon, rectangle
from wrapwright.core.sheet.scale.drawn import GREY, PALE, Pen, Point

CUT_MM = 0.1
TICK_MM = 0.13
OVER_MM = 0.6  # a mark goes on beyond the cut, so that it reaches the edge however the knife runs
_STEP_MM = 2.0  # of a bent line's chords: under 0.002 mm off at any radius that is drawn
_HATCH_MM = 2.5
_LABEL_MM = 1.7


@dataclass(frozen=True)
class Placed:
    """A piece's place on the page: its own middle goes to `middle`, its lower edge there to `foot`."""

    strip: Strip
    piece: Piece
    middle: float
    foot: float

    @property
    def middle_x(self) -> float:
        """The strip's x that stands upright."""
        left, right = self.piece.span_mm
        return (left + right) / 2.0

    def at(self, x: float, v: float) -> Point:
        """Return where a place of the strip lies, in true page mm."""
        along, up = self.strip.bent(x, v, self.middle_x)
        return self.middle + along, self.foot + up


def size_of(strip: Strip, piece: Piece) -> tuple[float, float, float]:
    """Return a piece's width, its height, and how far it reaches below its own foot at the middle, in mm."""
    here = Placed(strip, piece, 0.0, 0.0)
    points = [here.at(x, v) for one in _sides(piece.outline) for x, v in one]
    width = max(abs(x) for x, _ in points) * 2.0
    low, high = min(y for _, y in points), max(y for _, y in points)
    return width, high - low, -low


def draw_piece(pen: Pen, placed: Placed, words: Sequence[str]) -> None:
    """Draw one piece: what is cut away pale, its outline, its marks, and the words on its body."""
    for start, end, upper in placed.piece.waste:
        _hatch(pen, placed, (start, end), HALF_MM if upper else 0.0)
    for side in _sides(placed.piece.outline):
        pen.chain([placed.at(x, v) for x, v in side], CUT_MM)
    for tick in placed.piece.ticks:
        _draw_tick(pen, placed, tick)
    _arrow_at_nought(pen, placed)
    _words(pen, placed, words)


def _sides(outline: Sequence[tuple[float, float]]) -> list[list[tuple[float, float]]]:
    """Return the outline's sides, those along the strip as chains of short steps."""
    sides = []
    for (x, v), (to_x, to_v) in zip(outline, [*outline[1:], outline[0]], strict=True):
        count = max(1, math.ceil(abs(to_x - x) / _STEP_MM))
        shares = [at / count for at in range(count + 1)]
        sides.append([(x + (to_x - x) * share, v + (to_v - v) * share) for share in shares])
    return sides


def _draw_tick(pen: Pen, placed: Placed, tick: Tick) -> None:
    way = 1.0 if tick.upper else -1.0
    width = TICK_MM * (1.6 if tick.label in {"0", "5"} and tick.part == "vernier" else 1.0)
    start, end = HALF_MM - way * OVER_MM, HALF_MM + way * tick.length_mm
    pen.line(placed.at(tick.x_mm, start), placed.at(tick.x_mm, end), width)
    if tick.label:
        cap = _LABEL_MM if tick.part == "scale" else 1.4
        v = HALF_MM + 6.2 if tick.upper else HALF_MM - 5.2 - cap
        turn = math.degrees(math.atan2(*_upright(placed, tick.x_mm)[::-1])) - 90.0
        pen.text(tick.label, placed.at(tick.x_mm, v), cap, share=0.5, turn=turn)


def _upright(placed: Placed, x: float) -> Point:
    """Return the direction across the strip at x."""
    (left, low), (right, high) = placed.at(x, 0.0), placed.at(x, WIDTH_MM)
    return right - left, high - low


def _arrow_at_nought(pen: Pen, placed: Placed) -> None:
    """Draw a small arrow under the vernier's 0: there the length is read."""
    if not any(one.part == "vernier" for one in placed.piece.ticks):
        return
    corners = [(0.0, 2.9), (-0.9, 1.1), (0.9, 1.1)]
    pen.shape(polygon([placed.at(x, v) for x, v in corners]))


def _hatch(pen: Pen, placed: Placed, span: tuple[float, float], foot: float) -> None:
    """Draw slanting lines over a half that is cut away; they stay clear of the marks."""
    start, end = span[0] + 0.6, span[1] - 0.6
    low, high = (foot + OVER_MM + 0.4, foot + HALF_MM - 0.6) if foot else (0.6, HALF_MM - OVER_MM - 0.4)
    tall = high - low
    count = math.ceil((end - start + tall) / _HATCH_MM)
    for number in range(count):
        x = start - tall + number * _HATCH_MM
        first, last = max(x, start), min(x + tall, end)
        if last > first:
            pen.line(placed.at(first, low + first - x), placed.at(last, low + last - x), 0.12, PALE)


def _words(pen: Pen, placed: Placed, words: Sequence[str]) -> None:
    """Set the words one below the other in the middle of the body, as large as it lets them be."""
    start, end = placed.piece.body_mm
    widest = max((pen.width(one, 1.0) for one in words), default=0.0)
    if not widest:
        return
    cap = min(2.2, (end - start - 8.0) / widest)
    if cap < 0.9:
        return
    middle = (start + end) / 2.0
    turn = math.degrees(math.atan2(*_upright(placed, middle)[::-1])) - 90.0
    v = HALF_MM + (len(words) * 1.9 * cap) / 2.0 - 1.45 * cap
    for number, one in enumerate(words):
        pen.text(one, placed.at(middle, v - number * 1.9 * cap), cap, share=0.5, turn=turn, grey=GREY)


def draw_rule(pen: Pen, foot: Point, length_mm: float, width_mm: float = 12.0) -> None:
    """Draw an upright paper rule, its 0 at `foot`: positions and the wall read in the set-up's own millimetres."""
    x, y = foot
    top = y + length_mm + 3.0
    pen.chain([(x, y), (x + width_mm, y), (x + width_mm, top), (x, top), (x, y)], CUT_MM)
    pen.shape(rectangle(x, y - TICK_MM / 2.0, x + 6.0, y + TICK_MM / 2.0))
    for at in range(1, math.floor(length_mm) + 1):
        long = 5.5 if at % 10 == 0 else 4.0 if at % 5 == 0 else 2.6
        pen.line((x, y + at), (x + long, y + at), TICK_MM)
        if at % 10 == 0:
            pen.text(str(at), (x + 6.4, y + at - _LABEL_MM / 2.0), _LABEL_MM)
