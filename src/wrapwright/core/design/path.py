"""Paths: chains of cubic curves in millimetres, the only outline form in the project."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Subpath:
    """A chain of cubic Bezier curves.

    Attributes:
        points: shape (3 n + 1, 2), float64: start, then for each curve two control points and its end.
            A straight line is a curve whose control points lie at its thirds.
        closed: whether the end joins the start (a straight closing edge is implied if they differ).
    """

    points: Array
    closed: bool = True


@dataclass(frozen=True, eq=False)
class Path:
    """Several subpaths filled together (nonzero winding unless the user of the path says even-odd)."""

    subpaths: tuple[Subpath, ...] = ()

    def box(self) -> tuple[float, float, float, float]:
        """Return (left, bottom, right, top) of all control points: never smaller than the path itself."""
        if not self.subpaths:
            return (0.0, 0.0, 0.0, 0.0)
        points = np.concatenate([sub.points for sub in self.subpaths])
        low, high = points.min(axis=0), points.max(axis=0)
        return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))

    def mapped(self, move: Callable[[Array], Array]) -> Path:
        """Return the path with `move` ((n, 2) -> (n, 2)) applied to its control points."""
        return Path(tuple(Subpath(move(sub.points), sub.closed) for sub in self.subpaths))

    def times(self, matrix: Array) -> Path:
        """Return the path under an affine 3x3 matrix of column vectors."""
        return self.mapped(lambda p: p @ matrix[:2, :2].T + matrix[:2, 2])


def line_points(corners: Array) -> Array:
    """Return cubic control points, shape (3 n + 1, 2), of the open polyline through n + 1 corners."""
    corners = np.asarray(corners, dtype=np.float64)
    start, end = corners[:-1], corners[1:]
    step = (end - start) / 3.0
    out = np.empty((3 * len(start) + 1, 2))
    out[0] = corners[0]
    out[1::3], out[2::3], out[3::3] = start + step, end - step, end
    return out


def polygon(corners: Iterable[tuple[float, float]]) -> Path:
    """Return the closed path through the corners."""
    points = np.array(list(corners), dtype=np.float64)
    return Path((Subpath(line_points(np.vstack([points, points[:1]]))),))


def rectangle(left: float, bottom: float, right: float, top: float) -> Path:
    """Return a rectangle, anticlockwise from its lower left corner."""
    return polygon([(left, bottom), (right, bottom), (right, top), (left, top)])


def joined(paths: Iterable[Path]) -> Path:
    """Return one path of all subpaths."""
    return Path(tuple(sub for path in paths for sub in path.subpaths))


def windings(points: Array, corners: Array) -> NDArray[np.int64]:
    """Return how often a closed polygon, shape (m, 2), runs anticlockwise round each of the points, shape (n, 2).

    Counted on a ray to the right, half-open at the corners, so that a corner on the ray counts once. Not 0 is inside
    by the nonzero rule, odd by even-odd.
    """
    start, end = corners, np.roll(corners, -1, axis=0)
    px, py = points[:, 0, None], points[:, 1, None]
    rise = end[:, 1] - start[:, 1]
    at = start[:, 0] + (py - start[:, 1]) * (end[:, 0] - start[:, 0]) / np.where(rise == 0.0, 1.0, rise)
    crosses = ((start[:, 1] > py) != (end[:, 1] > py)) & (px < at)
    found: NDArray[np.int64] = (crosses * np.where(rise > 0.0, 1, -1)).sum(axis=1)
    return found
