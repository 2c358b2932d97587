"""Patterns made one after another until none would improve the fractional answer; that answer is the bound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.stock.cuts import counts, pieces, sheet_cut
from wrapwright.core.sheet.stock.price.room import Group, Room
from wrapwright.core.sheet.stock.values import Order

Real = NDArray[np.float64]
FINE = 10**9  # the dearest sheet in units of a dual value, so that pricing is exact in whole numbers
SHORT = 100  # a copy not cut costs as much as so many of the dearest sheets
EACH = 8  # patterns taken from one pricing of one kind of sheet
ROUNDS = 30_000  # pricings, shared out over the items: with more items each takes longer
LEAST_ROUNDS = 30


@dataclass(frozen=True)
class Column:
    """A pattern of one kind of sheet: what it holds, and how it is cut."""

    bin: int
    holds: tuple[int, ...]
    group: Group


@dataclass
class Pool:
    """Every pattern met so far, each once.

    Attributes:
        call: the order.
        rooms: its sheets made ready, in their order.
        columns: the patterns.
    """

    call: Order
    rooms: tuple[Room, ...]
    columns: list[Column] = field(default_factory=list)
    known: dict[tuple[int, tuple[int, ...]], int] = field(default_factory=dict)

    def add(self, bin_: int, group: Group) -> bool:
        """Take in a pattern; say whether it is new."""
        holds = counts(group, len(self.call.items))
        if not any(holds) or (bin_, holds) in self.known:
            return False
        self.known[bin_, holds] = len(self.columns)
        self.columns.append(Column(bin_, holds, group))
        return True

    def strokes(self, column: Column) -> int:
        """Return how many cuts one sheet of the pattern takes."""
        width, height, _, _ = self.call.bins[column.bin]
        return sum(pieces(sheet_cut(column.group, self.call.items, (width, height)))) - 1

    def matrix(self) -> Real:
        """Return what each pattern holds, one column a pattern."""
        held = np.array([column.holds for column in self.columns], dtype=np.float64)
        return held.reshape(len(self.columns), len(self.call.items)).T

    def costs(self) -> Real:
        """Return what one sheet of each pattern costs, in whole units."""
        return np.array([self.call.costs[column.bin] for column in self.columns], dtype=np.float64)


@dataclass(frozen=True)
class Relaxed:
    """The fractional answer.

    Attributes:
        times: how often each pattern of the pool is cut, in fractions.
        cost: of it, in whole units of the order.
        bound: proven by pricing: no answer costs less (unrounded).
        worth: the dual value of a copy of each item.
    """

    times: Real
    cost: float
    bound: Fraction
    worth: tuple[float, ...]

    @cached_property
    def floors(self) -> NDArray[np.int64]:
        """The whole part of the times."""
        return np.floor(self.times + 1e-7).astype(np.int64)


@dataclass(frozen=True)
class Left:
    """What is still to be cut, and the sheets of each kind still at hand (None: as many as wanted)."""

    copies: tuple[int, ...]
    hands: tuple[int | None, ...]


def all_of(call: Order) -> Left:
    """Return the whole order as what is left."""
    return Left(call.copies, tuple(bin_[3] for bin_ in call.bins))


def relax(pool: Pool, left: Left, *, exact: bool = False, rounds: int = 0) -> Relaxed:
    """Return the fractional answer for what is left, adding patterns to the pool until they cannot change it.

    Column generation (Gilmore & Gomory, Oper. Res. 9 (1961) 849-859; 13 (1965) 94-120). It stops when no pattern
    prices out or, unless `exact`, when the bound rounded up already equals the cost rounded up, or after `rounds`: the
    bound is true at any time.
    """
    best = Fraction(0)
    for _ in range(rounds or LEAST_ROUNDS + ROUNDS // len(left.copies)):
        times, cost, worth, hand_worth = _master(pool, left)
        fresh, bound = _priced(pool, left, worth, hand_worth)
        best = max(best, bound)
        if not fresh or (not exact and whole_cost(pool.call, best) >= cost - 1e-6):
            break
    return Relaxed(times, cost, best, tuple(worth))


def _master(pool: Pool, left: Left) -> tuple[Real, float, list[float], list[float]]:
    from scipy.optimize import linprog

    types, number = len(left.copies), len(pool.columns)
    # In units of the dearest sheet: the solver loses its way among very large figures.
    dearest = float(max(pool.call.costs))
    cost = np.concatenate([pool.costs() / dearest, np.full(types, float(SHORT))])
    rows = [np.hstack([-pool.matrix(), -np.eye(types)])]
    limits = [-np.array(left.copies, dtype=np.float64)]
    held = [(kind, hand) for kind, hand in enumerate(left.hands) if hand is not None]
    for kind, hand in held:
        used = [1.0 if column.bin == kind else 0.0 for column in pool.columns]
        rows.append(np.array([used + [0.0] * types]))
        limits.append(np.array([float(hand)]))
    done = linprog(cost, A_ub=np.vstack(rows), b_ub=np.concatenate(limits), bounds=(0, None), method="highs")
    duals = -done.ineqlin.marginals * dearest
    hand_worth = [0.0] * len(left.hands)
    for (kind, _), value in zip(held, duals[types:], strict=True):
        hand_worth[kind] = float(value)
    return done.x[:number], float(done.fun) * dearest, [max(0.0, float(value)) for value in duals[:types]], hand_worth


def _priced(pool: Pool, left: Left, worth: Sequence[float], hand_worth: Sequence[float]) -> tuple[bool, Fraction]:
    """Add the patterns that price out; return whether there were any, and the bound that the prices prove."""
    scale = max(1, FINE // max(pool.call.costs))
    whole = [int(value * scale) if copies else 0 for value, copies in zip(worth, left.copies, strict=True)]
    fresh = False
    tops = []
    for kind, (space, cost) in enumerate(zip(pool.rooms, pool.call.costs, strict=True)):
        hand = left.hands[kind]
        if hand == 0:
            tops.append(0)
            continue
        priced = space.price(whole)
        tops.append(priced.best)
        for group in priced.groups(EACH, int((cost + hand_worth[kind]) * scale * (1 + 1e-9)) + 1):
            fresh = pool.add(kind, group) or fresh
    return fresh, _proven(pool.call, left, whole, tops, scale)


def _proven(call: Order, left: Left, whole: Sequence[int], tops: Sequence[int], scale: int) -> Fraction:
    """Return the bound for any prices: worth of the order over the most that one unit of cost can yield.

    The prices are shrunk until no kind of sheet of which there are as many as wanted yields more than it costs
    (Farley, Oper. Res. 38 (1990) 922-923); of the others every sheet at hand may yield its surplus. All in whole
    numbers, so no rounding can make the bound too high.
    """
    shrink = Fraction(1)
    for cost, top, hand in zip(call.costs, tops, left.hands, strict=True):
        if hand is None and top > cost * scale:
            shrink = min(shrink, Fraction(cost * scale, top))
    bound = shrink * sum(value * copies for value, copies in zip(whole, left.copies, strict=True))
    for cost, top, hand in zip(call.costs, tops, left.hands, strict=True):
        if hand is not None:
            bound -= hand * max(Fraction(0), shrink * top - cost * scale)
    return max(Fraction(0), bound / scale)


MOST_SUMS = 1_000_000


def whole_cost(call: Order, bound: Fraction) -> int:
    """Return the least cost that whole sheets can have, not under the bound."""
    from math import gcd

    from wrapwright.core.sheet.stock.price.points import reachable

    step = gcd(*call.costs)
    need = -int(-(bound / step) // 1)
    units = sorted({cost // step for cost in call.costs})
    if len(units) == 1 or need + units[0] > MOST_SUMS:
        return need * step
    most = need + units[0]
    sums = reachable([(unit, most // unit) for unit in units if unit <= most], most) >> need
    return (need + (sums & -sums).bit_length() - 1) * step
