"""What is free on a page: where marks may stand without coming near a trim, a bleed or a label."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import windings
from wrapwright.core.sheet.lay.printed.values import Array
from wrapwright.core.sheet.lay.values import Box

Flags = NDArray[np.bool_]
_EDGE = 1e-6


@dataclass(frozen=True, eq=False)
class Taken:
    """What one piece takes of a page, in page mm.

    Attributes:
        trim: the box of its trim.
        keep: how far marks stay away from the trim.
        label: the box of its label, or None.
        ring: corners of a curved trim, or None where the box is the trim.
    """

    trim: Box
    keep: float
    label: Box | None = None
    ring: Array | None = None


@dataclass(frozen=True, eq=False)
class Ground:
    """A page: what may be printed of it, and what is taken."""

    printable: Box
    taken: Sequence[Taken]

    def free_points(self, points: Array, without: int = -1) -> Flags:
        """Return which points (n, 2) are printable and clear of every trim and label, those of one piece left out."""
        inside = _in_box(points, self.printable, 0.0)
        for index, one in enumerate(self.taken):
            if one.label is not None:
                inside &= ~_in_box(points, one.label, 0.5)
            if index != without:
                inside &= _clear(points, one)
        return inside

    def blocks(self) -> Array:
        """Return the boxes (n, 4) that nothing else may touch."""
        found = [(*_grown(one.trim, one.keep),) for one in self.taken]
        found += [_grown(one.label, 1.0) for one in self.taken if one.label is not None]
        return np.array(found).reshape(-1, 4)

    def spot(self, size: tuple[float, float], others: Sequence[Box] = ()) -> tuple[float, float] | None:
        """Return the lower left corner of a free box of this size, lowest, then leftmost; None when there is none."""
        blocks = np.concatenate([self.blocks(), np.array([_grown(one, 1.0) for one in others]).reshape(-1, 4)])
        left, bottom, right, top = self.printable
        lefts = np.unique(np.concatenate([[left], blocks[:, 2], [right - size[0]]]))
        bottoms = np.unique(np.concatenate([[bottom], blocks[:, 3], [top - size[1]]]))
        lefts = lefts[(lefts >= left - _EDGE) & (lefts + size[0] <= right + _EDGE)]
        bottoms = bottoms[(bottoms >= bottom - _EDGE) & (bottoms + size[1] <= top + _EDGE)]
        for low in bottoms:
            near = blocks[(blocks[:, 1] < low + size[1] - _EDGE) & (blocks[:, 3] > low + _EDGE)]
            hit = (near[:, 0] < lefts[:, None] + size[0] - _EDGE) & (near[:, 2] > lefts[:, None] + _EDGE)
            free = np.flatnonzero(~hit.any(axis=1))
            if len(free):
                return float(lefts[free[0]]), float(low)
        return None


def _in_box(points: Array, box: Box, over: float) -> Flags:
    left, bottom, right, top = _grown(box, over)
    x, y = points[:, 0], points[:, 1]
    return np.asarray((x > left - _EDGE) & (x < right + _EDGE) & (y > bottom - _EDGE) & (y < top + _EDGE))


def _clear(points: Array, one: Taken) -> Flags:
    """Return which points keep away from a trim."""
    left, bottom, right, top = one.trim
    beside = np.maximum(0.0, np.maximum(left - points[:, 0], points[:, 0] - right))
    above = np.maximum(0.0, np.maximum(bottom - points[:, 1], points[:, 1] - top))
    clear = np.hypot(beside, above) >= one.keep - _EDGE
    near = np.flatnonzero(~clear)
    if one.ring is not None and len(near):
        clear[near] = _off_ring(points[near], one.ring, one.keep)
    return clear


def _off_ring(points: Array, ring: Array, keep: float) -> Flags:
    start, step = ring, np.roll(ring, -1, axis=0) - ring
    length = np.maximum((step * step).sum(axis=1), 1e-18)
    to = points[:, None, :] - start[None]
    share = np.clip((to * step).sum(axis=2) / length, 0.0, 1.0)
    away = np.hypot(*np.moveaxis(to - share[..., None] * step, 2, 0)).min(axis=1)
    return np.asarray((away >= keep - 0.05) & (windings(points, ring) == 0))


def _grown(box: Box, by: float) -> Box:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)
