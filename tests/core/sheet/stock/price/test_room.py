"""Pricing: the most valuable pattern of a sheet."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.stock.tiny_orders import all_contents, replayed

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.cuts import counts, extent, sheet_cut
from wrapwright.core.sheet.stock.price.room import loose_room, room

SHEET = (9, 7)
item_of = st.tuples(st.integers(2, 7), st.integers(2, 7), st.integers(1, 3), st.booleans())
order_of = st.lists(item_of.filter(lambda i: i[0] <= 9 and i[1] <= 7), min_size=1, max_size=3)


def plenty(items: list[Item]) -> list[Item]:
    """Return the items in as many copies as fit a sheet."""
    return [(width, height, 15, turn) for width, height, _, turn in items]


@settings(max_examples=40, deadline=None)
@given(order_of, st.lists(st.integers(1, 50), min_size=3, max_size=3))
def test_the_best_pattern_is_the_best_of_all(items: list[Item], worth: list[int]) -> None:
    items = plenty(items)
    priced = room(items, SHEET).price(worth[: len(items)])
    best = max(sum(n * w for n, w in zip(held, worth, strict=False)) for held in all_contents(items, SHEET))
    assert priced.best == best
    groups = priced.groups(6, 0)
    assert sum(n * w for n, w in zip(counts(groups[0], len(items)), worth, strict=False)) == best
    for group in groups:
        got = replayed(sheet_cut(group, items, SHEET), items, SHEET)
        assert tuple(got[k] for k in range(len(items))) == counts(group, len(items))


@settings(max_examples=40, deadline=None)
@given(order_of, st.lists(st.integers(1, 50), min_size=3, max_size=3))
def test_coarse_steps_never_make_a_sheet_worth_less(items: list[Item], worth: list[int]) -> None:
    items = plenty([(10 * w + 3, 10 * h + 1, n, turn) for w, h, n, turn in items])
    sheet = (97, 75)
    items = [item for item in items if item[0] <= sheet[0] and item[1] <= sheet[1]]
    if not items:
        return
    loose = loose_room(items, sheet, work=2_000)
    assert not loose.exact
    assert loose.price(worth[: len(items)]).best >= room(items, sheet).price(worth[: len(items)]).best


def test_thinned_points_make_true_patterns_of_no_more_worth() -> None:
    items = [(2513, 4027, 40, True), (5011, 3391, 40, True), (9107, 10033, 40, True)]
    sheet = (28900, 41500)
    whole, thin = room(items, sheet, work=10**12), room(items, sheet, work=40_000)
    assert whole.exact
    assert not thin.exact
    worth = [10, 17, 92]
    assert 0 < thin.price(worth).best <= whole.price(worth).best
    for group in thin.price(worth).groups(4, 0):
        width, height = extent(group, items)
        assert width <= sheet[0]
        assert height <= sheet[1]
        replayed(sheet_cut(group, items, sheet), items, sheet)


def test_a_known_optimum() -> None:
    # The pieces of gcut1 (J. E. Beasley, J. Oper. Res. Soc. 36 (1985) 297-306) on 250 x 250, each worth its area, as
    # often as wanted, not turned: 56460 is the optimum as it is generally printed.
    sizes = [(167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148), (87, 141)]
    items: list[Item] = [(width, height, 99, False) for width, height in [*sizes, (69, 165)]]
    priced = room(items, (250, 250)).price([width * height for width, height, _, _ in items])
    assert priced.best == 56460
