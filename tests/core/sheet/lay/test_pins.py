"""What is pinned stays where it was put, and the rest is laid round it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.core.sheet.lay.sound import A4, asked, check, rectangle

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.lay.lay import start
from wrapwright.core.sheet.lay.values import Laid, Layout, LayRequest, Part, Pin, Shape, Stock

PLAIN = {"clear_mm": (1.5, 1.5, 1.5, 1.5), "bleed_mm": (0.0, 0.0, 0.0, 0.0)}


def laid(request: LayRequest) -> Layout:
    laying = start(request)
    laying.advance(4000)
    return check(laying.layout)


def test_a_pinned_copy_stays_to_the_micrometre_and_the_rest_goes_round_it():
    part = rectangle(60.0, 80.0, 9, **PLAIN)
    request = asked(part, pins=(Pin(0, 3, 0, 71.2345, 100.4321, 90),))
    layout = laid(request)
    assert Laid(0, 3, 71.2345, 100.4321, 90) in layout.sheets[0].pieces
    assert len(layout.sheets[0].pieces) > 3
    assert layout.sheets[0].cell is not None
    assert not layout.proven


def test_a_pin_on_the_second_sheet():
    layout = laid(asked(rectangle(60.0, 80.0, 12, **PLAIN), pins=(Pin(0, 0, 1, 50.0, 50.0, 0),)))
    assert Laid(0, 0, 50.0, 50.0, 0) in layout.sheets[1].pieces


def test_pins_that_no_cut_parts_are_said_to_be_for_scissors():
    """Four pieces round a hole, like a pinwheel, are the plainest that no cut from edge to edge parts."""
    wide, high = 100.0, 50.0
    spots = [(10.0, 10.0, 0), (115.0, 10.0, 90), (65.0, 115.0, 0), (10.0, 65.0, 90)]
    pins = tuple(Pin(0, copy, 0, x, y, turn) for copy, (x, y, turn) in enumerate(spots))
    layout = laid(asked(rectangle(wide, high, 5, **PLAIN), pins=pins))
    assert layout.sheets[0].cell is None
    assert len(layout.sheets[0].pieces) == 4
    assert any("cannot be parted by cuts from edge to edge" in note for note in layout.notes)
    assert len(layout.sheets) == 2


def test_sheets_with_pins_are_taken_from_those_at_hand():
    """Six pieces of 195 x 138 need three sheets, two pinned ones two of them; there are two, and Letter."""
    letter = Stock("Letter", 215.9, 279.4, (4.0,) * 4)
    pins = (Pin(0, 0, 0, 7.0, 10.0, 0), Pin(0, 1, 1, 7.0, 10.0, 0))
    request = asked(rectangle(195.0, 138.0, 6, **PLAIN), stocks=(replace(A4, at_hand=2), letter), pins=pins)
    layout = laid(request)
    assert [one.stock for one in layout.sheets].count(0) == 2
    assert sum(len(one.pieces) for one in layout.sheets) == 6
    with pytest.raises(WrapwrightError, match="too few for what is pinned on sheet 2"):
        start(asked(rectangle(195.0, 138.0, 6, **PLAIN), stocks=(replace(A4, at_hand=1),), pins=pins))


@pytest.mark.parametrize(
    ("pins", "said"),
    [
        ((Pin(0, 0, 0, 20.0, 20.0, 0), Pin(0, 1, 0, 60.0, 60.0, 0)), "two pinned pieces overlap on sheet 1"),
        ((Pin(0, 0, 0, 180.0, 20.0, 0),), "reaches beyond what can be printed"),
        ((Pin(0, 7, 0, 20.0, 20.0, 0),), "not there"),
        ((Pin(0, 0, 0, 20.0, 20.0, 45),), "turn of 45 degrees"),
        ((Pin(0, 0, 9999, 20.0, 20.0, 0),), "pinned on sheet 10000, and there are 3 pieces in all"),
    ],
)
def test_pins_that_cannot_stay_are_refused(pins: tuple[Pin, ...], said: str):
    with pytest.raises(WrapwrightError, match=said) as caught:
        start(asked(rectangle(60.0, 80.0, 3, **PLAIN), pins=pins))
    assert caught.value.kind is Kind.UNUSABLE


@pytest.mark.parametrize("step", [0.01, 25.4 / 300])
def test_the_free_way_keeps_pins_where_it_laid_them_itself(step: float):
    """Moved to a sheet's pixels, pieces stand as near to each other and to the margins as was asked, not farther."""
    ring = ((0.0, 0.0), (60.0, 0.0), (30.0, 50.0))
    triangle = Part(Shape("outline", 60.0, 50.0, ring=ring), 12, clear_mm=(2.5,) * 4, bleed_mm=(1.0,) * 4)
    request = asked(triangle, rectangle(70.0, 40.0, 6, **PLAIN), way="free", step_mm=(step, step))
    (sheet,) = laid_to_the_end(request).sheets
    pins = tuple(Pin(one.part, one.copy, 0, one.x_mm, one.y_mm, one.turn_deg) for one in sheet.pieces[::2])
    again = laid_to_the_end(replace(request, pins=pins))
    assert sum(len(one.pieces) for one in again.sheets) == 18
    at = {(one.part, one.copy): one for one in again.sheets[0].pieces}
    for pin in pins:
        assert at[pin.part, pin.copy] == Laid(pin.part, pin.copy, pin.x_mm, pin.y_mm, pin.turn_deg)


def laid_to_the_end(request: LayRequest) -> Layout:
    laying = start(request)
    while not laying.advance(2000):
        pass
    return laying.layout
