"""Figures in shares of the upright picture, ready to be handed over."""

from __future__ import annotations

import array
import math
from dataclasses import dataclass
from typing import Any

from wrapwright.outside.images.child.page.figure import Curves, Figure, Matrix, box_curves, extent, moved, times
from wrapwright.outside.images.child.page.objects import POINTS, NotSolidError
from wrapwright.outside.images.child.page.stroke import round_enough, stroked

_FINENESS = 40_000  # a line's border lies within 1/40000 of the longer side of the true one


@dataclass(frozen=True)
class Sheet:
    """What of the page shows (left, bottom, right, top), and its quarter turns clockwise."""

    box: tuple[float, float, float, float]
    rotation: int

    def to_shares(self) -> Matrix:
        """Return the matrix from the page's own space to shares of the upright picture, y up."""
        left, bottom, right, top = self.box
        wide, high = 1 / (right - left), 1 / (top - bottom)
        flat: Matrix = (wide, 0.0, 0.0, high, -left * wide, -bottom * high)
        turns: tuple[Matrix, ...] = (
            (1, 0, 0, 1, 0, 0),
            (0, -1, 1, 0, 0, 1),
            (-1, 0, 0, -1, 1, 1),
            (0, 1, -1, 0, 1, 0),
        )
        return times(flat, turns[self.rotation])

    def width(self) -> float:
        """Return the upright picture's width in the page's units."""
        left, bottom, right, top = self.box
        return right - left if self.rotation % 2 == 0 else top - bottom

    def longest(self) -> float:
        """Return the longer side in the page's units."""
        left, bottom, right, top = self.box
        return max(right - left, top - bottom)


def rows_of(figures: list[Figure], sheet: Sheet, points: array.array[float]) -> list[dict[str, Any]]:
    """Return one row a figure, its control points appended to `points`: its own path first, then its clips."""
    rows = []
    shares = sheet.to_shares()
    for figure in figures:
        curves, stroke = _area(figure, sheet)
        if not curves:
            continue
        whole = times(figure.matrix, shares)
        placed = moved(curves, whole)
        clips = [moved(clip, shares) for clip in figure.clips]
        if _beyond(placed, stroke):
            clips.append(box_curves(0.0, 0.0, 1.0, 1.0))
        rows.append(
            {
                "path": _put(placed, points),
                "colour": list(figure.colour),
                "stroke": stroke,
                "even_odd": figure.even_odd,
                "opacity": figure.opacity,
                "clips": [_put(clip, points) for clip in clips],
            }
        )
        if len(points) > 2 * POINTS:
            raise NotSolidError(f"more than {POINTS} points")
    return rows


def _area(figure: Figure, sheet: Sheet) -> tuple[Curves, float]:
    """Return the figure's path and, where round caps and joins draw it right, its line's width in shares."""
    if figure.pen is None:
        return figure.curves, 0.0
    a, b, c, d, _, _ = figure.matrix
    scale = math.sqrt(abs(a * d - b * c))
    if scale <= 0:
        return [], 0.0
    even = math.isclose(math.hypot(a, b), math.hypot(c, d), rel_tol=1e-4) and abs(a * c + b * d) < 1e-4 * scale**2
    if even and round_enough(figure.curves, figure.pen):
        return figure.curves, figure.pen.width * scale / sheet.width()
    return stroked(figure.curves, figure.pen, sheet.longest() / _FINENESS / scale), 0.0


def _beyond(placed: Curves, stroke: float) -> bool:
    """Return whether a figure reaches out of the picture."""
    left, bottom, right, top = extent(placed)
    # A line's width is a share of the width; of a wide picture it reaches farther in shares of the height.
    return (
        left < -1e-6 or right > 1 + 1e-6 or bottom < -1e-6 or top > 1 + 1e-6 or (stroke > 0 and _near(placed, stroke))
    )


def _near(placed: Curves, stroke: float) -> bool:
    left, bottom, right, top = extent(placed)
    return min(left, bottom, 1 - right, 1 - top) < 20 * stroke


def _put(curves: Curves, points: array.array[float]) -> list[int]:
    """Append a path's points and return its counts, negative for open subpaths."""
    counts = []
    for part, closed in curves:
        counts.append(len(part) if closed else -len(part))
        for point in part:
            points.extend(point)
    return counts
