"""Closed outlines made of straight pieces: their size, their turns, and what is wrong with one."""

from __future__ import annotations

import math
import re

Point = tuple[float, float]
Ring = tuple[Point, ...]  # a closed outline without its first point repeated

LEAST_SIDE_MM = 5.0  # common practice, no source: less cannot be held while it is cut
MOST_SIDE_MM = 5000.0
MOST_POINTS = 20_000
_LEAST_AREA_MM2 = 1.0


def ring_box(ring: Ring) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top of an outline in its own unit."""
    across, up = zip(*ring, strict=True)
    return min(across), min(up), max(across), max(up)


def ring_area(ring: Ring) -> float:
    """Return the area inside an outline, negative when it runs clockwise (the shoelace formula)."""
    if not ring:
        return 0.0
    x0, y0 = ring[0]  # counted from a point of the outline, so that one far from the origin loses no digits
    after = (*ring[1:], ring[0])
    return sum((x - x0) * (v - y0) - (u - x0) * (y - y0) for (x, y), (u, v) in zip(ring, after, strict=True)) / 2.0


def anticlockwise(ring: Ring) -> Ring:
    """Return the same outline, running anticlockwise, without points that repeat the one before."""
    kept = tuple(point for point, before in zip(ring, (ring[-1:] + ring)[: len(ring)], strict=True) if point != before)
    return kept if ring_area(kept) >= 0.0 else kept[::-1]


def at_origin(ring: Ring) -> Ring:
    """Return the outline moved so that the lower left corner of its box lies at (0, 0)."""
    left, bottom, _, _ = ring_box(ring)
    return tuple((x - left, y - bottom) for x, y in ring)


def turned(ring: Ring, turn_deg: float) -> Ring:
    """Return the outline turned anticlockwise round (0, 0); quarter turns are exact."""
    whole = turn_deg % 360.0
    exact = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    angle = math.radians(whole)
    cos, sin = exact.get(whole, (math.cos(angle), math.sin(angle)))
    return tuple((x * cos - y * sin, x * sin + y * cos) for x, y in ring)


def outline_problem(ring: Ring, *, least_mm: float = LEAST_SIDE_MM, most_mm: float = MOST_SIDE_MM) -> str:
    """Return one sentence with its figure for an outline that nothing can be cut to, or "" when it is sound.

    Args:
        ring: its points in mm, in order, the first not repeated.
        least_mm: what both sides of its box must reach at least.
        most_mm: what neither side of its box may pass.
    """
    if not all(math.isfinite(x) and math.isfinite(y) for x, y in ring):
        return "The outline has a point that is no number: draw it again."
    points = len(set(ring))
    if points < 3:
        return f"The outline has {points} different points and needs at least 3."
    if points > MOST_POINTS:
        return f"The outline has {points} points and may have {MOST_POINTS}: simplify the drawing."
    return _size_problem(ring, least_mm, most_mm) or _crossing_problem(ring)


def _size_problem(ring: Ring, least_mm: float, most_mm: float) -> str:
    left, bottom, right, top = ring_box(ring)
    width, height = right - left, top - bottom
    said = f"The outline is {width:.4g} x {height:.4g} mm"
    if min(width, height) < least_mm:
        return f"{said} and too small to cut: each side needs at least {least_mm:g} mm."
    if max(width, height) > most_mm:
        return f"{said} and too large: no side may pass {most_mm:g} mm. Is the unit right?"
    return ""


def _crossing_problem(ring: Ring) -> str:
    from shapely import Polygon
    from shapely.validation import explain_validity

    polygon = Polygon(ring)
    if not polygon.is_valid:
        found = re.search(r"\[(\S+) (\S+)\]", explain_validity(polygon))
        where = f" at {float(found[1]):.1f}, {float(found[2]):.1f} mm from its origin" if found else ""
        return f"The outline crosses or touches itself{where}: draw it as one line that never meets itself."
    if polygon.area < _LEAST_AREA_MM2:
        return f"The outline holds {polygon.area:.2g} mm2, next to nothing: at least {_LEAST_AREA_MM2:g} mm2 is needed."
    return ""
