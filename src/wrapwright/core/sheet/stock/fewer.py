"""The same cost with fewer different patterns, then fewer strokes: less to set at the trimmer."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.stock.columns import Left, Pool
from wrapwright.core.sheet.stock.proof import Prices
from wrapwright.core.sheet.stock.whole import Rounded, rounded

MOST_COLUMNS = 60
NODES = 25


def fewer_patterns(pool: Pool, left: Left, best: Rounded, prices: Prices) -> Rounded | None:
    """Return an answer of the same cost that is cut more easily, or None when none is found.

    The fewest different patterns count first, then the strokes when every sheet is cut singly. Patterns that an answer
    of this cost cannot use are left out, then those that fall furthest short of their cost.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    chosen = _near(pool, best, prices)
    held = pool.matrix()[:, chosen]
    costs = pool.costs()[chosen]
    strokes = np.array([pool.strokes(pool.columns[index]) for index in chosen], dtype=np.float64)
    often = _most_times(held, np.array(left.copies, dtype=np.float64))
    number = len(chosen)
    unit, none = np.eye(number), np.zeros((1, number))
    used = np.ones((1, number))
    rules = [
        LinearConstraint(np.hstack([held, np.zeros_like(held)]), lb=np.array(left.copies, dtype=np.float64)),
        LinearConstraint(np.hstack([unit, -np.diag(often)]), ub=0.0),
        LinearConstraint(np.hstack([costs[None, :], none]) / costs.max(), ub=best.cost / costs.max() + 1e-9),
        LinearConstraint(np.hstack([none, used]), ub=float(len(best.plan))),
    ]
    for kind, hand in enumerate(left.hands):
        if hand is not None:
            of_kind = np.array([[float(pool.columns[index].bin == kind) for index in chosen]])
            rules.append(LinearConstraint(np.hstack([of_kind, none]), ub=float(hand)))
    now = sum(strokes[chosen.index(index)] * times for index, times in best.plan.items())
    done = milp(
        np.concatenate([strokes / (2.0 * max(now, 1.0)), np.ones(number)]),
        constraints=rules,
        integrality=np.ones(2 * number),
        bounds=Bounds(0, np.concatenate([often, np.ones(number)])),
        options={"node_limit": NODES, "mip_rel_gap": 0.0},
    )
    if done.x is None:
        return None
    times = np.round(done.x[:number]).astype(np.int64)
    answer = rounded(pool, left, {chosen[k]: int(times[k]) for k in np.flatnonzero(times)})
    return answer if answer.rank <= best.rank else None


def _near(pool: Pool, best: Rounded, prices: Prices) -> list[int]:
    """Return the patterns of the pool that may matter, those in use always."""
    slack = prices.slack(pool.call, best.cost)
    short = []
    for index, column in enumerate(pool.columns):
        worth = sum(price * held for price, held in zip(prices.worth, column.holds, strict=True))
        short.append((pool.call.costs[column.bin] * prices.scale - worth, index))
    near = [index for gap, index in sorted(short) if gap <= slack and index not in best.plan]
    return sorted([*best.plan, *near[: MOST_COLUMNS - len(best.plan)]])


def _most_times(held: NDArray[np.float64], copies: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how often each pattern is cut at most: until it alone has yielded every item it holds."""
    with np.errstate(divide="ignore"):
        need = np.where(held > 0, np.ceil(copies[:, None] / np.where(held > 0, held, 1.0)), 0.0)
    most: NDArray[np.float64] = need.max(axis=0)
    return np.maximum(most, 1.0)
