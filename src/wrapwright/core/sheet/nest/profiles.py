"""How near two outlines may come when one is pushed level towards the other: their sides, level by level."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

NEVER = -1e18  # no level meets both
_SAME_MM = 1e-7


@dataclass(frozen=True, eq=False)
class Profile:
    """The outermost sides of an outline between the levels of its corners, where both are straight.

    Attributes:
        levels: k + 1 heights, growing.
        left, right: x of that side at the lower and at the upper end of each of the k slices, k x 2.
    """

    levels: Array
    left: Array
    right: Array


def profile_of(ring: Array) -> Profile:
    """Return the sides of a closed outline, n x 2; what lies between them counts as its inside."""
    levels = np.unique(np.round(ring[:, 1], 9))
    start, end = ring, np.roll(ring, -1, axis=0)
    rise = end[:, 1] - start[:, 1]
    steep = np.abs(rise) > 1e-12
    start, end, rise = start[steep], end[steep], rise[steep]
    slope = (end[:, 0] - start[:, 0]) / rise
    middle = (levels[1:] + levels[:-1]) / 2.0
    low, high = np.minimum(start[:, 1], end[:, 1]), np.maximum(start[:, 1], end[:, 1])
    met = (low[None, :] < middle[:, None]) & (middle[:, None] < high[None, :])
    at = start[:, 0] + (middle[:, None] - start[:, 1]) * slope
    most, least = np.where(met, at, -np.inf).argmax(axis=1), np.where(met, at, np.inf).argmin(axis=1)
    ends = np.column_stack([levels[:-1], levels[1:]])

    def side(which: NDArray[np.int64]) -> Array:
        made: Array = start[which, 0][:, None] + (ends - start[which, 1][:, None]) * slope[which][:, None]
        return made

    return Profile(levels, side(least), side(most))


def push(one: Profile, other: Profile, ups: Array) -> Array:
    """Return how far right `other`, raised by each of `ups`, must lie to be right of `one` at every level.

    NEVER where no level meets both.
    """
    low = np.maximum(one.levels[0], other.levels[0] + ups)
    high = np.minimum(one.levels[-1], other.levels[-1] + ups)
    zero = np.zeros_like(ups)
    # right side of `one` less left side of `other`, at the corners of either
    first = _most(one.levels, one.right, zero, (other.levels, -other.left, ups), (low, high))
    second = _most(other.levels, -other.left, ups, (one.levels, one.right, zero), (low, high))
    return np.where(high - low > _SAME_MM, np.maximum(first, second), NEVER)


def _most(
    levels: Array, side: Array, ups: Array, against: tuple[Array, Array, Array], between: tuple[Array, Array]
) -> Array:
    """Return the greatest sum of two sides over the ends of the slices of the first, between two levels."""
    low, high = between[0][:, None], between[1][:, None]
    bottoms, tops = levels[None, :-1] + ups[:, None], levels[None, 1:] + ups[:, None]
    met = (tops > low + _SAME_MM) & (bottoms < high - _SAME_MM)
    most = np.full(len(ups), NEVER)
    for ends, nearest in ((np.maximum(bottoms, low), "right"), (np.minimum(tops, high), "left")):
        share = (ends - bottoms) / (tops - bottoms)
        own = side[None, :, 0] + share * (side[:, 1] - side[:, 0])[None, :]
        found = np.where(met, own + _at(against, ends, nearest), NEVER)
        most = np.maximum(most, found.max(axis=1))
    return most


def _at(against: tuple[Array, Array, Array], heights: Array, nearest: str) -> Array:
    """Return a side at heights, of the slice above (nearest "right") or below ("left") each height."""
    levels, side, ups = against
    own = heights - ups[:, None]
    # "right" finds the slice that begins at a corner's level, "left" the one that ends there; a hair for rounding.
    hair = 1e-9 if nearest == "right" else -1e-9
    slice_of = np.clip(np.searchsorted(levels, own + hair, side="right") - 1, 0, len(side) - 1)
    begins, ends = levels[slice_of], levels[slice_of + 1]
    share = (own - begins) / (ends - begins)
    found: Array = side[slice_of, 0] + share * (side[slice_of, 1] - side[slice_of, 0])
    return found
