"""Places said in words."""

from __future__ import annotations

import pytest

from wrapwright.jobs.live.views.words import place_in_design, side_words, spoken_place, spoken_round


@pytest.mark.parametrize(
    ("at", "words"),
    [(0.0, "front"), (359.7, "front"), (90.2, "right"), (180.0, "back"), (270.0, "left"), (112.4, "112 degrees")],
)
def test_a_side_is_said_by_its_name_when_it_is_one(at: float, words: str) -> None:
    assert side_words(at) == words


def test_a_place_is_said_in_full() -> None:
    assert spoken_place("crest", 0.0, 46.2) == "Crest, front, 46 millimetres up"
    assert spoken_place("name", 112.0, 1.1) == "Name, 112 degrees, 1 millimetre up"
    assert spoken_place("name", 180.0, -3.0) == "Name, back, 3 millimetres below the band"
    assert spoken_round("waves") == "Waves, all round"


def test_a_place_in_a_design_is_called_as_on_the_screen() -> None:
    assert place_in_design("element 2 (crest): width") == "Crest, width"
    assert place_in_design("element 1 (Text): text") == "Text, words"
    assert place_in_design("sheet: thickness") == "Set-up, thickness"
    assert place_in_design("wrap: band") == "Wrap, band"
    assert place_in_design("") == ""
