"""Places of pieces: each piece has one, and cut piles lie in the list's order."""

from __future__ import annotations

import random
from itertools import chain

import pytest

from wrapwright.core.names.making.places import Order, Places

DRAWN = random.Random(20260502)
CASES = [
    Places(DRAWN.randint(1, 300), DRAWN.randint(1, 12), order, DRAWN.randint(1, 9))
    for order in ("rows", "piles")
    for _ in range(120)
] + [Places(1, 1, "piles", 8), Places(11, 10, "piles", 2), Places(29, 4, "piles", 8)]


@pytest.mark.parametrize("places", CASES, ids=repr)
def test_each_piece_lies_on_one_place_of_the_fewest_sheets(places: Places) -> None:
    sheets = [places.on(sheet) for sheet in range(places.sheets)]
    assert sorted(chain.from_iterable(sheets)) == list(range(places.pieces))
    assert all(0 < len(sheet) <= places.a_sheet for sheet in sheets)
    assert (places.sheets - 1) * places.a_sheet < places.pieces


@pytest.mark.parametrize("places", [one for one in CASES if one.order == "piles"], ids=repr)
def test_piles_come_from_the_cutter_in_the_lists_order(places: Places) -> None:
    found = list(places.cut_order())
    assert [piece for piece, _ in found] == list(range(places.pieces))
    assert all(piece in places.on(sheet) for piece, sheet in found)


@pytest.mark.parametrize("places", CASES, ids=repr)
def test_kinds_of_sheets_hold_all_sheets_once(places: Places) -> None:
    kinds = places.alike()
    assert [count for count, _ in kinds] == sorted({count for count, _ in kinds}, reverse=True)
    found = {sheet: count for count, runs in kinds for run in runs for sheet in run}
    assert found == {sheet: len(places.on(sheet)) for sheet in range(places.sheets)}
    assert sum(len(run) for _, runs in kinds for run in runs) == places.sheets


@pytest.mark.parametrize("order", ["rows", "piles"])
def test_one_sheet_at_a_time_is_the_same_in_both_orders(order: Order) -> None:
    places = Places(23, 5, order, 1)
    assert [places.on(sheet) for sheet in range(5)] == [
        list(range(first, min(first + 5, 23))) for first in range(0, 23, 5)
    ]
