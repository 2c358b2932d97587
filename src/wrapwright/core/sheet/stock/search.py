"""The order of work of a search: bound, rounding, integer programme, and what makes the answer pleasant to cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import gcd

from wrapwright.core.sheet.stock.bound import Bound, bounded, started
from wrapwright.core.sheet.stock.columns import Left, Pool, all_of
from wrapwright.core.sheet.stock.cuts import counts, sheet_cut, without
from wrapwright.core.sheet.stock.proof import settle
from wrapwright.core.sheet.stock.room import Group
from wrapwright.core.sheet.stock.values import Order, StockAnswer, StockPattern
from wrapwright.core.sheet.stock.whole import Rounded, dive, programme

NODES = 300


def searched(call: Order, seed: int) -> Iterator[StockAnswer]:
    """Yield answers for a checked order that has copies, never worse ones."""
    pool = started(call)
    bound = bounded(pool)
    left = all_of(call)
    best: Rounded | None = None
    for found, least in _steps(pool, left, bound, seed):
        bound = replace(bound, least=max(bound.least, least))
        if found is not None and (best is None or found.rank < best.rank):
            best = found
        if best is not None:
            yield _answer(pool, best, bound.least)
            if best.cost <= bound.least and not any(best.missing):
                return


def _steps(pool: Pool, left: Left, bound: Bound, seed: int) -> Iterator[tuple[Rounded | None, int]]:
    """Yield answers as they are found, and the bound as it rises."""
    first = None
    for first in dive(pool, left, 0):
        yield first, 0
    yield programme(pool, left, bound.least, NODES), 0
    if first is None or not any(first.missing):
        step = gcd(*pool.call.costs)
        for aim in range(bound.least, bound.least + 3 * step, step):
            done = settle(pool, left, replace(bound, least=aim), aim)
            yield done.answer, aim + step if done.impossible else aim
            if not done.impossible:
                break
    for variant in range(1, 5):
        for found in dive(pool, left, variant * seed):
            yield found, 0
    yield programme(pool, left, bound.least, NODES), 0


def _answer(pool: Pool, best: Rounded, bound: int) -> StockAnswer:
    call = pool.call
    spare = [-copies for copies in call.copies]
    for index, times in best.plan.items():
        for item, held in enumerate(pool.columns[index].holds):
            spare[item] += held * times
    spare = [max(0, extra) for extra in spare]
    patterns = []
    for index, times in best.plan.items():
        column = pool.columns[index]
        group: Group | None = column.group
        if times == 1 and any(spare):
            group = without(column.group, spare)
        if group is not None and any(counts(group, len(call.items))):
            width, height, _, _ = call.bins[column.bin]
            patterns.append(StockPattern(column.bin, sheet_cut(group, call.items, (width, height)), times))
    cost = best.cost
    proven = cost <= bound and not any(best.missing)
    return StockAnswer(
        tuple(patterns), call.money(bound), proven, call.money(cost), missing=best.missing, spare=tuple(spare)
    )
