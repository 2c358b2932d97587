"""What the child reads from a page: figures of plain numbers, without numpy."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

Point = tuple[float, float]
Curve = tuple[list[Point], bool]  # 3 n + 1 control points of cubics, and whether it is closed
Curves = list[Curve]
Matrix = tuple[float, float, float, float, float, float]  # a b c d e f as in ISO 32000-1, 8.3.3

IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass
class Pen:
    """A line's make: width in its own units, cap (0 butt, 1 round, 2 square), join (0 miter, 1 round, 2 bevel)."""

    width: float
    cap: int = 0
    join: int = 0
    miter: float = 10.0
    dashes: tuple[float, ...] = ()
    phase: float = 0.0


@dataclass
class Figure:
    """One solid shape on the page.

    Attributes:
        curves: its path in its own coordinates.
        matrix: from there to the page's.
        colour: sRGB 0..1.
        opacity: 0..1.
        pen: how its line is drawn; None = filled.
        even_odd: fill rule.
        clips: paths in the page's coordinates, nonzero.
    """

    curves: Curves
    matrix: Matrix
    colour: tuple[float, float, float]
    opacity: float = 1.0
    pen: Pen | None = None
    even_odd: bool = False
    clips: list[Curves] = field(default_factory=list)


def times(first: Matrix, then: Matrix) -> Matrix:
    """Return the matrix that applies `first`, then `then`."""
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def moved(curves: Curves, matrix: Matrix) -> Curves:
    """Return the curves under a matrix."""
    a, b, c, d, e, f = matrix
    return [([(a * x + c * y + e, b * x + d * y + f) for x, y in points], closed) for points, closed in curves]


def extent(curves: Curves) -> tuple[float, float, float, float]:
    """Return (left, bottom, right, top) of all control points."""
    across = [x for points, _ in curves for x, _ in points]
    along = [y for points, _ in curves for _, y in points]
    return (min(across), min(along), max(across), max(along))


def straight(corners: list[Point]) -> list[Point]:
    """Return the control points of the open polyline through the corners."""
    out = corners[:1]
    for (x0, y0), (x1, y1) in pairwise(corners):
        dx, dy = (x1 - x0) / 3.0, (y1 - y0) / 3.0
        out += [(x0 + dx, y0 + dy), (x1 - dx, y1 - dy), (x1, y1)]
    return out


def is_straight(piece: list[Point]) -> bool:
    """Return whether a curve (four points) is a line whose control points lie at its thirds."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = piece
    near = 1e-9 * (abs(x0) + abs(y0) + abs(x3) + abs(y3))
    off = (3 * x1 - 2 * x0 - x3, 3 * y1 - 2 * y0 - y3, 3 * x2 - x0 - 2 * x3, 3 * y2 - y0 - 2 * y3)
    return all(abs(part) <= near for part in off)


def box_curves(left: float, bottom: float, right: float, top: float) -> Curves:
    """Return a rectangle."""
    return [(straight([(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]), True)]
