"""The strip's parts: nothing of the two ends lies over the other, anywhere in the range that it reads."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.gauge.strip import HALF_MM, REACHES_MM, WIDTH_MM, Piece, Strip, strip_for

shapely = pytest.importorskip("shapely")


def area_of(piece: Piece, shift: float = 0.0) -> object:
    return shapely.Polygon([(x + shift, v) for x, v in piece.outline])


@pytest.mark.parametrize("reach", REACHES_MM)
@pytest.mark.parametrize("flat", [64.0, 149.3, 235.7, 320.0])
def test_one_layer_all_over_its_range(flat: float, reach: float) -> None:
    """Wound once round at any length in the range, the strip never covers itself, and its inner edges touch."""
    strip = strip_for(flat, reach_mm=reach)
    (piece,) = strip.pieces
    assert (strip.low_mm, strip.high_mm) == (math.floor(flat - reach), math.ceil(flat + reach))
    for once in np.linspace(strip.low_mm, strip.high_mm, 9):
        came_round = area_of(piece, shift=-once)
        assert came_round.intersection(area_of(piece)).area < 1e-6  # type: ignore[attr-defined]
        touching = came_round.boundary.intersection(area_of(piece).boundary)  # type: ignore[attr-defined]
        assert touching.length > 19.0  # at least as long as the vernier


def test_every_mark_that_can_be_read_is_there() -> None:
    strip = strip_for(235.7, reach_mm=8.0)
    scale = [one.x_mm for one in strip.pieces[0].ticks if one.part == "scale"]
    vernier = [one.x_mm for one in strip.pieces[0].ticks if one.part == "vernier"]
    assert vernier == pytest.approx([1.9 * line for line in range(11)])
    assert scale == [float(at) for at in range(strip.low_mm, strip.high_mm + 20)]
    labels = {one.label: one.x_mm for one in strip.pieces[0].ticks if one.label and one.part == "scale"}
    assert all(float(label) == x for label, x in labels.items())
    assert {"230", "235", "240"} <= labels.keys()


def test_two_pieces_make_the_same_strip() -> None:
    whole, parts = (strip_for(310.0, reach_mm=8.0, pieces=count) for count in (1, 2))
    tail, head = parts.pieces
    joined = area_of(tail).union(area_of(head))  # type: ignore[attr-defined]
    assert area_of(tail).intersection(area_of(head)).area < 1e-6  # type: ignore[attr-defined]
    gaps = area_of(whole.pieces[0]).difference(joined)  # type: ignore[attr-defined]
    assert gaps.area == pytest.approx(2 * 1.0 * HALF_MM, abs=1e-6)  # the play at the tips of the join
    joins = [[one.x_mm for one in piece.ticks if one.part == "join"] for piece in (tail, head)]
    assert joins[0] == joins[1]
    assert len(joins[0]) == 21


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_an_arc_lies_as_the_wrap_does(sign: float) -> None:
    """The flat wrap's own map is the witness: the middle line is its arc, the marks stand along its wall."""
    cone = FlatWrap(226.0, 226.0 + sign * 40.0, 158.0)
    at = 60.0
    strip = strip_for(cone.turn_length(at), reach_mm=8.0, radius_mm=cone.turn_length(at) / cone.theta, at_mm=at)
    middle = cone.turn_length(at) / 2.0
    for share in np.linspace(0.0, 1.0, 5):
        for v in (0.0, HALF_MM, WIDTH_MM):
            x, y = cone.to_flat(np.asarray(360.0 * share), np.asarray(at + v - HALF_MM))
            along, up = strip.bent(share * cone.turn_length(at), v, middle)
            assert (along, up - HALF_MM) == pytest.approx((float(x), float(y) - at), abs=1e-9)


def test_a_huge_radius_is_as_good_as_straight() -> None:
    straight = Strip((), 1, 2)
    bent = Strip((), 1, 2, radius_mm=1e12)
    assert bent.bent(200.0, 3.0, 100.0) == pytest.approx(straight.bent(200.0, 3.0, 100.0), abs=1e-6)
