"""What small changes do, against scipy's quadrature over the closed form of the heat-up."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scipy.integrate import quad
from tests.core.press.load.usual import ideal_oven, load, small_oven

from wrapwright.core.press.load.sensitivity import sensitivity
from wrapwright.core.press.load.words import sensitivity_words


def minutes(seconds: float, set_c: float) -> float:
    steep = 120_000.0 / 8.314462618

    def fast(at: float) -> float:
        celsius = set_c - (set_c - 25.0) * math.exp(-at / 80.0)
        return math.exp(steep * (1.0 / 468.15 - 1.0 / (celsius + 273.15)))

    return float(quad(fast, 0.0, seconds)[0]) / 60.0


def test_degrees_and_minutes_as_the_integral_says():
    found = {one.change: one for one in sensitivity(ideal_oven(), load(pieces=2), 600.0)}
    assert set(found) == {"hotter", "cooler", "more", "fewer", "door", "longer", "shorter"}
    dose = minutes(600.0, 200.0)
    for change, expected in (
        ("hotter", minutes(600.0, 205.0)),
        ("cooler", minutes(600.0, 195.0)),
        ("longer", minutes(660.0, 200.0)),
        ("shorter", minutes(540.0, 200.0)),
    ):
        assert found[change].dose == pytest.approx(expected, rel=1e-3), change
        assert found[change].share == pytest.approx(expected / dose, rel=1e-3), change
    assert minutes(found["hotter"].dwell_s, 205.0) == pytest.approx(dose, rel=3e-3)
    assert minutes(found["cooler"].dwell_s, 195.0) == pytest.approx(dose, rel=3e-3)


def test_an_oven_that_nothing_cools_minds_neither_pieces_nor_door():
    found = {one.change: one for one in sensitivity(ideal_oven(), load(pieces=2), 600.0)}
    for change in ("more", "fewer", "door"):
        assert found[change].share == pytest.approx(1.0, abs=1e-4)
        assert found[change].dwell_s == pytest.approx(600.0, abs=0.5)


def test_a_small_oven_minds_them():
    found = {one.change: one for one in sensitivity(small_oven(), load(pieces=3), 420.0)}
    assert found["more"].share < 1.0 < found["fewer"].share
    assert found["door"].share < 0.95
    assert found["door"].dwell_s > 420.0 > found["fewer"].dwell_s


def test_a_press_has_neither_pieces_nor_door_and_a_short_dwell_no_minute_to_spare():
    found = {one.change for one in sensitivity(replace(ideal_oven(), kind="mug-press"), load(), 55.0)}
    assert found == {"hotter", "cooler", "longer"}


def test_in_words():
    said = sensitivity_words(sensitivity(ideal_oven(), load(), 600.0))
    assert said[0].startswith("5 °C (9 °F) hotter: ")
    assert "% more dose; the same dose after " in said[0]
    assert any(one.startswith("Door left open for 20 s: hardly any change") for one in said)
    assert any(one.startswith("1 piece more: ") for one in said)
