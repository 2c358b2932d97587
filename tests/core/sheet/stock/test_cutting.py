"""Orders cut from stock: against trying everything, against published instances, and replayed."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.stock.tiny_orders import least_cost, replayed

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.cutting import cut_stock, improve_stock, single_sheets
from wrapwright.core.sheet.stock.values import Bin, StockAnswer

SHEET = (9, 7)
item_of = st.tuples(st.integers(2, 7), st.integers(2, 7), st.integers(1, 4), st.booleans())
order_of = st.lists(item_of, min_size=1, max_size=3)


@cache
def published() -> dict[str, Any]:
    text = (Path(__file__).parent / "data" / "cintra.json").read_text(encoding="utf-8")
    return {one["name"]: one for one in json.loads(text)["instances"]}


def check(answer: StockAnswer, items: list[Item], bins: list[Bin]) -> None:
    """Replay every pattern and add up what comes off, and what it costs."""
    got: Counter[int] = Counter()
    cost = 0.0
    used: Counter[int] = Counter()
    for kind, cut, times in answer.patterns:
        assert times > 0
        cost += times * bins[kind][2]
        used[kind] += times
        for item, copies in replayed(cut, items, bins[kind][:2]).items():
            got[item] += copies * times
    assert cost == pytest.approx(answer.cost)
    assert sum(used.values()) == answer.sheets
    assert all(bin_[3] is None or used[kind] <= bin_[3] for kind, bin_ in enumerate(bins))
    for index, item in enumerate(items):
        assert got[index] == item[2] - answer.missing[index] + answer.spare[index]
    single: Counter[int] = Counter()
    for kind, cut in single_sheets(answer):
        single.update(replayed(cut, items, bins[kind][:2]))
    for index, item in enumerate(items):
        assert single[index] == item[2] - answer.missing[index]
    assert answer.bound <= answer.cost or any(answer.missing)
    assert answer.proven == (not any(answer.missing) and answer.cost == pytest.approx(answer.bound))


@settings(max_examples=20)
@given(order_of)
def test_bound_best_and_found_of_tiny_orders(items: list[Item]) -> None:
    bins: list[Bin] = [(*SHEET, 1, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    best = least_cost(items, bins)
    assert answer.bound <= best <= answer.cost
    assert answer.cost == best  # so small an order is always solved
    assert answer.proven


@settings(max_examples=15)
@given(order_of, st.integers(2, 9), st.integers(2, 9))
def test_two_papers_with_prices(items: list[Item], one: int, other: int) -> None:
    bins: list[Bin] = [(9, 7, one, None), (7, 13, other, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    best = least_cost(items, bins)
    assert answer.bound <= best == answer.cost
    assert answer.proven


@pytest.mark.parametrize("name", ["gcut1d", "gcut7d", "gcut10d"])
def test_published_instances_not_turned(name: str) -> None:
    one = published()[name]
    items: list[Item] = [(width, height, copies, False) for width, height, copies in one["items"]]
    bins: list[Bin] = [(*one["bin"], 1, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    # Any number of stages is allowed here, at most three there: no more sheets can be needed, and the bound is theirs.
    assert answer.sheets == answer.bound == one["best_oriented"]


@pytest.mark.parametrize("name", ["gcut5d", "gcut10d"])
def test_turning_saves_sheets(name: str) -> None:
    one = published()[name]
    items: list[Item] = [(width, height, copies, True) for width, height, copies in one["items"]]
    bins: list[Bin] = [(*one["bin"], 1, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    assert answer.proven
    assert answer.sheets < one["best_oriented"]


def test_workshop_order_in_hundredths_of_a_millimetre() -> None:
    # A3 less its margins, with a gutter of 3 mm: 24 wraps of 236 x 208, 12 coasters of 100, 10 mug wraps 235 x 95.
    items: list[Item] = [(23900, 21100, 24, True), (10300, 10300, 12, True), (23800, 9800, 10, True)]
    bins: list[Bin] = [(29000, 41300, 1, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    assert answer.proven
    assert answer.sheets == 24  # two large wraps fit no sheet together


def test_few_large_dear_sheets_or_many_small_cheap_ones() -> None:
    items: list[Item] = [(100, 100, 8, True)]
    bins: list[Bin] = [(200, 200, 0.35, None), (100, 100, 0.1, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    assert (answer.cost, answer.proven) == (pytest.approx(0.7), True)
    assert {pattern.bin for pattern in answer.patterns} == {0}


def test_sheets_at_hand_are_not_exceeded() -> None:
    items: list[Item] = [(100, 100, 8, True)]
    bins: list[Bin] = [(200, 200, 35, 1), (100, 100, 10, None)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    assert (answer.cost, answer.proven) == (75, True)


def test_what_the_sheets_at_hand_do_not_yield_is_told() -> None:
    items: list[Item] = [(100, 100, 9, True), (150, 60, 2, False)]
    bins: list[Bin] = [(200, 200, 1, 2)]
    answer = cut_stock(items, bins)
    check(answer, items, bins)
    assert sum(answer.missing) > 0
    assert not answer.proven


def test_points_too_many_are_coarsened_and_the_bound_stays_true(monkeypatch: pytest.MonkeyPatch) -> None:
    from wrapwright.core.sheet.stock import search
    from wrapwright.core.sheet.stock.bound import bounded, started

    items: list[Item] = [(2513, 4027, 37, True), (5011, 3391, 23, True), (9107, 10033, 11, True)]
    bins: list[Bin] = [(28900, 41500, 1, None)]
    exact = cut_stock(items, bins)
    monkeypatch.setattr(search, "started", lambda call: started(call, work=60_000))
    monkeypatch.setattr(search, "bounded", lambda pool: bounded(pool, work=60_000))
    coarse = cut_stock(items, bins)
    check(coarse, items, bins)
    assert coarse.bound <= exact.sheets <= coarse.sheets <= exact.sheets + 1
    assert exact.proven


def test_the_same_order_gives_the_same_answer_and_answers_never_get_worse() -> None:
    one = published()["gcut1d"]
    items: list[Item] = [(width, height, copies, True) for width, height, copies in one["items"]]
    bins: list[Bin] = [(*one["bin"], 1, None)]
    steps = list(improve_stock(items, bins))
    assert steps[-1] == cut_stock(items, bins)
    costs = [(answer.cost, len(answer.patterns)) for answer in steps]
    assert costs == sorted(costs, reverse=True)


def test_prices_with_many_decimals_change_nothing_but_the_figures() -> None:
    items: list[Item] = [
        (3402, 1095, 3, False), (3521, 3905, 1, False), (2185, 889, 12, True), (2071, 1512, 12, True),
        (1384, 1515, 1, False),
    ]  # fmt: skip
    found = []
    for prices in ((1.12, 0.53, 0.65), (1.1196896390586373, 0.5286640891237272, 0.6473725934185066)):
        sheets = zip(((13620, 9210), (8243, 5970), (8002, 11247)), prices, (1, 30, None), strict=True)
        answer = cut_stock(items, [(*size, price, at_hand) for size, price, at_hand in sheets])
        assert not any(answer.missing)
        found.append((answer.sheets, round(answer.cost, 1)))
    assert found[0] == found[1]


def test_nothing_ordered_takes_no_sheet() -> None:
    answer = cut_stock([(10, 10, 0, True)], [(100, 100, 1, None)])
    assert (answer.sheets, answer.bound, answer.proven) == (0, 0, True)


@pytest.mark.parametrize(
    ("items", "bins", "words"),
    [
        ([(300, 10, 1, True)], [(200, 200, 1, None)], "Item 1, 300 x 10, fits no sheet turned or not"),
        ([(10, 10, 1, True), (90, 210, 1, False)], [(300, 200, 1, None)], "Item 2, 90 x 210, fits no sheet without"),
        ([(0, 10, 1, True)], [(200, 200, 1, None)], "Item 1 is 0 x 10, 1 times"),
        ([(10, 10, -1, True)], [(200, 200, 1, None)], "Item 1 is 10 x 10, -1 times"),
        ([(10, 10, 10_000_000, True)], [(200, 200, 1, None)], "10000000 times"),
        ([(10, 10, 1, True)], [(200, 0, 1, None)], "Sheet 1 is 200 x 0"),
        ([(10, 10, 1, True)], [(200, 200, 0, None)], "at 0, None at hand"),
        ([(10, 10, 1, True)], [], "no sheet to cut from"),
    ],
)
def test_what_cannot_be_meant_is_refused(items: list[Item], bins: list[Bin], words: str) -> None:
    with pytest.raises(WrapwrightError, match=words):
        cut_stock(items, bins)
