"""Readings of a thermometer: the t-interval against a published one, what is added, what is refused."""

from __future__ import annotations

import math

import pytest
from scipy.stats import t

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.fit.without.readings import Readings, mean_half, offset_of


def test_the_interval_of_a_mean_as_published() -> None:
    # NIST/SEMATECH e-Handbook 1.3.5.2, ZARR13.DAT: n 195, mean 9.261460, s 0.022789; 95 % from 9.258242 to 9.264679.
    half = mean_half(0.022789, 195)
    assert (9.261460 - half, 9.261460 + half) == (pytest.approx(9.258242, abs=2e-6), pytest.approx(9.264679, abs=2e-6))


def test_three_readings() -> None:
    found = offset_of(Readings(200.0, (190.0, 195.0, 190.0), 5.0, 3.0))
    spread = math.sqrt(25.0 / 3.0)  # of 190, 195, 190
    low, high = t.interval(0.95, 2, loc=0.0, scale=spread / math.sqrt(3.0))
    assert found.offset_k == pytest.approx(-25.0 / 3.0)
    assert found.spread_k == pytest.approx((high - low) / 2.0)
    assert found.step_k == pytest.approx(1.96 * 5.0 / math.sqrt(12.0))  # JCGM 100:2008, 4.3.7
    assert found.half_k == pytest.approx(math.sqrt(found.spread_k**2 + found.step_k**2 + 9.0))
    assert (found.found().offset_k, found.found().offset_half_k) == (found.offset_k, found.half_k)
    assert "4.30" in found.words[1]


def test_two_readings_say_what_a_third_would_bring() -> None:
    told = offset_of(Readings(200.0, (194.9, 195.1), 0.1, 1.0)).words
    assert any("from 12.7 to 4.3" in one for one in told)
    assert any(
        "no better than the 15 °C (27 °F)" in one for one in offset_of(Readings(200.0, (180.0, 200.0), 5.0)).words
    )
    assert any("hides their spread" in one for one in offset_of(Readings(200.0, (195.0,) * 3, 5.0)).words)


@pytest.mark.parametrize(
    ("readings", "words", "where"),
    [
        (Readings(200.0, (195.0,), 5.0), "1 reading cannot say", "readings"),
        (Readings(200.0, (383.0, 383.0), 5.0), "383 °C .* is no temperature", "readings"),
        (Readings(392.0, (195.0, 195.0), 5.0), "392 °C .* is no temperature", "set"),
        (Readings(200.0, (195.0, 100.0), 5.0), "100 °C .180 °F. from the 200 °C", "readings"),
        (Readings(200.0, (195.0, 196.0), 0.0), "step of reading of 0 °C", "step"),
        (Readings(200.0, (195.0, 196.0), 1.0, -1.0), "error of the thermometer", "class"),
    ],
)
def test_what_cannot_be_is_refused(readings: Readings, words: str, where: str) -> None:
    with pytest.raises(WrapwrightError, match=words) as caught:
        offset_of(readings)
    assert caught.value.where == where
    assert caught.value.remedy
