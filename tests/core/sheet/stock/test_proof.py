"""Listing of all patterns that an answer could use, against trying everything."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.stock.tiny_orders import all_contents, replayed

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.bound import Bound, bounded, started
from wrapwright.core.sheet.stock.columns import all_of
from wrapwright.core.sheet.stock.cuts import sheet_cut
from wrapwright.core.sheet.stock.price.every import every, slacks
from wrapwright.core.sheet.stock.price.room import room
from wrapwright.core.sheet.stock.proof import Kept, settle
from wrapwright.core.sheet.stock.values import order

SHEET = (9, 7)
item_of = st.tuples(st.integers(2, 7), st.integers(2, 7), st.integers(1, 3), st.booleans())


@settings(max_examples=40)
@given(
    st.lists(item_of, min_size=1, max_size=3),
    st.lists(st.integers(0, 30), min_size=3, max_size=3),
    st.integers(0, 60),
)
def test_all_patterns_within_a_loss_are_listed(items: list[Item], worth: list[int], loss: int) -> None:
    space = room(items, SHEET)
    prices = np.array(worth[: len(items)], dtype=np.int64)
    priced = space.price(worth[: len(items)])
    spare = slacks(priced.value, space.rests, loss)
    cells = np.array([(item, i, j) for item, _, i, j in space.cells], dtype=np.int64).reshape(-1, 3)
    caps = np.array([item[2] for item in items], dtype=np.int16)
    lists, first, end = every(priced.value, spare, space.rests, cells, caps, prices, (20_000, 10**8, 0))
    assert first >= 0
    listed = {tuple(int(n) for n in lists[0][at]) for at in range(first, end)}
    contents = {
        held
        for held in all_contents(items, SHEET)
        if any(held) and sum(n * w for n, w in zip(held, worth, strict=False)) >= priced.best - loss
    }
    largest = {
        one
        for one in contents
        if not any(other != one and all(a >= b for a, b in zip(other, one, strict=True)) for other in contents)
    }
    assert listed == largest
    for at in range(first, end):
        got = replayed(sheet_cut(Kept(space, lists).group(at), items, SHEET), items, SHEET)
        held = tuple(int(n) for n in lists[0][at])
        assert tuple(min(got[k], item[2]) for k, item in enumerate(items)) == held


def test_the_list_gives_up_at_its_limits() -> None:
    items: list[Item] = [(2, 3, 9, True), (3, 4, 9, True), (2, 5, 9, True)]
    space = room(items, (30, 30))
    priced = space.price([6, 12, 10])
    spare = slacks(priced.value, space.rests, 200)
    cells = np.array([(item, i, j) for item, _, i, j in space.cells], dtype=np.int64)
    caps, prices = np.array([9, 9, 9], dtype=np.int16), np.array([6, 12, 10], dtype=np.int64)
    for limits in ((80, 10**9, 0), (200_000, 500, 0)):
        assert every(priced.value, spare, space.rests, cells, caps, prices, limits)[1] == -1


def test_a_cost_between_the_fraction_and_the_best_is_shown_to_be_impossible() -> None:
    # Two of 5 x 7 do not fit a sheet of 9 x 7 though their number per sheet, 1.8 by area, would allow three sheets for
    # five; the bound is handed in too low on purpose.
    items: list[Item] = [(5, 7, 5, False)]
    pool = started(order(items, [(*SHEET, 1, None)]))
    true = bounded(pool)
    assert true.least == 5
    low = Bound(3, true.worth, true.rooms)
    done = settle(pool, all_of(pool.call), low, 4)
    assert (done.answer, done.least) == (None, 5)
    met = settle(pool, all_of(pool.call), replace(low, least=5), 5)
    assert met.answer is not None
    assert met.answer.cost == 5
