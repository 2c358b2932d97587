"""What the trimmer leaves to scissors: arcs, slanting ends and outlines, as centimetres along the printed line."""

from __future__ import annotations

import math

from wrapwright.core.sheet.cut.pieces import true_sides
from wrapwright.core.sheet.cut.values import ScissorWork
from wrapwright.core.sheet.lay.values import Laid, Part, Shape

_NEAR_MM = 0.01


def scissor_work(part: Part, laid: Laid, sheet: int, *, trimmed: bool) -> ScissorWork | None:
    """Return what is cut by hand of one copy, or None; `trimmed` says whether the trimmer has cut its box."""
    length, what = _work(part, trimmed=trimmed)
    return ScissorWork(sheet, laid.part, laid.copy, length / 10.0, what) if length > 0.05 else None


def _work(part: Part, *, trimmed: bool) -> tuple[float, str]:
    """Return millimetres of scissors and what they follow."""
    shape = part.shape
    what = {"sector": "two arcs and two slanting ends", "circle": "the circle", "outline": "the outline"}
    if shape.kind == "sector":
        return _sector(part, trimmed=trimmed), "two arcs" if trimmed and _square(shape) else what["sector"]
    if shape.kind == "circle":
        return math.pi * shape.width_mm, what["circle"]
    if shape.kind == "outline":
        return _outline(part, trimmed=trimmed), what["outline"]
    if trimmed:
        return 0.0, ""
    sides = {"left": shape.height_mm, "right": shape.height_mm, "bottom": shape.width_mm, "top": shape.width_mm}
    return sum(sides[side] for side in part.true), "the sides"


def _square(shape: Shape) -> bool:
    """Return whether a sector's ends are square to its box: they lie along radii, so only those of half a ring are."""
    return abs(shape.half_deg - 90.0) < 1e-6


def _sector(part: Part, *, trimmed: bool) -> float:
    """Return the arcs and the slanting ends; from the trim itself where it is known."""
    shape = part.shape
    if shape.ring:
        return _outline(part, trimmed=trimmed)
    arcs = 2.0 * math.radians(shape.half_deg) * (shape.inner_mm + shape.outer_mm)
    base = "bottom" if shape.centre_below else "top"
    if trimmed and _square(shape) and base in part.true:
        return arcs
    return arcs + 2.0 * (shape.outer_mm - shape.inner_mm)


def _outline(part: Part, *, trimmed: bool) -> float:
    """Return the outline's length without what lies on a side of its box that the trimmer has cut."""
    shape = part.shape
    cut = true_sides(part, 0) if trimmed else 0
    at = (0.0, 0.0, shape.width_mm, shape.height_mm)
    total = 0.0
    for i, (x, y) in enumerate(shape.ring):
        px, py = shape.ring[i - 1]
        along = [abs(px - at[0]) + abs(x - at[0]), abs(py - at[1]) + abs(y - at[1])]
        along += [abs(px - at[2]) + abs(x - at[2]), abs(py - at[3]) + abs(y - at[3])]
        if not any(cut & 1 << side and off < _NEAR_MM for side, off in enumerate(along)):
            total += math.hypot(x - px, y - py)
    return total
