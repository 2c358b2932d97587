"""Both temperatures side by side; a difference is converted as a difference."""

from __future__ import annotations

import pytest

from wrapwright.core.base.heat_words import (
    celsius_range_words,
    celsius_words,
    seconds_range_words,
    seconds_words,
    shift_words,
    step_words,
)


def test_a_temperature_and_a_difference() -> None:
    # NIST SP 811 (2008), B.8: 32 belongs to a temperature, never to an interval, where 1 C is 1.8 F.
    assert celsius_words(195) == "195 °C (383 °F)"
    assert celsius_words(-0.01) == "0 °C (32 °F)"
    assert step_words(15) == "15 °C (27 °F)"
    assert step_words(5) == "5 °C (9 °F)"


def test_ranges_of_temperatures() -> None:
    assert celsius_range_words((190, 205)) == "190–205 °C (374–401 °F)"
    assert celsius_range_words((195, 195)) == "195 °C (383 °F)"
    assert celsius_range_words((195, 195.04)) == "195 °C (383 °F)"


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(0, "0 s"), (45, "45 s"), (60, "1 min"), (270, "4 min 30 s"), (3600, "1 h"), (3900, "1 h 5 min")],
)
def test_times(seconds: float, words: str) -> None:
    assert seconds_words(seconds) == words


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        ((240, 420), "4–7 min"),
        ((150, 240), "150–240 s"),
        ((300, 300), "5 min"),
        ((290, 410), "4 min 50 s to 6 min 50 s"),
        ((0, 60), "0 s–1 min"),
    ],
)
def test_ranges_of_times(seconds: tuple[float, float], words: str) -> None:
    assert seconds_range_words(seconds) == words


def test_a_difference_with_its_sign_has_no_32_in_it() -> None:
    said = [shift_words(one) for one in (10.0, -1.5, 0.0, -0.04)]
    assert said == ["+10 °C (+18 °F)", "-1.5 °C (-2.7 °F)", "+0 °C (+0 °F)", "+0 °C (-0.1 °F)"]
