"""The order cut from stock: the bound first, then better and better whole answers until one meets it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wrapwright.core.sheet.pack.values import Cut, Item
from wrapwright.core.sheet.stock.values import Bin, Order, StockAnswer, StockPattern, order


def cut_stock(items: Sequence[Item], bins: Sequence[Bin], *, seed: int = 1) -> StockAnswer:
    """Return how to cut the items from the sheets: cheapest first, then fewest different patterns.

    Args:
        items: width, height, copies, may turn.
        bins: width, height, cost of a sheet (1 for the fewest sheets), sheets at hand or None.
        seed: the same seed gives the same answer.
    """
    return list(improve_stock(items, bins, seed=seed))[-1]


def improve_stock(items: Sequence[Item], bins: Sequence[Bin], *, seed: int = 1) -> Iterator[StockAnswer]:
    """Yield answers, never worse ones, each after a slice of work; the last is the best, earlier ones may be kept."""
    from wrapwright.core.sheet.stock.search import searched

    call = order(items, bins)
    if any(call.copies):
        yield from searched(call, seed)
    else:
        yield StockAnswer((), 0, proven=True, cost=0, missing=(0,) * len(items), spare=(0,) * len(items))


def single_sheets(answer: StockAnswer) -> tuple[tuple[int, Cut], ...]:
    """Return every sheet by itself (kind, cuts), with exactly the copies ordered: those to spare are left blank."""
    from wrapwright.core.sheet.stock.cuts import emptied

    spare = list(answer.spare)
    sheets = [(pattern.bin, pattern.cut) for pattern in answer.patterns for _ in range(pattern.times)]
    done = [(kind, emptied(cut, spare)) for kind, cut in reversed(sheets)]
    return tuple(reversed(done))


__all__ = ["Bin", "Order", "StockAnswer", "StockPattern", "cut_stock", "improve_stock", "single_sheets"]
