"""What cannot be meant is refused or asked about in one sentence."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.load.asked import dwell_s, pieces, power_w, set_celsius, wall_mm, watts


def refused(ask) -> str:
    with pytest.raises(WrapwrightError) as problem:
        ask()
    assert problem.value.kind is Kind.UNUSABLE
    return str(problem.value)


@pytest.mark.parametrize(
    ("written", "celsius"), [("195 C", 195.0), ("383 F", 195.0), (200.0, 200.0), ("392 °F", 200.0)]
)
def test_a_temperature(written, celsius):
    assert set_celsius(written) == pytest.approx(celsius)


@pytest.mark.parametrize("written", [383.0, "383 C"])
def test_fahrenheit_as_celsius_is_asked_about(written):
    said = refused(lambda: set_celsius(written, where="--at"))
    assert said.startswith("--at: 383 °C (721 °F) is hotter than any heater")
    assert 'Is 383 °F (195 °C) meant? Then write "383 F".' in said


def test_a_temperature_without_scale_or_far_too_low():
    assert "383 does not say C or F" in refused(lambda: set_celsius("383"))
    assert refused(lambda: set_celsius("40 C")).startswith("40 °C (104 °F) is not within 100 °C (212 °F)")


@pytest.mark.parametrize(("seconds", "said"), [(0.0, "0 s"), (-3.0, "-3 s"), (36000.0, "10 h"), (3660.0, "1.01667 h")])
def test_a_dwell_that_cannot_be(seconds, said):
    assert refused(lambda: dwell_s(seconds)).startswith(f"a dwell of {said} is not within 10 s to 1 h.")


def test_what_can_be_comes_back():
    assert (dwell_s(330.0), pieces(3, capacity=4), wall_mm(0.5), power_w(1500.0)) == (330.0, 3, 0.5, 1500.0)


def test_pieces():
    assert refused(lambda: pieces(0)) == "0 pieces cannot be heated. Give 1 or more."
    assert refused(lambda: pieces(6, capacity=4)).startswith("6 pieces are more than the heater holds (4 pieces).")
    assert "(1 piece)" in refused(lambda: pieces(2, capacity=1))


@pytest.mark.parametrize("thickness", [0.0, -1.0, 40.0, float("nan")])
def test_a_wall(thickness):
    assert "is not within 0.1 mm to 25 mm" in refused(lambda: wall_mm(thickness))


@pytest.mark.parametrize(
    ("written", "expected"), [("1500", 1500.0), ("1500 W", 1500.0), ("1.5 kW", 1500.0), ("1,2 kw", 1200.0)]
)
def test_a_power(written, expected):
    assert watts(written) == pytest.approx(expected)


def test_no_power():
    assert "a power of 0 W is not within 100 W" in refused(lambda: watts("0"))
    assert '"much" is not a power' in refused(lambda: watts("much"))
