"""Packings: everything laid exactly once by cuts from edge to edge, at the published figures, the same each time."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.trees import faults, wastes
from wrapwright.core.sheet.pack.trimmer import LONGEST, MOST_PIECES, Packing
from wrapwright.core.sheet.pack.values import Item

SHEET = (60, 45)
sizes = st.integers(1, 45)
PUBLISHED = json.loads((Path(__file__).parent / "data" / "published.json").read_text(encoding="utf-8"))
orders = st.lists(st.tuples(sizes, sizes, st.integers(0, 5), st.booleans()), max_size=12)


def rests(packing: Packing) -> list[int]:
    """Return the areas of what is left of the sheets, the largest first."""
    return sorted((one.width * one.height for cut in packing.best for one in wastes(cut)), reverse=True)


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
    sheets, waste = packing.sheets, rests(packing)
    packing.tidy(120)
    assert packing.bound <= packing.sheets == len(packing.best) <= sheets
    assert faults(packing.best, items, SHEET) == []
    assert sum(rests(packing)) == sum(waste) - SHEET[0] * SHEET[1] * (sheets - packing.sheets)
    packing.advance(50)
    assert faults(packing.best, items, SHEET) == []


def test_the_search_is_the_same_in_one_go_or_in_many() -> None:
    row = next(one for one in PUBLISHED["instances"] if one["name"] == "Class_10.2bp_80_9")
    items, sheet = [(w, h, copies, True) for w, h, copies in row["items"]], tuple(row["bin"])
    whole, parts, other = (Packing(items, sheet, seed=seed) for seed in (1, 1, 2))
    first = whole.sheets
    whole.advance(20_000)
    for _ in range(80):
        parts.advance(250)
    assert parts.sheets == whole.sheets < first
    assert parts.best == whole.best != other.best


def test_tidied_sheets_have_fewer_and_larger_rests() -> None:
    row = next(one for one in PUBLISHED["instances"] if one["name"] == "Class_10.2bp_80_9")
    packing = Packing([(w, h, copies, True) for w, h, copies in row["items"]], tuple(row["bin"]), seed=1)
    before, sheets = rests(packing), packing.sheets
    packing.tidy(10_000)
    after = rests(packing)
    assert packing.sheets == sheets
    assert len(after) < len(before)
    assert after[0] > before[0]
    assert sum(after) == sum(before)


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


@pytest.mark.parametrize("row", PUBLISHED["instances"], ids=lambda row: row["name"])
def test_published_instances_reach_the_best_known(row: dict[str, Any]) -> None:
    items = [(w, h, copies, True) for w, h, copies in row["items"]]
    sheet = (row["bin"][0], row["bin"][1])
    packing = Packing(items, sheet, seed=1)
    packing.advance(40_000)
    assert faults(packing.best, items, sheet) == []
    assert packing.sheets <= row["best"]


def test_five_hundred_pieces_of_forty_types_lie_at_once() -> None:
    """In hundredths of a millimetre, on A3 less margins of 5 mm: areas of billions."""
    items = [(4000 + 617 * one % 9000, 2500 + 1013 * one % 12000, 12 + one % 2, one % 3 > 0) for one in range(40)]
    sheet = (28700, 41000)
    packing = Packing(items, sheet, seed=1)
    assert sum(item[2] for item in items) == 500
    assert packing.sheets <= 1.15 * packing.bound
    packing.advance(1000)
    assert faults(packing.best, items, sheet) == []
