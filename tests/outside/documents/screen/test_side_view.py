"""The blank from the side is true to scale: slope, height and girths as the readings have them."""

from __future__ import annotations

import math

import pytest
from tests.outside.documents.screen.drawn import bulging, fitted, mug, straight, tapered

from wrapwright.outside.documents.screen.side_view import OPEN, extent_mm, side_view

ROOM = (10.0, 20.0, 300.0, 400.0)


def test_a_slope_stands_as_high_as_its_axis() -> None:
    # Diameters 5 and 8, axial height 4, slant 4.272002: ceemrr.com, Geometry2/DrawingsNets6, in inches here.
    inch = 25.4
    cup = tapered(5 * math.pi * inch, 8 * math.pi * inch, wall_mm=4.272002 * inch)
    blank, wrapped, _ = fitted(cup)
    view = side_view(blank, wrapped, ROOM)
    assert view.rises[-1] == pytest.approx(4 * inch, abs=1e-4)
    assert view.radii == pytest.approx((2.5 * inch, 4 * inch))
    left, right = view.side(view.positions[-1], -1), view.side(view.positions[-1], 1)
    assert right[0] - left[0] == pytest.approx(view.scale * 8 * inch)
    assert view.level(view.positions[0]) - view.level(view.positions[-1]) == pytest.approx(
        view.scale * 4 * inch, abs=1e-3
    )


@pytest.mark.parametrize(
    "blank", [straight(), mug(), tapered(225, 281, wall_mm=158), bulging((0, 226), (40, 231), (90, 229))]
)
def test_it_fills_its_room_and_stays_in_it(blank) -> None:
    blank, wrapped, _ = fitted(blank)
    view = side_view(blank, wrapped, ROOM)
    wide, tall = extent_mm(blank, wrapped)
    left, top, width, height = ROOM
    assert max(wide * view.scale / width, tall * view.scale / height) == pytest.approx(1.0)
    for at in view.positions:
        for front in (True, False):
            for x, y in view.ring(at, front=front):
                assert left - 1e-6 <= x <= left + width + 1e-6
                assert top - 1e-6 <= y <= top + height + 1e-6


def test_places_round_the_blank() -> None:
    blank, wrapped, _ = fitted(straight())
    view = side_view(blank, wrapped, ROOM)
    middle = view.place(0.0, 80.0)
    assert middle is not None
    assert middle[0] == pytest.approx(view.middle)
    assert middle[1] == pytest.approx(view.level(80.0) + OPEN * view.radius(80.0))
    assert view.place(180.0, 80.0) is None
    right = view.place(90.0 - 1e-9, 80.0)
    assert right is not None
    assert right == pytest.approx(view.side(80.0, 1.0), abs=1e-3)


def test_a_handle_points_to_the_right() -> None:
    blank, wrapped, _ = fitted(mug())
    view = side_view(blank, wrapped, ROOM)
    assert view.eye_deg == 90.0  # seen from the right, the back is to the right
    beside = view.place(179.999, 40.0)
    assert beside is not None
    assert beside[0] > view.middle + 0.99 * view.radius(40.0)
