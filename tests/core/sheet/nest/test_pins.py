"""Pins that cannot stay are told in a sentence with its figure; those that can choose the paper they lie on."""

from __future__ import annotations

import pytest
from tests.core.sheet.nest.shapes import circle, rectangle

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.lay.values import LayRequest, Part, Pin, Stock
from wrapwright.core.sheet.nest.pins import pinned_sheets

SMALL = Stock("small", 100.0, 150.0, (5.0, 5.0, 5.0, 5.0))
LARGE = Stock("large", 200.0, 300.0, (5.0, 5.0, 5.0, 5.0))
TAG, COASTER = Part(rectangle(60.0, 30.0), 3, turns=(0, 90), name="tag"), Part(circle(50.0), 2)


def asked(*pins: Pin) -> LayRequest:
    return LayRequest((TAG, COASTER), (SMALL, LARGE), 3.0, "free", pins)


def test_the_first_paper_that_holds_all_pins_of_a_sheet_is_taken() -> None:
    found = pinned_sheets(asked(Pin(0, 0, 0, 10.0, 10.0, 0), Pin(0, 1, 2, 120.0, 10.0, 90), Pin(1, 0, 2, 5.0, 5.0, 0)))
    assert {at: one.stock for at, one in found.items()} == {0: 0, 2: 1}
    assert [pin.part for pin in found[2].pins] == [0, 1]


@pytest.mark.parametrize(
    ("pins", "said"),
    [
        ((Pin(2, 0, 0, 0.0, 0.0, 0),), "a piece that is not there"),
        ((Pin(0, 3, 0, 0.0, 0.0, 0),), "a piece that is not there"),
        ((Pin(0, 0, -1, 0.0, 0.0, 0),), "a piece that is not there"),
        ((Pin(0, 2, 0, 9.0, 9.0, 180),), "tag, copy 3 is pinned at a turn of 180 degrees; allowed are 0, 90"),
        ((Pin(0, 0, 0, 139.0, 10.0, 0),), "tag, copy 1 lies 4.00 mm beyond what can be printed on large"),
        (
            (Pin(0, 0, 1, 10.0, 10.0, 0), Pin(1, 1, 1, 71.5, 5.0, 0)),
            "1.50 mm apart where 3 mm are needed on sheet 2: tag, copy 1 and part 2, copy 2",
        ),
        ((Pin(1, 0, 0, 10.0, 10.0, 0), Pin(1, 1, 0, 20.0, 20.0, 0)), "two pinned pieces are 0.00 mm apart"),
    ],
)
def test_a_pin_that_cannot_stay_is_told(pins: tuple[Pin, ...], said: str) -> None:
    with pytest.raises(WrapwrightError, match=said.replace("(", r"\(")):
        pinned_sheets(asked(*pins))


def test_circles_at_a_slant_are_judged_by_their_arcs() -> None:
    """Boxes overlap, arcs are sqrt(2) 40 - 50 = 6.57 mm apart."""
    assert pinned_sheets(asked(Pin(1, 0, 0, 5.0, 5.0, 0), Pin(1, 1, 0, 45.0, 45.0, 0)))[0].stock == 0
