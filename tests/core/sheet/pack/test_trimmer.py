"""Packings: everything laid exactly once by cuts from edge to edge, at the published figures, the same each time."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.trees import faults
from wrapwright.core.sheet.pack.trimmer import LONGEST, MOST_PIECES, Packing
from wrapwright.core.sheet.pack.values import Item

SHEET = (60, 45)
sizes = st.integers(1, 45)
orders = st.lists(st.tuples(sizes, sizes, st.integers(0, 5), st.booleans()), max_size=12)


@settings(max_examples=60, deadline=None)
@given(orders, st.integers(-5, 2**40))
def test_any_order_is_laid_whole(items: list[Item], seed: int) -> None:
    packing = Packing(items, SHEET, seed=seed)
    first = len(packing.best)
    assert faults(packing.best, items, SHEET) == []
    proven = packing.advance(200)
    assert faults(packing.best, items, SHEET) == []
    assert packing.bound <= packing.sheets == len(packing.best) <= first
    assert proven == packing.proven == (packing.sheets == packing.bound)


def test_steps_in_one_go_or_in_many_give_the_same_trees() -> None:
    items = [(23, 17, 9, True), (31, 12, 7, False), (8, 9, 20, True)]
    whole, parts, other = (Packing(items, SHEET, seed=seed) for seed in (5, 5, 6))
    whole.advance(700)
    for steps in (1, 99, 0, 250, 350):
        parts.advance(steps)
    other.advance(700)
    assert whole.best == parts.best
    assert whole.best != other.best


def test_a_perfect_sheet_is_proven_at_once() -> None:
    packing = Packing([(30, 15, 6, False)], SHEET, seed=1)
    assert packing.proven
    assert packing.advance(10)
    assert packing.sheets == 1


def test_a_bound_from_elsewhere_ends_the_search() -> None:
    """Four of 3 x 2 lie in 5 x 5 only like the sails of a windmill, which no cut from edge to edge divides."""
    items, sheet = [(3, 2, 4, True)], (5, 5)
    unknown, told = Packing(items, sheet, seed=1), Packing(items, sheet, seed=1, bound=2)
    assert not unknown.advance(500)
    assert (unknown.bound, unknown.sheets) == (1, 2)
    assert told.advance(500)
    assert (told.bound, told.sheets) == (2, 2)


def test_nothing_to_lay_takes_no_sheet() -> None:
    for items in ([], [(5, 5, 0, True)]):
        packing = Packing(items, SHEET, seed=1)
        assert packing.advance(5)
        assert packing.best == ()


@pytest.mark.parametrize(
    ("items", "sheet", "words"),
    [
        ([(61, 45, 1, True)], SHEET, "Item 1, 61 x 45, does not fit a sheet of 60 x 45, turned or not."),
        ([(9, 9, 1, True), (45, 60, 1, False)], SHEET, "Item 2, 45 x 60, does not fit a sheet of 60 x 45 unturned."),
        ([(0, 5, 1, True)], SHEET, "Item 1 is 0 x 5, 1 times"),
        ([(5, 5, -1, True)], SHEET, "Item 1 is 5 x 5, -1 times"),
        ([], (0, 45), "A sheet is 0 x 45"),
        ([], (60, LONGEST + 1), "A sheet is 60 x 16777217"),
        ([(1, 1, MOST_PIECES + 1, True)], SHEET, "20001 pieces are more than 20000 at once."),
    ],
)
def test_what_cannot_be_meant_is_told_with_its_figure(items: list[Item], sheet: tuple[int, int], words: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        Packing(items, sheet, seed=1)
    assert caught.value.kind == Kind.UNUSABLE
    assert words in str(caught.value)
