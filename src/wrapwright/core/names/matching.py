"""Two outlines held against each other, curve by curve: whether one that was read is the one that was wanted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path

Array = NDArray[np.float64]

WITHIN_MM = 0.0055  # of a point: one step of the grid that outlines are written on, 0.015 pt, and the place's rounding
STRAIGHT_MM = 0.010  # of a curve's handle from the straight line that was written for it
_NOTHING_MM = 0.012  # a curve that reaches no further may be gone on the grid


@dataclass(frozen=True, eq=False)
class Outline:
    """Closed curves one after the other.

    Attributes:
        curves: shape (n, 4, 2), mm: start, two handles, end.
        lines: shape (n,): which of them are straight lines; their handles mean nothing.
    """

    curves: Array
    lines: NDArray[np.bool_]


@dataclass(frozen=True)
class Off:
    """How an outline differs: so many of so many curves, by up to `far_mm`; None where the counts differ."""

    curves: int
    of: int
    far_mm: float | None


def outline_of(path: Path) -> Outline:
    """Return a path's curves, its closing edges among them where they have a length."""
    found = []
    for sub in path.subpaths:
        count = (len(sub.points) - 1) // 3
        found.append(sub.points[3 * np.arange(count)[:, None] + np.arange(4)])
        if sub.closed and np.abs(sub.points[0] - sub.points[-1]).max() > 0.0:
            found.append(np.linspace(sub.points[-1], sub.points[0], 4)[None])
    curves = np.concatenate(found) if found else np.zeros((0, 4, 2))
    return Outline(curves, np.zeros(len(curves), dtype=np.bool_))


def moved(outline: Outline, matrix: Array) -> Outline:
    """Return an outline under an affine 3x3 matrix of column vectors."""
    return Outline(outline.curves @ matrix[:2, :2].T + matrix[:2, 2], outline.lines)


def difference(read: Outline, wanted: Outline) -> Off | None:
    """Return how an outline that was read differs from the one wanted (both mm), None where it is the same.

    Every end point and every handle lies within a step of the grid; where a straight line was written for a curve, its
    handles lie as near to the line as makes no difference.
    """
    if len(read.curves) != len(wanted.curves):
        read, wanted = _without_nothing(read), _without_nothing(wanted)
    count = len(wanted.curves)
    if len(read.curves) != count:
        return Off(abs(len(read.curves) - count), count, None)
    if count == 0:
        return None
    far = np.hypot(*np.moveaxis(read.curves - wanted.curves, 2, 0))
    ends = far[:, (0, 3)].max(axis=1)
    handles = far[:, 1:3].max(axis=1)
    handles[read.lines] = 0.0
    off = np.maximum(ends, handles) > WITHIN_MM
    off |= read.lines & (_off_chord(read.curves, wanted.curves) > STRAIGHT_MM)
    if not bool(off.any()):
        return None
    return Off(int(off.sum()), count, float(np.maximum(ends, handles).max()))


def _off_chord(read: Array, wanted: Array) -> Array:
    """Return how far the wanted handles lie from the lines read, at most, mm."""
    start = read[:, 0]
    chord = read[:, 3] - start
    length = np.maximum(np.hypot(chord[:, 0], chord[:, 1]), 1e-9)
    away = np.zeros(len(read))
    for handle in (1, 2):
        to = wanted[:, handle] - start
        beside = np.abs(to[:, 0] * chord[:, 1] - to[:, 1] * chord[:, 0]) / length
        along = (to * chord).sum(axis=1) / length
        away = np.maximum(away, np.maximum(beside, np.maximum(-along, along - length)))
    return away


def _without_nothing(outline: Outline) -> Outline:
    """Return an outline without the curves that go nowhere on the grid."""
    reach = np.abs(outline.curves - outline.curves[:, :1]).max(axis=(1, 2), initial=0.0)
    kept = reach > _NOTHING_MM
    return Outline(outline.curves[kept], outline.lines[kept])
