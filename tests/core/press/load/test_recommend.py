"""The recommended dwell against closed forms, and what must hold of it whatever the figures."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from tests.core.press.load.usual import CERAMIC, LEADS, STEEL, exact, ideal_oven, load, small_oven

from wrapwright.core.press.dose.band import dose_band
from wrapwright.core.press.load.recommend import recommend
from wrapwright.core.press.load.values import LONGEST_S, Aim
from wrapwright.core.press.values import Curve, Heater, Load, Wall

# Arrhenius with Ea 120 kJ/mol, reference 195 C; lumped wall from 25 C in an oven at 200 C. Seconds at the reference
# after so many seconds, by scipy's quad over the closed form of the heat-up.
KNOWN = [
    (STEEL, 0.5, 300, 107.207),
    (STEEL, 0.5, 600, 495.765),
    (STEEL, 0.5, 900, 910.627),
    (CERAMIC, 4.0, 900, 177.477),
]


@pytest.mark.parametrize(("material", "thickness", "dwell", "seconds"), KNOWN)
def test_the_dwell_to_a_known_dose(material, thickness, dwell, seconds):
    wanted = seconds / 60.0
    (row,) = recommend(ideal_oven(), load(material, thickness), Aim(wanted / 2, wanted, wanted * 1.2), 1)
    assert row.dwell_s.mid == pytest.approx(dwell, rel=2e-3)
    assert row.dose.mid == pytest.approx(wanted, rel=2e-3)
    assert row.range_s[0] < row.dwell_s.mid < row.range_s[1]


def test_the_coating_is_at_temperature_when_the_closed_form_says_so():
    # 25 -> 195 in 200: tau ln(175 / 5) = 3.55535 tau, tau 80 s.
    (row,) = recommend(ideal_oven(), load(), Aim(1.0, 5.0, 6.0), 1)
    assert row.to_temperature_s == pytest.approx(80.0 * math.log(175.0 / 5.0), abs=1.1)


def ramping(count: int) -> tuple[Heater, Load]:
    """Return a heater without heat of its own that warms two pieces from 25 to 195 C in 300 s, evenly."""
    wall = Wall(LEADS, 0.5, 0.04, doubt=0.0)
    own = 8000 * 500 * 0.0005 * 0.04  # 80 J/K
    heater = Heater("oven", "wire", (2 * own + 1.0) * 170.0 / 300.0, 0.0, 1.0, 0.0, 0.0, exact(5000.0), 0.0, 0.0, count)
    return heater, Load(wall, set_c=259.0, preheated=False, door_s=0.0)


def ramp_seconds(until: float, rate: float) -> float:
    """Return seconds at the reference of a steady ramp from 25 C, by scipy's quad."""
    steep = 120_000.0 / 8.314462618

    def fast(at: float) -> float:
        return math.exp(steep * (1.0 / 468.15 - 1.0 / (298.15 + rate * at)))

    return float(quad(fast, 0.0, until)[0])


def test_pieces_share_the_heater_s_power():
    """A ramp from 25 to 195 C in 300 s is worth 25.20932 s (closed form with the exponential integral)."""
    assert ramp_seconds(300.0, 170.0 / 300.0) == pytest.approx(25.20932, abs=1e-4)
    heater, one = ramping(3)
    rows = recommend(heater, one, Aim(0.3, 25.20932 / 60.0, 0.5), 3)
    for row in rows:
        rate = heater.power_w / (row.pieces * 80.0 + 1.0)
        expected = brentq(lambda at, rate=rate: ramp_seconds(at, rate) - 25.20932, 1.0, 2000.0)
        # The wall lags behind the air by half a kelvin, and the heater is looked at once a second.
        assert row.dwell_s.mid == pytest.approx(expected, rel=0.015)


def test_what_is_known_to_the_last_figure_leaves_only_the_energy_in_doubt():
    (row,) = recommend(ideal_oven(), load(), Aim(1.0, 495.765 / 60.0, 9.0), 1)
    assert row.dwell_s.low < row.dwell_s.mid < row.dwell_s.high
    made_by = Curve(tuple(np.arange(0.0, 601.0)), tuple(200.0 - 175.0 * np.exp(-np.arange(0.0, 601.0) / 80.0)))
    (same,) = recommend(ideal_oven(), load(), Aim(1.0, 495.765 / 60.0, 9.0, made_by=made_by), 1)
    assert same.dwell_s.low == pytest.approx(600.0, rel=2e-3)
    assert same.dwell_s.high == pytest.approx(600.0, rel=2e-3)


def test_more_pieces_never_want_less_and_less_power_wants_more():
    rows = recommend(small_oven(), load(), Aim(1.0, 3.0, 4.0), 6)
    for name in ("low", "mid", "high"):
        dwells = [getattr(row.dwell_s, name) for row in rows]
        assert dwells == sorted(dwells)
    assert rows[5].dwell_s.mid > 1.08 * rows[0].dwell_s.mid
    (weak,) = recommend(small_oven(power_w=450.0), load(), Aim(1.0, 3.0, 4.0), 1)
    assert weak.dwell_s.mid > rows[0].dwell_s.mid


def test_a_known_heater_has_a_narrower_band():
    (wide,) = recommend(small_oven(), load(), Aim(1.0, 3.0, 4.0), 1)
    (narrow,) = recommend(small_oven(offset_half_k=2.0), load(), Aim(1.0, 3.0, 4.0), 1)
    assert narrow.dwell_s.high - narrow.dwell_s.low < 0.8 * (wide.dwell_s.high - wide.dwell_s.low)


def test_the_dose_it_tells_is_the_band_s():
    (row,) = recommend(small_oven(), load(), Aim(1.0, 3.0, 4.0), 1)
    band = dose_band(small_oven(), load(), row.dwell_s.mid).dose
    assert row.dose.mid == pytest.approx(band.mid, rel=1e-6)
    assert (row.dose.low, row.dose.high) == (pytest.approx(band.low, rel=1e-6), pytest.approx(band.high, rel=1e-6))


def test_what_an_hour_does_not_reach_is_said_to_lie_beyond():
    (row,) = recommend(small_oven(power_w=150.0), load(), Aim(1.0, 3.0, 4.0), 1)
    assert math.isinf(row.dwell_s.mid)
    assert math.isinf(row.dwell_s.high)
    assert (row.dose.low, row.dose.mid, row.dose.high) == (0.0, 0.0, 0.0)
    assert math.isinf(row.to_temperature_s)
    assert LONGEST_S == 3600.0


def test_between_the_loads_that_are_reckoned_the_line_is_near_the_truth():
    heater, one = small_oven(), load()
    aim = Aim(2.0, 4.0, 8.0)
    many = recommend(heater, one, aim, 40)
    assert [row.pieces for row in many] == list(range(1, 41))
    middles = [row.dwell_s.mid for row in many]
    assert middles == sorted(middles)
    assert middles[-1] > middles[0]
    # 27 lies between two that are reckoned, 24 and 30; as the last of 27 it is reckoned itself.
    line, truth = many[26], recommend(heater, one, aim, 27)[-1]
    assert line.pieces == truth.pieces
    for drawn, exactly in zip(
        (line.dwell_s.low, line.dwell_s.mid, line.dwell_s.high, *line.range_s, line.dose.mid),
        (truth.dwell_s.low, truth.dwell_s.mid, truth.dwell_s.high, *truth.range_s, truth.dose.mid),
        strict=True,
    ):
        assert drawn == pytest.approx(exactly, rel=0.01)
