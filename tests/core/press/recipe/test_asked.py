"""What is typed of temperatures, times and powers: read, or asked about."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.recipe.asked import (
    celsius_of,
    celsius_range_of,
    seconds_of,
    seconds_range_of,
    watts_of,
)

# NIST SP 811 (2008), appendix B.8: t/C = (t/F - 32)/1.8, T/K = t/C + 273.15.
READ = [("195 C", 195.0), ("383 F", 195.0), ("468.15 K", 195.0), ("374 °F", 190.0), (195, 195.0), ("-40 C", -40.0)]


@pytest.mark.parametrize(("typed", "celsius"), READ)
def test_a_temperature_that_says_its_scale(typed: str | float, celsius: float) -> None:
    assert celsius_of(typed) == pytest.approx(celsius, abs=1e-9)


def _asked(read: object, typed: object) -> WrapwrightError:
    with pytest.raises(WrapwrightError) as found:
        read(typed, where="here")  # type: ignore[operator]
    assert (found.value.kind, found.value.where) == (Kind.UNUSABLE, "here")
    return found.value


@pytest.mark.parametrize("typed", ["195", "195 °", " 383"])
def test_a_scale_that_is_missing_is_asked_for_with_both_readings(typed: str) -> None:
    said = _asked(celsius_of, typed)
    number = typed.strip(" °")
    assert "does not say C or F" in said.message
    assert said.remedy == f'Write "{number} C" or "{number} F".'


@pytest.mark.parametrize("typed", ["383 C", "383 °C", 383])
def test_fahrenheit_typed_as_celsius_is_asked_about_and_never_taken(typed: str | float) -> None:
    said = _asked(celsius_of, typed)
    assert "383 °C (721 °F)" in said.message
    assert said.remedy == 'Is 383 °F (195 °C) meant? Then write "383 F".'


def test_celsius_typed_as_fahrenheit_is_asked_about_too() -> None:
    said = _asked(celsius_of, "195 F")
    assert "91 °C" in said.message
    assert 'write "195 C"' in said.remedy


@pytest.mark.parametrize(
    "typed", ["900 C", "1200 F", "hot", "", "195 R", "-300 C", True, float("inf"), float("nan"), 10**400]
)
def test_what_is_no_temperature_of_the_trade(typed: object) -> None:
    assert _asked(celsius_of, typed).message


TIMES = [("7 min", 420), ("420 s", 420), ("7:30", 450), ("4 min 30 s", 270), ("1 h", 3600), ("90 secs", 90), (60, 60)]


@pytest.mark.parametrize(("typed", "seconds"), [*TIMES, ("1,5 min", 90), ("10 hours", 36000), ("0 s", 0)])
def test_a_time(typed: str | float, seconds: float) -> None:
    assert seconds_of(typed) == seconds


def test_a_unit_of_time_that_is_missing_is_asked_for() -> None:
    assert _asked(seconds_of, "7").remedy == 'Write "7 min" or "7 s".'


@pytest.mark.parametrize("typed", ["-3 min", -3, "soon", "7 min or so", "1:75", "s", "9" * 90, float("nan"), 10**400])
def test_what_is_no_time(typed: object) -> None:
    assert _asked(seconds_of, typed).message


@pytest.mark.parametrize("typed", ["190-205 C", "190–205 °C", "190 C to 205 C", "374-401 F", "374 to 401 F"])
def test_a_range_of_temperatures(typed: str) -> None:
    assert celsius_range_of(typed) == pytest.approx((190.0, 205.0), abs=1e-9)


def test_one_figure_is_a_range_of_its_own() -> None:
    assert celsius_range_of("195 C") == (195.0, 195.0)
    assert seconds_range_of("5 min") == (300.0, 300.0)
    assert _asked(celsius_range_of, "190-205").remedy == 'Write "190 C" or "190 F".'


@pytest.mark.parametrize("typed", ["4-7 min", "4:00-7:00", "240 s to 7 min", "4 min – 7 min"])
def test_a_range_of_times(typed: str) -> None:
    assert seconds_range_of(typed) == (240.0, 420.0)


def test_powers() -> None:
    assert [watts_of(one) for one in ("1500 W", "1.5 kW", "1,5kw", "1500", 1500)] == [1500.0] * 5
    assert watts_of("-5 W") == -5.0  # whether it can be is for the heater to say
    assert "is not a power" in _asked(watts_of, "1500 V").message
