"""What must hold before a heat starts."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from tests.core.press.run.heats_told import oven

from wrapwright.core.press.run.starting import missing_ticks, pieces_problem, preheat_s, ticks_of


@pytest.mark.parametrize(("lidded", "double", "asked"), [(0, 0, 0), (1, 0, 1), (0, 1, 1), (1, 1, 1)])
def test_what_can_be_closed_is_ticked(lidded: int, double: int, asked: int) -> None:
    ticks = ticks_of(lidded=bool(lidded), double=bool(double))
    assert len(ticks) == asked
    assert len(missing_ticks(ticks, ("another",))) == asked
    assert missing_ticks(ticks, ("open-empty-dry",)) == []


def test_the_sentence_says_what_was_not_looked_at() -> None:
    (problem,) = missing_ticks(ticks_of(lidded=True, double=False), ())
    assert "open, empty and dry; lid and gasket are off" in problem.message
    assert problem.where == "open-empty-dry"


def test_no_more_than_it_holds() -> None:
    heater = replace(oven(), capacity=4)
    assert pieces_problem(heater, 1) == pieces_problem(heater, 4) == []
    for count in (0, 5):
        assert f"holds 4 pieces; {count} were given" in pieces_problem(heater, count)[0].message


def test_how_long_an_empty_heater_takes() -> None:
    """Against the differential equation itself, integrated by scipy."""
    heater = oven()

    def rise(_t: float, temperature: np.ndarray) -> np.ndarray:
        return np.asarray((heater.power_w - heater.loss_w_k * (temperature - 25.0)) / heater.own_j_k)

    def there(_t: float, temperature: np.ndarray) -> float:
        return float(temperature[0] - 195.0)

    there.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(rise, (0.0, 5000.0), [25.0], events=there, rtol=1e-9, atol=1e-9)
    assert preheat_s(heater, 195.0, 25.0) == pytest.approx(float(solved.t_events[0][0]), rel=1e-6)


def test_a_heater_without_loss_takes_its_heat_over_its_power() -> None:
    heater = replace(oven(), loss_w_k=0.0)
    assert preheat_s(heater, 195.0, 25.0) == pytest.approx(heater.own_j_k * 170.0 / heater.power_w)
    assert preheat_s(replace(oven(), loss_w_k=1e-9), 195.0, 25.0) == pytest.approx(
        heater.own_j_k * 170.0 / heater.power_w, rel=1e-6
    )
    assert preheat_s(oven(), 20.0, 25.0) == 0.0


def test_a_heater_that_never_gets_there() -> None:
    weak = replace(oven(), power_w=oven().loss_w_k * 170.0)
    assert preheat_s(weak, 195.0, 25.0) is None
    assert math.isfinite(preheat_s(weak, 194.0, 25.0) or math.inf)
