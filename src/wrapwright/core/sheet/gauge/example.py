"""The drawn example: both ends of a strip side by side, enlarged, with the marks that meet."""

from __future__ import annotations

import math

from wrapwright.core.blank.gauge.reading import DIVISIONS, STEP_MM
from wrapwright.core.design.path import polygon
from wrapwright.core.sheet.scale.drawn import GREY, Pen, Point

EXAMPLE_LINE = 7  # of the vernier, in the example


def example_of(flat_mm: float) -> tuple[int, int]:
    """Return the head's mark and the vernier's line of an example near a rough flat length."""
    return math.floor(flat_mm), EXAMPLE_LINE


def draw_example(pen: Pen, corner: Point, width_mm: float, example: tuple[int, int], cap: float) -> float:
    """Draw the example, its upper left corner at `corner`; return its height.

    The picture runs from 3 mm before the vernier's 0 to 3 mm beyond its last line.
    """
    head, line = example
    flat = head + line / DIVISIONS
    low, high = flat - 4.0, flat + 22.5
    zoom = width_mm / (high - low)
    half = 8.5 * cap
    left, middle = corner[0], corner[1] - 1.2 * cap - half
    frame = [(left, middle + half), (left + width_mm, middle + half), (left + width_mm, middle - half)]
    pen.chain([*frame, (left, middle - half), (left, middle + half)], 0.15, GREY)
    pen.line((left, middle), (left + width_mm, middle), 0.12)

    def across(at: float) -> float:
        return left + (at - low) * zoom

    for at in range(math.ceil(low), math.floor(high) + 1):
        _mark(pen, across(at), middle, (1.0, at % 5 == 0), str(at) if at % 5 == 0 else "", cap)
    for number in range(DIVISIONS + 1):
        x = across(flat + number * STEP_MM)
        _mark(pen, x, middle, (-1.0, number in (0, 5, DIVISIONS)), str(number), cap, strong=number == line)
    _point_at(pen, across(flat + line * STEP_MM), middle - half, cap)
    _point_at(pen, across(flat), middle - half, cap)
    pen.text("head", (left + 1.2 * cap, middle + half - 2.2 * cap), 0.9 * cap, grey=GREY)
    pen.text("tail", (left + 1.2 * cap, middle - half + 1.2 * cap), 0.9 * cap, grey=GREY)
    taken = 2.0 * half + 5.2 * cap
    words = (
        f"The 0 has passed {head}: {head}. Line {line} is the one that meets a mark: {line} tenths."
        f" Flat length {flat:.1f} mm."
    )
    return taken + pen.paragraph(words, (left, corner[1] - taken), cap, width_mm)


def _mark(
    pen: Pen, x: float, middle: float, way: tuple[float, bool], label: str, cap: float, *, strong: bool = False
) -> None:
    direction, long = way
    length = (3.6 if long else 2.6) * cap
    pen.line((x, middle), (x, middle + direction * length), 0.5 if strong else 0.22)
    if label:
        y = middle + length + 0.8 * cap if direction > 0 else middle - length - 0.8 * cap - cap
        pen.text(label, (x, y), cap, share=0.5)


def _point_at(pen: Pen, x: float, y: float, cap: float) -> None:
    """Draw a small arrow under the picture."""
    pen.shape(polygon([(x, y - 0.5 * cap), (x - 0.8 * cap, y - 2.4 * cap), (x + 0.8 * cap, y - 2.4 * cap)]))
