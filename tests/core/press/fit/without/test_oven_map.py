"""A map: between its points a straight line, beyond them the nearest and a sentence."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.fit.without.oven_map import (
    Point,
    checked,
    chief_set_c,
    map_found,
    map_words,
    offset_at,
    places_of,
    whole_oven,
)

POINTS = (
    Point(180.0, "Top left", 6.0, 3.0),
    Point(200.0, "Top left", 8.0, 4.0),
    Point(200.0, "bottom", -4.0, 3.0),
)


def test_measured_between_and_beyond() -> None:
    there = offset_at(POINTS, 200.0, "top LEFT")
    assert (there.offset_k, there.half_k, there.how) == (8.0, 4.0, "measured")
    between = offset_at(POINTS, 195.0, "Top left")
    assert (between.offset_k, between.half_k, between.how) == (pytest.approx(7.5), 4.0, "between")
    beyond = offset_at(POINTS, 210.0, "Top left")
    assert (beyond.offset_k, beyond.half_k, beyond.how) == (8.0, 15.0, "beyond")
    assert "210 °C (410 °F) lies above 200 °C (392 °F), the highest that was measured" in beyond.words
    assert "lies below 200 °C (392 °F)" in offset_at(POINTS, 190.0, "bottom").words


def test_a_place_that_was_not_measured_is_the_middle_of_the_others() -> None:
    other = offset_at(POINTS, 200.0, "middle")
    assert (other.offset_k, other.half_k, other.how) == (2.0, 10.0, "another place")
    assert '"middle" was not measured' in other.words


def test_the_oven_as_one() -> None:
    assert chief_set_c(POINTS) == 200.0
    assert places_of(POINTS) == ("Top left", "bottom")
    whole = whole_oven(POINTS, 200.0)
    assert (whole.offset_k, whole.half_k, whole.how) == (2.0, 10.0, "measured")
    assert "Not measured" in whole_oven(POINTS, 190.0).words
    assert (map_found(POINTS).offset_k, map_found(POINTS).offset_half_k) == (2.0, 10.0)
    assert map_words(POINTS) == ("At 200 °C (392 °F) set, Top left is 12 °C (21.6 °F) warmer than bottom.",)
    assert "One set point" in map_words(POINTS[1:])[1]


def test_points_are_put_in_order_and_checked() -> None:
    assert checked(POINTS[::-1]) == (POINTS[2], POINTS[0], POINTS[1])
    for points, words in (
        ((), "no points"),
        ((POINTS[0], Point(180.0, "TOP LEFT", 1.0, 1.0)), "in the map twice"),
        ((Point(180.0, " ", 1.0, 1.0),), "needs a name"),
        ((Point(200.0, "bottom", 183.0, 1.0),), "that cannot be"),
        (tuple(Point(200.0, f"{number}", 1.0, 1.0) for number in range(201)), "201 points"),
    ):
        with pytest.raises(WrapwrightError, match=words):
            checked(points)
