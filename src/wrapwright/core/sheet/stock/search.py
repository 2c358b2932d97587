"""The order of work of a search: bound, rounding, integer programme, and what makes the answer pleasant to cut."""

from __future__ import annotations

from collections.abc import Iterator

from wrapwright.core.sheet.stock.bound import least_cost, started
from wrapwright.core.sheet.stock.columns import Left, Pool, all_of
from wrapwright.core.sheet.stock.cuts import counts, sheet_cut, without
from wrapwright.core.sheet.stock.room import Group
from wrapwright.core.sheet.stock.values import Order, StockAnswer, StockPattern
from wrapwright.core.sheet.stock.whole import Rounded, dive, programme

DIVES = 4
NODES = 300
ROUNDS = 4


def searched(call: Order, seed: int) -> Iterator[StockAnswer]:
    """Yield answers for a checked order that has copies, never worse ones."""
    pool = started(call)
    bound = least_cost(pool)
    left = all_of(call)
    best: Rounded | None = None
    for found in _rounds(pool, left, bound, seed):
        if found is not None and (best is None or found.rank < best.rank):
            best = found
        if best is not None:
            yield _answer(pool, best, bound)
            if best.cost <= bound and not any(best.missing):
                return


def _rounds(pool: Pool, left: Left, bound: int, seed: int) -> Iterator[Rounded | None]:
    for turn in range(ROUNDS):
        for variant in range(turn * DIVES, (turn + 1) * DIVES):
            yield from dive(pool, left, variant * seed)
        yield programme(pool, left, bound, NODES)


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
