"""Copies of one part in columns that reach into each other, on an area of a given size: counted, and the best kept.

A column is a stack of copies of one turn; its neighbour may be of the other way round and stand higher or lower. How
near two columns may come is found from their outlines, so that it holds for sectors (also those whose ends are cut
beside their lines), circles and any outline. For sectors of a ring it agrees with the closed forms (tested).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.nest.outlines import Array, Lying
from wrapwright.core.sheet.nest.profiles import NEVER, push
from wrapwright.core.sheet.nest.values import Spot

# Up to how many columns a part may stand in, and at how many heights a column is then tried, a pitch.
_PHASES = ((6.0, 48), (30.0, 24), (math.inf, 8))
_SAME_MM = 1e-7
_LEAST_STEP = 0.25  # of the distance of two columns that stand alike


@dataclass(frozen=True)
class Columns:
    """How many copies stand in a width.

    Attributes:
        count: copies.
        width_mm: of the ink, from the area's left edge.
        reach_mm: the right end of the rooms.
        spots: where they lie.
    """

    count: int
    width_mm: float
    reach_mm: float
    spots: tuple[Spot, ...]


def beside(one: Lying, other: Lying, ups: Array) -> Array:
    """Return how far right `other`, higher by each of `ups`, must at least lie to be right of `one` at every level.

    Both are counted from the lower left corners of their boxes. NEVER where no level meets both.
    """
    if one.radius and other.radius:
        reach = one.radius + other.radius
        rise = ups + (other.size[1] - one.size[1]) / 2.0
        between = (one.size[0] - other.size[0]) / 2.0
        apart = between + np.sqrt(np.maximum(reach * reach - rise * rise, 0.0))
        return np.where(np.abs(rise) < reach - _SAME_MM, apart, NEVER)
    return push(one.profile, other.profile, ups)


def pitch_mm(one: Lying) -> float:
    """Return the least distance from copy to copy in a stack of one turn."""
    across = one.swapped()
    return float(beside(across, across, np.zeros(1))[0])


@dataclass(frozen=True, eq=False)
class _Stands:
    """The ways a column may stand: which turn, how high its first copy, how many copies."""

    kind: NDArray[np.int64]
    step: NDArray[np.int64]
    count: NDArray[np.int64]


def fronts(pair: Sequence[Lying], area: tuple[float, float], *, most: int) -> list[Columns]:
    """Return the ways of standing columns of a part in an area, from few copies to many, each as narrow as is found.

    Args:
        pair: the part at one turn, or at that and the one half a turn on.
        area: width and height in mm of what may be inked.
        most: no more copies than that are needed.
    """
    first = pair[0]
    tall = first.ink[3] - first.ink[1]
    room = area[1] - tall
    if room < -_SAME_MM or first.ink[2] - first.ink[0] > area[0] + _SAME_MM:
        return []
    best: dict[int, Columns] = {}
    for pitch in _pitches(pitch_mm(first), max(room, 0.0)):
        for one in _Search(pair, area, max(room, 0.0), pitch).run(most):
            if one.count not in best or one.width_mm < best[one.count].width_mm - 1e-9:
                best[one.count] = one
    return [best[count] for count in sorted(best)]


def _pitches(least: float, room: float) -> list[float]:
    """Return the least pitch, and wider ones with which full columns, or full and half raised ones, fill the height."""
    full = math.floor(room / least + 1e-9) + 1
    wider = [room / (full - 1)] if full > 1 else []
    if full > 1 and room / (full - 0.5) > least:
        wider.append(room / (full - 0.5))
    return [least, *(one for one in wider if one > least * (1.0 + 1e-6))]


class _Search:
    """The narrowest row of columns for every number of copies: a shortest path over the ways a column may stand."""

    def __init__(self, pair: Sequence[Lying], area: tuple[float, float], room: float, pitch: float) -> None:
        self.pair, self.area, self.room, self.pitch = pair, area, room, pitch
        many = area[0] / (pair[0].ink[2] - pair[0].ink[0])
        self.phases = next(phases for most, phases in _PHASES if many <= most)
        self.stands = self._stands()
        self.apart = self._apart()

    def _stands(self) -> _Stands:
        full = math.floor(self.room / self.pitch + 1e-9) + 1
        # A column raised by more than its slack and a whole pitch stands like one of fewer copies, for nothing.
        highest = min(self.room, self.room - (full - 1) * self.pitch + self.pitch * (1.0 - 1e-6))
        steps = np.arange(math.floor(highest * self.phases / self.pitch + 1e-9) + 1)
        left = self.room - steps * self.pitch / self.phases
        count = np.floor(left / self.pitch + 1e-9).astype(np.int64) + 1
        many = len(self.pair)
        return _Stands(np.repeat(np.arange(many), len(steps)), np.tile(steps, many), np.tile(count, many))

    def _apart(self) -> Array:
        """Return how far right a column must at least stand of another, for every two ways of standing."""
        stands, phases = self.stands, self.phases
        size = len(stands.kind)
        apart = np.full((size, size), NEVER)
        for a, one in enumerate(self.pair):
            for b, other in enumerate(self.pair):
                rows, columns = np.flatnonzero(stands.kind == a), np.flatnonzero(stands.kind == b)
                table, middle = self._table(one, other)
                differ = stands.step[columns][None, :] - stands.step[rows][:, None]
                block = np.full(differ.shape, NEVER)
                reach = middle // phases + 2
                for k in range(-reach, reach + 1):
                    at = differ + k * phases + middle
                    met = (at >= 0) & (at < len(table))
                    met &= (k > -stands.count[rows][:, None]) & (k < stands.count[columns][None, :])
                    block = np.where(met, np.maximum(block, table[np.clip(at, 0, len(table) - 1)]), block)
                apart[np.ix_(rows, columns)] = block
        # Two short columns that never meet would stand at one place, endlessly: each goes on by a part of a width.
        spread: Array = np.maximum(apart, float(np.diag(apart).min()) * _LEAST_STEP)
        return spread

    def _table(self, one: Lying, other: Lying) -> tuple[Array, int]:
        """Return how far right `other` must lie of `one` at every height that is tried, and the index of level feet."""
        step = self.pitch / self.phases
        tall = max(one.bounds[3] - one.bounds[1], other.bounds[3] - other.bounds[1])
        middle = math.ceil(min(tall + 2 * self.pitch, self.room + step) / step)
        feet = one.ink[1] - other.ink[1]
        ups = np.arange(-middle, middle + 1, dtype=np.float64) * step + feet
        return beside(one, other, ups), middle

    def run(self, most: int) -> list[Columns]:
        """Return rows of columns, each of more copies than every narrower one, from few copies to many."""
        stands = self.stands
        full = int(stands.count.max())
        short = full - stands.count  # 0 or 1
        ends = np.array([self.pair[kind].ink[2] for kind in stands.kind])
        starts = np.array([-self.pair[kind].ink[0] for kind in stands.kind])
        layers = [{int(miss): np.where(short == miss, starts, np.inf) for miss in np.unique(short)}]
        reached: list[tuple[float, int, int, int, int]] = []  # width, -copies, columns, short ones, the last
        while layers[-1] and len(layers) * full - max(layers[-1]) < most + 2 * full:
            for miss, places in layers[-1].items():
                at = int(np.argmin(places + ends))
                width = float(places[at] + ends[at])
                if width <= self.area[0] + _SAME_MM:
                    reached.append((width, miss - len(layers) * full, len(layers), miss, at))
            layers.append(self._next(layers[-1], short, ends))
        found: list[Columns] = []
        for _, fewer, columns, miss, at in sorted(reached):
            if not found or -fewer > found[-1].count:
                found += self._read(layers[:columns], miss, at)
        return found

    def _next(self, layer: dict[int, Array], short: NDArray[np.int64], ends: Array) -> dict[int, Array]:
        made: dict[int, Array] = {}
        for miss, places in layer.items():
            if not np.isfinite(places).any():
                continue
            reached = (places[:, None] + self.apart).min(axis=0)
            reached = np.where(reached + ends <= self.area[0] + _SAME_MM, reached, np.inf)
            for more in (0, 1):
                some = np.where(short == more, reached, np.inf)
                if np.isfinite(some).any():
                    before = made.get(miss + more)
                    made[miss + more] = some if before is None else np.minimum(before, some)
        return made

    def _read(self, layers: list[dict[int, Array]], miss: int, at: int) -> list[Columns]:
        """Return the row that ends there, its columns clear of all before them; nothing if it then is too wide."""
        stands, chain = self.stands, [at]
        full = int(stands.count.max())
        for depth in range(len(layers) - 1, 0, -1):
            miss -= full - int(stands.count[chain[-1]])
            chain.append(int(np.argmin(layers[depth - 1][miss] + self.apart[:, chain[-1]])))
        chain.reverse()
        places: list[float] = []
        for index, one in enumerate(chain):
            least = [-self.pair[stands.kind[one]].ink[0]]
            least += [places[before] + float(self.apart[chain[before], one]) for before in range(index)]
            places.append(max(least))
        return self._made(chain, places)

    def _made(self, chain: list[int], places: list[float]) -> list[Columns]:
        spots: list[Spot] = []
        width = reach = 0.0
        for one, x in zip(chain, places, strict=True):
            lying = self.pair[self.stands.kind[one]]
            foot = int(self.stands.step[one]) * self.pitch / self.phases - lying.ink[1]
            spots += [Spot(x, foot + up * self.pitch, lying.turn) for up in range(int(self.stands.count[one]))]
            width, reach = max(width, x + lying.ink[2]), max(reach, x + lying.bounds[2])
        return [Columns(len(spots), width, reach, tuple(spots))] if width <= self.area[0] + 2 * _SAME_MM else []
