"""Angles round a blank as people name them."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.places import angle_deg, at_place_words, place_words, whole_turn


@pytest.mark.parametrize(
    ("written", "degrees"),
    [
        ("front", 0.0),
        ("Right", 90.0),
        ("BACK", 180.0),
        (" left ", 270.0),
        ("112 deg", 112.0),
        ("112°", 112.0),
        ("112,5 degrees", 112.5),
        ("112", 112.0),
        (112, 112.0),
        (-90, 270.0),
        ("360 deg", 0.0),
    ],
)
def test_a_place_is_read_as_degrees(written: str | float, degrees: float) -> None:
    assert angle_deg(written) == degrees


@pytest.mark.parametrize("written", ["top", "", "1e2", "400 deg", -361, True, float("nan"), "ninety"])
def test_what_is_no_place_is_refused(written: str | float) -> None:
    with pytest.raises(WrapwrightError) as problem:
        angle_deg(written, where="element.at")
    assert problem.value.where == "element.at"
    assert "0 to 360" in str(problem.value) or "front, right, back, left" in str(problem.value)


def test_angles_are_said_as_words_where_there_is_one() -> None:
    assert place_words(270.0) == place_words(-90.0) == "left"
    assert place_words(112.5) == "112.5 deg"
    assert (at_place_words(180.0), at_place_words(112.5)) == ("at the back", "at 112.5 deg")
    assert whole_turn(-1e-17) == 0.0
