"""Every pattern that an answer of a given cost could use; among them it is found, or shown not to exist."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

import numpy as np

from wrapwright.core.sheet.stock.bound import Bound
from wrapwright.core.sheet.stock.columns import FINE, Left, Pool
from wrapwright.core.sheet.stock.cuts import counts, extent
from wrapwright.core.sheet.stock.price.every import Lists, every, slacks
from wrapwright.core.sheet.stock.price.room import Group, Room
from wrapwright.core.sheet.stock.values import Order
from wrapwright.core.sheet.stock.whole import Rounded, programme, rounded

MOST = 100_000  # patterns of all rectangles together
BUDGET = 80_000_000  # comparisons: a third of a second
MOST_COLUMNS = 6_000
NODES = 400
INFEASIBLE = 2  # the solver's word for it
# When all patterns are too many: so many for each rectangle, from this part of the slack.
FEW = 40
SOME = ((60, 8), (200, 8))


@dataclass(frozen=True)
class Settled:
    """What came of asking for one cost: an answer or None, and a cost below which nothing can go (0: nothing new)."""

    answer: Rounded | None
    least: int


@dataclass(frozen=True)
class Prices:
    """Worth of the items in whole numbers such that no sheet yields more than it costs, and the scale of a cost."""

    worth: tuple[int, ...]
    scale: int

    def slack(self, call: Order, aim: int) -> int:
        """Return by how much the patterns of an answer of cost `aim` may all in all fall short of what they cost."""
        yielded = sum(worth * copies for worth, copies in zip(self.worth, call.copies, strict=True))
        return aim * self.scale - yielded


@dataclass(frozen=True)
class Met:
    """A pattern: kind of sheet, what it holds, by how much its worth falls short of its cost, and where it is kept."""

    bin: int
    holds: tuple[int, ...]
    short: int
    at: int


@dataclass(frozen=True)
class Kept:
    """All patterns of one kind of sheet, with those they are made of."""

    room: Room
    lists: Lists

    def group(self, at: int) -> Group:
        """Return how a pattern lies."""
        how, first, second = (int(value) for value in self.lists[2][at])
        if how == 0:
            item, turned, _, _ = self.room.cells[first]
            return Group(item, turned)
        return Group(along="x" if how == 1 else "y", parts=(self.group(first), self.group(second)))


def settle(pool: Pool, left: Left, bound: Bound, aim: int) -> Settled:
    """Return the cheapest answer that costs `aim` at most, if it can be found, and what is proven about the cost.

    With prices at which no sheet yields more than it costs, all the sheets of such an answer together fall short by no
    more than aim - bound; so each of its patterns does, and those are often few enough to be listed (the enumeration
    of columns of small reduced cost; Baldacci, Christofides & Mingozzi, Math. Program. 115 (2008) 351-385). Where they
    are too many, some of them enrich the pool.
    """
    prices = prices_of(pool.call, bound)
    slack = prices.slack(pool.call, aim)
    if slack < 0:
        return Settled(None, aim + gcd(*pool.call.costs))
    found = _listed(pool.call, bound.rooms, prices, slack)
    if found is not None:
        return _chosen(pool, left, found, (bound.least, aim), slack)
    for few, share in SOME:
        found = _listed(pool.call, bound.rooms, prices, slack // share, few)
        if found is None:
            break
        _take_in(pool, found)
        answer = programme(pool, left, bound.least, NODES)
        if answer is not None and answer.cost <= aim:
            return Settled(answer, 0)
    return Settled(None, 0)


def enrich(pool: Pool, bound: Bound, prices: Prices, aim: int) -> None:
    """Take into the pool patterns of which an answer of cost `aim` may consist: all, when they are few."""
    slack = max(0, prices.slack(pool.call, aim))
    found = _listed(pool.call, bound.rooms, prices, slack, FEW)
    if found is not None:
        _take_in(pool, found)


def _take_in(pool: Pool, found: Found) -> None:
    met, kept = found
    for one in met:
        keeper = kept[one.bin]
        if keeper is not None:
            group = keeper.group(one.at)
            width, height = extent(group, pool.call.items)
            if width <= pool.call.bins[one.bin][0] and height <= pool.call.bins[one.bin][1]:
                pool.add(one.bin, group)


def prices_of(call: Order, bound: Bound) -> Prices:
    """Return prices at which no sheet yields more than it costs, from those of the fractional answer."""
    scale = max(1, FINE // max(call.costs))
    worth = [int(value * scale) if copies else 0 for value, copies in zip(bound.worth, call.copies, strict=True)]
    shrink = Fraction(1)
    for space, cost in zip(bound.rooms, call.costs, strict=True):
        top = space.price(worth).best
        if top > cost * scale:
            shrink = min(shrink, Fraction(cost * scale, top))
    return Prices(tuple(int(value * shrink) for value in worth), scale)


Found = tuple[list[Met], list[Kept | None]]


def _listed(call: Order, rooms: Sequence[Room], prices: Prices, slack: int, few: int = 0) -> Found | None:
    """Return every pattern that falls short by no more than the slack; None when they are too many."""
    caps = np.minimum(np.array(call.copies), np.iinfo(np.int16).max // 2).astype(np.int16)
    whole = np.array(prices.worth, dtype=np.int64)
    met: list[Met] = []
    kept: list[Kept | None] = []
    for kind, (space, cost) in enumerate(zip(rooms, call.costs, strict=True)):
        priced = space.price(prices.worth)
        loss = priced.best - (cost * prices.scale - slack)
        if loss < 0:
            kept.append(None)
            continue
        cells = np.array([(item, i, j) for item, _, i, j in space.cells], dtype=np.int64).reshape(-1, 3)
        spare = slacks(priced.value, space.rests, loss)
        lists, first, end = every(priced.value, spare, space.rests, cells, caps, whole, (MOST, BUDGET, few))
        if first < 0 or len(met) + end - first > MOST_COLUMNS:
            return None
        kept.append(Kept(space, lists))
        for at in range(first, end):
            holds = tuple(int(value) for value in lists[0][at])
            met.append(Met(kind, holds, cost * prices.scale - int(lists[1][at]), at))
    return met, kept


def _chosen(pool: Pool, left: Left, found: Found, span: tuple[int, int], slack: int) -> Settled:
    from scipy.optimize import Bounds, LinearConstraint, milp

    met, kept = found
    call = pool.call
    step = gcd(*call.costs)
    if not met:
        return Settled(None, span[1] + step)
    matrix = np.array([one.holds for one in met], dtype=np.float64).T
    costs = np.array([call.costs[one.bin] // step for one in met], dtype=np.float64)
    often = max(call.copies)
    most = np.array([min(slack // one.short, often) if one.short > 0 else often for one in met], dtype=np.float64)
    rules = [
        LinearConstraint(matrix, lb=np.array(call.copies, dtype=np.float64)),
        LinearConstraint(costs[None, :], lb=span[0] / step, ub=span[1] / step),
    ]
    for kind, hand in enumerate(left.hands):
        if hand is not None:
            rules.append(LinearConstraint(np.array([[float(one.bin == kind) for one in met]]), ub=float(hand)))
    done = milp(
        costs,
        constraints=rules,
        integrality=np.ones(len(met)),
        bounds=Bounds(0, most),
        options={"node_limit": NODES, "mip_rel_gap": 0.0},
    )
    if done.status == INFEASIBLE:
        return Settled(None, span[1] + step)
    least = 0 if done.mip_dual_bound is None else int(np.ceil(done.mip_dual_bound - 1e-6)) * step
    if done.x is None:
        return Settled(None, least)
    times = np.round(done.x).astype(np.int64)
    return Settled(_taken(pool, left, {int(k): int(times[k]) for k in np.flatnonzero(times)}, met, kept), least)


def _taken(pool: Pool, left: Left, times: dict[int, int], met: list[Met], kept: list[Kept | None]) -> Rounded | None:
    """Return the answer with its patterns taken into the pool; None when one fits only in coarse steps."""
    plan: dict[int, int] = {}
    for which, often in times.items():
        one = met[which]
        keeper = kept[one.bin]
        if keeper is None:
            return None
        group = keeper.group(one.at)
        width, height = extent(group, pool.call.items)
        if width > pool.call.bins[one.bin][0] or height > pool.call.bins[one.bin][1]:
            return None
        pool.add(one.bin, group)
        index = pool.known[one.bin, counts(group, len(pool.call.items))]
        plan[index] = plan.get(index, 0) + often
    answer = rounded(pool, left, plan)
    return None if any(answer.missing) else answer
