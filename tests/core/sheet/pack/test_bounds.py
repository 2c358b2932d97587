"""No layout beats the bounds; they are as sharp as published ones."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import combinations_with_replacement
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.sheet.pack.bounds import dual_feasible, fewest_sheets, shortest_strip
from wrapwright.core.sheet.pack.strips import Strip
from wrapwright.core.sheet.pack.trimmer import Packing
from wrapwright.core.sheet.pack.values import Item

sides = st.integers(1, 24)
sheets = st.sampled_from([(24, 24), (30, 24), (24, 37)])


@pytest.mark.parametrize("whole", [7, 12, 20])
def test_the_functions_are_dual_feasible(whole: int) -> None:
    """Every multiset of sizes that fits the whole keeps values that fit 1: tried exhaustively."""
    sizes = np.arange(1, whole + 1)
    rows = dual_feasible(sizes, whole)
    assert rows.min() >= 0
    assert rows.max() <= 1
    for count in range(1, 6):
        for some in combinations_with_replacement(range(1, whole + 1), count):
            if sum(some) <= whole:
                assert rows[:, np.array(some) - 1].sum(axis=1).max() <= 1 + 1e-9
    ones = rows[:, 0].max()  # many of the smallest size
    assert Fraction(ones).limit_denominator(1000) * whole <= 1


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(sides, sides, st.integers(0, 3), st.booleans()), max_size=8), sheets)
def test_no_layout_beats_the_bounds(items: list[Item], sheet: tuple[int, int]) -> None:
    packing, strip = Packing(items, sheet, seed=1), Strip(items, sheet[0], seed=1)
    packing.advance(100)
    strip.advance(100)
    assert fewest_sheets(items, sheet) <= packing.sheets
    assert shortest_strip(items, sheet[0]) <= strip.length
    fixed = [(*one[:3], False) for one in items]
    assert fewest_sheets(items, sheet) <= fewest_sheets(fixed, sheet)
    assert shortest_strip(items, sheet[0]) <= shortest_strip(fixed, sheet[0])


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 12), st.integers(1, 12), st.booleans(), st.randoms(use_true_random=False))
def test_no_bound_is_above_a_layout_made_by_cutting_whole_sheets(
    across: int, up: int, turns: bool, dice: object
) -> None:
    """Two sheets are cut up at random; the pieces, some turned, lie on two sheets again."""
    sheet = (across + 12, up + 12)
    pieces = [sheet, sheet]
    for _ in range(8):
        index = dice.randrange(len(pieces))  # type: ignore[attr-defined]
        wide, high = pieces.pop(index)
        axis, size = (0, wide) if wide >= high else (1, high)
        if size < 2:
            pieces.append((wide, high))
            continue
        at = dice.randrange(1, size)  # type: ignore[attr-defined]
        pieces += [(at, high), (wide - at, high)] if axis == 0 else [(wide, at), (wide, high - at)]
    items = [(high, wide, 1, True) if turns else (wide, high, 1, False) for wide, high in pieces]
    assert fewest_sheets(items, sheet) == 2  # the whole area is full, so no fewer either
    strip = shortest_strip(items, sheet[0])
    assert strip == 2 * sheet[1]


def test_large_items_count_one_a_sheet() -> None:
    assert fewest_sheets([(6, 6, 7, True)], (10, 10)) == 7
    assert fewest_sheets([(6, 8, 7, True)], (10, 11)) == 7
    assert fewest_sheets([(6, 4, 7, False)], (10, 10)) == 4  # two on top of each other
    assert fewest_sheets([], (10, 10)) == 0
    assert fewest_sheets([(1, 1, 1, True)], (10, 10)) == 1


def test_an_item_that_fits_one_way_only_counts_in_that_way() -> None:
    """7 x 11 lies in 12 x 8 only turned, and then only one at a time."""
    assert fewest_sheets([(7, 11, 5, True)], (12, 8)) == 5


def test_a_strip_is_as_long_as_its_longest_item_and_its_areas() -> None:
    assert shortest_strip([], 9) == 0
    assert shortest_strip([(5, 8, 1, False), (4, 2, 1, False)], 9) == 8
    assert shortest_strip([(5, 8, 1, True)], 9) == 5
    assert shortest_strip([(5, 8, 1, True)], 6) == 8
    assert shortest_strip([(5, 3, 4, False)], 9) == 12  # no two side by side


PUBLISHED = json.loads((Path(__file__).parent / "data" / "published.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("row", PUBLISHED["instances"], ids=lambda row: row["name"])
def test_published_instances(row: dict[str, object]) -> None:
    items = [(w, h, copies, True) for w, h, copies in row["items"]]  # type: ignore[attr-defined]
    bound = fewest_sheets(items, tuple(row["bin"]))  # type: ignore[arg-type]
    assert bound == row["lower_bound"]
    assert bound <= row["best"]  # type: ignore[operator]
