"""The order of work of a search: bound, rounding, integer programme, and what makes the answer pleasant to cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import gcd

from wrapwright.core.sheet.stock.bound import Bound, bounded, started
from wrapwright.core.sheet.stock.columns import Left, Pool, all_of
from wrapwright.core.sheet.stock.cuts import counts, sheet_cut, without
from wrapwright.core.sheet.stock.fewer import fewer_patterns
from wrapwright.core.sheet.stock.price.room import Group
from wrapwright.core.sheet.stock.proof import enrich, prices_of, settle
from wrapwright.core.sheet.stock.values import Order, StockAnswer, StockPattern
from wrapwright.core.sheet.stock.whole import Rounded, dive, programme

NODES = 300
FEW_ITEMS = 20
OFTEN = 8  # copies of an item, on average


Step = tuple[Rounded | None, int]


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
                break
    if best is not None and not any(best.missing) and len(best.plan) > 1 and repeats(call):
        prices = prices_of(call, bound)
        enrich(pool, bound, prices, best.cost)
        found = fewer_patterns(pool, left, best, prices)
        if found is not None:
            yield _answer(pool, found, bound.least)


def repeats(call: Order) -> bool:
    """Return whether patterns will repeat, so that whole programmes over them are quick; else packing finds more."""
    ordered = [copies for copies in call.copies if copies]
    return len(ordered) <= FEW_ITEMS or sum(ordered) >= OFTEN * len(ordered)


def _steps(pool: Pool, left: Left, bound: Bound, seed: int) -> Iterator[Step]:
    """Yield answers as they are found, and the bound as it rises (0: as before)."""
    best: Rounded | None = None
    for best in dive(pool, left, 0):
        yield best, 0
    if not repeats(pool.call):
        return
    found = programme(pool, left, bound.least, NODES)
    yield found, 0
    if best is not None and not any(best.missing):
        yield from _settled(pool, left, bound, min(best.cost, best.cost if found is None else found.cost))
    for variant in range(1, 5):
        for best in dive(pool, left, variant * seed):
            yield best, 0
    yield programme(pool, left, bound.least, NODES), 0


def _settled(pool: Pool, left: Left, bound: Bound, cost: int) -> Iterator[Step]:
    """Ask for the bound itself, or with sheets of several prices for anything cheaper than what is known."""
    step = gcd(*pool.call.costs)
    if len(set(pool.call.costs)) > 1:
        done = settle(pool, left, bound, cost - step)
        yield done.answer, done.least
        return
    for aim in range(bound.least, cost, step):
        done = settle(pool, left, replace(bound, least=aim), aim)
        yield done.answer, done.least
        if done.least <= aim:
            return


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
