"""The bound, against trying everything."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.stock.tiny_orders import least_cost

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.bound import guillotine_bound
from wrapwright.core.sheet.stock.columns import whole_cost
from wrapwright.core.sheet.stock.values import order

item_of = st.tuples(st.integers(2, 7), st.integers(2, 7), st.integers(1, 3), st.booleans())


@settings(max_examples=16)
@given(st.lists(item_of, min_size=1, max_size=3))
def test_never_above_the_best_and_never_below_the_area(items: list[Item]) -> None:
    bound = guillotine_bound(items, (9, 7))
    area = sum(width * height * copies for width, height, copies, _ in items)
    assert -(-area // 63) <= bound <= least_cost(items, [(9, 7, 1, None)])


def test_free_cuts_can_do_what_cuts_from_edge_to_edge_cannot() -> None:
    # Four of 3 x 2 round a hole of 1 x 1 fill 5 x 5 freely; edge to edge only three come off a sheet.
    assert guillotine_bound([(3, 2, 12, True)], (5, 5)) == 4


def test_costs_that_whole_sheets_can_have() -> None:
    from fractions import Fraction

    call = order([(1, 1, 1, True)], [(5, 5, 6, None), (5, 5, 10, None)])
    sums = {a * 6 + b * 10 for a in range(12) for b in range(12)}
    for bound in (Fraction(1, 3), Fraction(7), Fraction(13), Fraction(121, 10)):
        assert whole_cost(call, bound) == min(value for value in sums if value >= bound)
