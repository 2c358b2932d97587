"""From the fractional answer to whole sheets: rounding down and on, and an integer programme over what was met."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import gcd

import numpy as np

from wrapwright.core.sheet.stock.columns import Left, Pool, relax

ROUNDS = 12  # pricings for what is left at each step of rounding
Plan = dict[int, int]  # pattern of the pool -> how many sheets


@dataclass(frozen=True)
class Rounded:
    """Whole sheets: which patterns how often, their cost in whole units, and copies that are missing."""

    plan: Plan
    cost: int
    missing: tuple[int, ...]

    @property
    def rank(self) -> tuple[int, int, int]:
        """What is less is better: copies missing, cost, different patterns."""
        return sum(self.missing), self.cost, len(self.plan)


def rounded(pool: Pool, left: Left, plan: Mapping[int, int]) -> Rounded:
    """Return the plan with what it costs and leaves missing."""
    cost = sum(pool.call.costs[pool.columns[index].bin] * times for index, times in plan.items())
    return Rounded(
        {index: times for index, times in sorted(plan.items()) if times}, cost, minus(pool, left, plan).copies
    )


def minus(pool: Pool, left: Left, plan: Mapping[int, int]) -> Left:
    """Return what is left when the plan has been cut."""
    copies, hands = list(left.copies), list(left.hands)
    for index, times in plan.items():
        column = pool.columns[index]
        for item, held in enumerate(column.holds):
            copies[item] = max(0, copies[item] - held * times)
        hand = hands[column.bin]
        hands[column.bin] = None if hand is None else hand - times
    return Left(tuple(copies), tuple(hands))


def dive(pool: Pool, left: Left, variant: int) -> Iterator[Rounded | None]:
    """Round the fractional answer of what is left, cut that, and go on with the rest; the last value is the answer.

    All whole parts are cut; when there are none, the pattern with the largest fraction (disturbed by the variant) is
    cut once. Each step prices new patterns for the rest alone.
    """
    noise = np.random.default_rng(variant)
    plan: Counter[int] = Counter()
    rest = left
    while any(rest.copies):
        found = relax(pool, rest, rounds=ROUNDS)
        floors = {int(index): int(found.floors[index]) for index in np.flatnonzero(found.floors)}
        if not floors:
            shares = found.times + (noise.random(len(found.times)) * 0.5 * (found.times > 1e-6) if variant else 0)
            if not len(shares) or shares.max() <= 1e-6:
                break  # nothing more fits on the sheets at hand
            floors = {int(np.argmax(shares)): 1}
        plan.update(floors)
        rest = minus(pool, rest, floors)
        yield None
    yield rounded(pool, left, plan)


def programme(pool: Pool, left: Left, least: int, nodes: int) -> Rounded | None:
    """Return the cheapest whole answer made of the patterns met, or None when none is found within the nodes.

    `least` is a proven lower bound: the search stops as soon as it is met. `nodes` of the search tree are counted and
    not seconds, so that the answer is always the same.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    step = gcd(*pool.call.costs)  # small numbers keep the solver's arithmetic sound
    costs = pool.costs() / step
    rules = [
        LinearConstraint(pool.matrix(), lb=np.array(left.copies, dtype=np.float64)),
        LinearConstraint(costs[None, :], lb=least / step),
    ]
    for kind, hand in enumerate(left.hands):
        if hand is not None:
            used = np.array([[1.0 if column.bin == kind else 0.0 for column in pool.columns]])
            rules.append(LinearConstraint(used, ub=float(hand)))
    done = milp(
        costs,
        constraints=rules,
        integrality=np.ones(len(costs)),
        bounds=Bounds(0, float(max(left.copies, default=0))),
        options={"node_limit": nodes, "mip_rel_gap": 0.0},
    )
    if done.x is None:
        return None
    times = np.round(done.x).astype(np.int64)
    answer = rounded(pool, left, {int(index): int(times[index]) for index in np.flatnonzero(times)})
    return answer if not any(answer.missing) else None
