"""Orders cut from a roll."""

from __future__ import annotations

import pytest
from tests.core.sheet.stock.tiny_orders import least_cost, replayed

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.roll import cut_roll, page_lengths


def test_the_shortest_pages_that_hold_the_order() -> None:
    items: list[Item] = [(4, 3, 3, True), (5, 2, 3, True)]
    lengths = page_lengths(items, 9, 12, most=3)
    answer = cut_roll(items, 9, lengths)
    assert answer.proven
    assert answer.cost == least_cost(items, [(9, length, length, None) for length in lengths])
    assert sum(pattern.times * lengths[pattern.bin] for pattern in answer.patterns) == answer.cost
    for kind, cut, _ in answer.patterns:
        replayed(cut, items, (9, lengths[kind]))


def test_lengths_hold_every_item_and_end_on_useful_points() -> None:
    items: list[Item] = [(200, 90, 40, False), (50, 35, 100, True)]
    lengths = page_lengths(items, 610, 1000)
    assert lengths[0] <= 1000
    assert list(lengths) == sorted(lengths, reverse=True)
    assert min(lengths) >= 90
    assert len(lengths) == 5


def test_a_roll_too_narrow_and_lengths_that_cannot_be_are_refused() -> None:
    with pytest.raises(WrapwrightError, match="No page of a roll 30 wide"):
        page_lengths([(40, 50, 1, True)], 30, 1000)
    with pytest.raises(WrapwrightError, match="must be above 0, each once"):
        cut_roll([(4, 3, 1, True)], 9, [5, 5])
