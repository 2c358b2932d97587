"""How few sheets could do: figures that can be worked out by hand, and never more than a layout that exists."""

from __future__ import annotations

import math

import pytest
from tests.core.sheet.nest.shapes import circle, outline, rectangle, sector

from wrapwright.core.sheet.lay.values import LayRequest, Part, Shape, Stock
from wrapwright.core.sheet.nest.bound import least_cost, least_sheets
from wrapwright.core.sheet.nest.kinds import kinds_of

SHEET = Stock("sheet", 220.0, 300.0, (10.0, 10.0, 10.0, 10.0))  # 200 x 280 printable


def bound(*parts: Part, stock: Stock = SHEET, gutter: float = 0.0) -> int:
    request = LayRequest(parts, (stock,), gutter, "free")
    return least_sheets(request, kinds_of(request))


@pytest.mark.parametrize(
    ("shape", "copies", "gutter", "sheets"),
    [
        (rectangle(50.0, 40.0), 28, 0.0, 1),  # 28 x 2000 = 56000, the area
        (rectangle(50.0, 40.0), 29, 0.0, 2),
        (rectangle(50.0, 40.0), 24, 4.0, 1),  # 54 x 44, less its round corners, is 2372.6; 204 x 284 holds 24.4 of it
        (rectangle(50.0, 40.0), 25, 4.0, 2),
        (circle(20.0), 178, 0.0, 1),  # 100 pi each: 178.3 by area
        (circle(20.0), 179, 0.0, 2),
        (rectangle(145.0, 150.0), 5, 0.0, 5),  # no two: 2 x 145 > 280
    ],
)
def test_by_area_and_by_pairs(shape: Shape, copies: int, gutter: float, sheets: int) -> None:
    assert bound(Part(shape, copies), gutter=gutter) == sheets


def test_two_that_never_share_a_sheet_count_one_each() -> None:
    """A sector 223 wide and 107 high goes on a sheet 208 x 271 only upright, and then two are 2 x 107 > 208 wide.

    Turned round they reach into each other by the arc's rise, 9.7 mm with its bulge, less than what is missing.
    """
    letter = Stock("Letter", 215.9, 279.4, (4.0, 4.0, 4.0, 4.0))
    shape = sector(700.0, 800.0, 8.0)
    assert bound(Part(shape, 12), Part(rectangle(20.0, 20.0), 5), stock=letter, gutter=3.0) == 12
    assert bound(Part(sector(700.0, 780.0, 8.0), 12), stock=letter, gutter=3.0) < 12


def test_an_outline_counts_with_half_the_gutter_all_round() -> None:
    """An L of 1575 square mm with 240 mm round it: 60 of them fill two sheets alone, three with 1.5 mm round each."""
    bracket = outline((0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (15.0, 15.0), (15.0, 60.0), (0.0, 60.0))
    assert bound(Part(bracket, 60)) == math.ceil(60 * 1575 / 56000)
    assert bound(Part(bracket, 60), gutter=3.0) == 3


def test_a_roll_is_bound_in_millimetres() -> None:
    roll = Stock("roll", 220.0, None, (10.0, 5.0, 10.0, 5.0))
    assert bound(Part(rectangle(100.0, 50.0), 10), stock=roll) == 260
    assert bound(Part(rectangle(20.0, 270.0), 1, turns=(0,)), stock=roll) == 280


def test_what_fits_nothing_is_not_counted() -> None:
    assert bound(Part(rectangle(500.0, 400.0), 10)) == 0
    assert bound(Part(rectangle(500.0, 400.0), 10), Part(rectangle(50.0, 40.0), 2)) == 1


def test_a_price_is_bound_by_what_area_costs_and_by_the_fewest_sheets() -> None:
    """100 x 140 mm twelve times are 168000 square mm; a sheet holds 56000 for 2, the large one 224000 for 10.

    Area on the sheet costs 2 / 56000 a square mm, on the large one 10 / 224000: 6 at the least. What goes on the large
    one alone pays its price: 210 x 290 is 60900, 2.72 and no less than one sheet at 2. A metre of roll holds 200000.
    """
    large = Stock("large", 420.0, 580.0, (10.0, 10.0, 10.0, 10.0), price=10.0)
    small = Stock("sheet", 220.0, 300.0, (10.0, 10.0, 10.0, 10.0), price=2.0)
    roll = Stock("roll", 220.0, None, (10.0, 5.0, 10.0, 5.0), price=3.0)

    def cost(part: Part, *stocks: Stock) -> float:
        request = LayRequest((part,), stocks, 0.0, "free")
        return least_cost(request, kinds_of(request))

    assert cost(Part(rectangle(100.0, 140.0), 12), large, small) == pytest.approx(6.0)
    assert cost(Part(rectangle(210.0, 290.0), 1), large, small) == pytest.approx(60900 * 10 / 224000)
    assert cost(Part(rectangle(100.0, 140.0), 12), roll) == pytest.approx(168000 / 200000 * 3)
