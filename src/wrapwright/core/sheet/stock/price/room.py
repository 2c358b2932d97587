"""A kind of sheet made ready for pricing: its points, and where a copy of each item may lie."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.price.kernel import best_values
from wrapwright.core.sheet.stock.price.points import Length, loosened, normal, thinned

Whole = NDArray[np.int64]
WORK = 24_000_000  # steps of one pricing: about 20 ms, and nearly every sheet of a workshop keeps all its points


@dataclass(frozen=True)
class Group:
    """Part of a sheet as found by pricing: one item, or two parts side by side ("x") or on top of each other ("y")."""

    item: int = -1
    turned: bool = False
    along: Literal["", "x", "y"] = ""
    parts: tuple[Group, ...] = ()


@dataclass(frozen=True)
class Room:
    """Points of the two sides, and for each item the cells it may fill.

    Attributes:
        xs, ys: the points, 0 first.
        cells: item, turned, index of the first point of each side at which it fits.
        types: how many items there are in all.
        exact: whether the points lose no pattern.
    """

    xs: tuple[int, ...]
    ys: tuple[int, ...]
    cells: tuple[tuple[int, bool, int, int], ...]
    types: int
    exact: bool

    @cached_property
    def rests(self) -> tuple[Whole, Whole, Whole, Whole]:
        """The tables of the kernel: what remains beside a point, and the halves, for both sides."""
        return _rest(self.xs), _rest(self.ys), _half(self.xs), _half(self.ys)

    def price(self, worth: Sequence[int]) -> Priced:
        """Return the most valuable cuttings of every rectangle, when a copy of item k is worth `worth[k]`."""
        base = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        who = np.full(base.shape, -1, dtype=np.int64)
        for index, (item, _, i, j) in enumerate(self.cells):
            if worth[item] > base[i, j]:
                base[i, j] = worth[item]
                who[i, j] = index
        return Priced(self, base, who, best_values(base, *self.rests))


@dataclass(frozen=True)
class Priced:
    """The values of all rectangles of a room under one set of prices, and the groups already read from them."""

    room: Room
    base: Whole
    who: Whole
    value: Whole
    read: dict[tuple[int, int], Group | None] = field(default_factory=dict, compare=False)

    @property
    def best(self) -> int:
        """The value of the best pattern of the whole sheet."""
        return int(self.value[-1, -1])

    def groups(self, most: int, least: int) -> list[Group]:
        """Return up to `most` patterns of the whole sheet worth over `least`, by different first cuts, best first."""
        i, j = self._shrunk(len(self.room.xs) - 1, len(self.room.ys) - 1)
        first = self._group(i, j)
        if first is None or self.best <= least:
            return []
        right, top = len(self.room.xs) - 1, len(self.room.ys) - 1
        sums_x, sums_y = self._sums(right, top)
        found = [(-int(value), "x", a + 1) for a, value in enumerate(sums_x) if value > least]
        found += [(-int(value), "y", a + 1) for a, value in enumerate(sums_y) if value > least]
        groups = [first]
        for _, along, a in sorted(found)[: most - 1]:
            groups += [group for group in [self._cut(right, top, along, a)] if group is not None]
        return groups

    def _shrunk(self, i: int, j: int) -> tuple[int, int]:
        aim = self.value[i, j]
        i = int(np.searchsorted(self.value[: i + 1, j], aim))
        return i, int(np.searchsorted(self.value[i, : j + 1], aim))

    def _sums(self, i: int, j: int) -> tuple[Whole, Whole]:
        rest_x, rest_y, half_x, half_y = self.room.rests
        across = self.value[1 : half_x[i] + 1, j] + self.value[rest_x[i, 1 : half_x[i] + 1], j]
        along = self.value[i, 1 : half_y[j] + 1] + self.value[i, rest_y[j, 1 : half_y[j] + 1]]
        return across, along

    def _group(self, i: int, j: int) -> Group | None:
        aim = self.value[i, j]
        if aim == 0:
            return None
        i, j = self._shrunk(i, j)
        if (i, j) not in self.read:
            self.read[i, j] = self._best_group(i, j, int(aim))
        return self.read[i, j]

    def _best_group(self, i: int, j: int, aim: int) -> Group | None:
        if self.base[i, j] == aim:
            item, turned, _, _ = self.room.cells[int(self.who[i, j])]
            return Group(item, turned)
        across, along = self._sums(i, j)
        if across.size and across.max() == aim:
            return self._cut(i, j, "x", int(across.argmax()) + 1)
        return self._cut(i, j, "y", int(along.argmax()) + 1)

    def _cut(self, i: int, j: int, along: str, a: int) -> Group | None:
        rest_x, rest_y, _, _ = self.room.rests
        if along == "x":
            pair = (self._group(a, j), self._group(int(rest_x[i, a]), j))
        else:
            pair = (self._group(i, a), self._group(i, int(rest_y[j, a])))
        parts = [part for part in pair if part is not None]
        if len(parts) < 2:
            return parts[0] if parts else None
        return Group(along="x" if along == "x" else "y", parts=tuple(parts))


def most_points(xs: int, ys: int, work: int) -> int:
    """Return how many points a side may keep so that pricing takes about so many steps; all when it takes no more."""
    if xs * ys * (xs + ys) // 4 <= work:
        return max(xs, ys)
    low, high = 16, max(xs, ys)
    while low < high:
        middle = (low + high + 1) // 2
        wide, tall = min(xs, middle), min(ys, middle)
        low, high = (middle, high) if wide * tall * (wide + tall) // 4 <= work else (low, middle - 1)
    return low


def room(items: Sequence[Item], bin_: tuple[int, int], work: int = WORK) -> Room:
    """Return the sheet with true lengths; where pricing it would take over `work` steps, with some points left out."""
    known = [(lengths, normal(lengths, bin_[axis])) for axis in (0, 1) for lengths in [_lengths(items, bin_, axis)]]
    limit = most_points(len(known[0][1]), len(known[1][1]), work)
    xs, ys = (thinned(full, lengths, side, limit) for (lengths, full), side in zip(known, bin_, strict=True))
    cells = [
        (item, turned, bisect_left(xs, width), bisect_left(ys, height))
        for item, turned, width, height in _poses(items, bin_)
    ]
    inside = tuple(cell for cell in cells if cell[2] < len(xs) and cell[3] < len(ys))
    return Room(tuple(xs), tuple(ys), inside, len(items), len(xs) == len(known[0][1]) and len(ys) == len(known[1][1]))


def loose_room(items: Sequence[Item], bin_: tuple[int, int], work: int = WORK) -> Room:
    """Return the sheet with lengths in coarse steps such that every true pattern still fits: for bounds alone."""
    poses = _poses(items, bin_)
    limit = most_points(bin_[0], bin_[1], work)
    sides = []
    for axis in (0, 1):
        lengths = [length for length, _ in _lengths(items, bin_, axis)]
        units, steps = loosened(lengths, bin_[axis], limit)
        scale = dict(zip(lengths, units, strict=True))
        copies = Counter[int]()
        for pose in poses:
            copies[scale[pose[2 + axis]]] += items[pose[0]][2]
        sides.append((normal(sorted(copies.items()), steps), scale))
    (xs, scale_x), (ys, scale_y) = sides
    cells = tuple(
        (item, turned, bisect_left(xs, scale_x[width]), bisect_left(ys, scale_y[height]))
        for item, turned, width, height in poses
    )
    return Room(tuple(xs), tuple(ys), cells, len(items), exact=False)


def _poses(items: Sequence[Item], bin_: tuple[int, int]) -> list[tuple[int, bool, int, int]]:
    poses = []
    for index, (width, height, copies, turn) in enumerate(items):
        if copies > 0 and width <= bin_[0] and height <= bin_[1]:
            poses.append((index, False, width, height))
        if copies > 0 and turn and width != height and height <= bin_[0] and width <= bin_[1]:
            poses.append((index, True, height, width))
    return poses


def _lengths(items: Sequence[Item], bin_: tuple[int, int], axis: int) -> list[Length]:
    copies = Counter[int]()
    for pose in _poses(items, bin_):
        copies[pose[2 + axis]] += items[pose[0]][2]
    return sorted(copies.items())


def _rest(points: Sequence[int]) -> Whole:
    known = np.array(points, dtype=np.int64)
    over = known[:, None] - known[None, :]
    found = np.searchsorted(known, np.maximum(over, 0), side="right") - 1
    return np.ascontiguousarray(found, dtype=np.int64)


def _half(points: Sequence[int]) -> Whole:
    known = np.array(points, dtype=np.int64)
    return np.searchsorted(known, known // 2, side="right").astype(np.int64) - 1
