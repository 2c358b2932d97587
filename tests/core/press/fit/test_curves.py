"""Closed forms against a general solver of differential equations, and against the textbook's lumped wall."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from wrapwright.core.press.fit.curves import (
    approach,
    held,
    held_from,
    wall_in_approach,
    wall_in_held,
    wall_in_measured,
    weighed_back,
)

TIMES = np.arange(0.0, 900.0, 7.0)


def solved(air: Any, tau: float, start: float = 25.0, times: Any = TIMES) -> Any:
    found = solve_ivp(
        lambda t, y: (air(t) - y) / tau, (0.0, times[-1]), [start], t_eval=times, rtol=1e-9, atol=1e-9, max_step=5.0
    )
    return found.y[0]


def test_a_lumped_wall_takes_its_textbook_time() -> None:
    # Incropera, Fundamentals of Heat and Mass Transfer, eq. 5.6: 25 -> 180 C in 200 C takes tau ln(175/20).
    tau = 80.0
    there = approach(np.array([tau * math.log(175.0 / 20.0)]), 200.0, 25.0, tau)
    assert there[0] == pytest.approx(180.0, abs=1e-9)


@pytest.mark.parametrize(("tau_air", "tau"), [(60.0, 300.0), (300.0, 60.0), (120.0, 120.0), (120.0, 120.0000001)])
def test_a_wall_in_an_oven_that_nears_its_level(tau_air: float, tau: float) -> None:
    made = wall_in_approach(TIMES, (205.0, 40.0, tau_air), 25.0, tau)
    assert made == pytest.approx(solved(lambda t: 205.0 - 165.0 * math.exp(-t / tau_air), tau), abs=1e-5)


def test_a_wall_in_an_oven_at_full_power_that_is_then_held() -> None:
    rise = (450.0, 25.0, 1000.0)
    since = held_from(rise, 200.0)
    assert since == pytest.approx(1000.0 * math.log(425.0 / 250.0))
    made = wall_in_held(TIMES, rise, 200.0, 25.0, 90.0)
    assert made == pytest.approx(solved(lambda t: min(450.0 - 425.0 * math.exp(-t / 1000.0), 200.0), 90.0), abs=1e-3)
    assert held(TIMES, rise, 200.0).max() == 200.0
    assert (held_from(rise, 500.0), held_from(rise, 20.0)) == (math.inf, 0.0)


def test_a_wall_in_air_as_it_was_measured() -> None:
    times = np.cumsum(np.random.default_rng(2).uniform(1.0, 12.0, 120))
    times -= times[0]
    air = 200.0 + 15.0 * np.sin(times / 40.0)
    made = wall_in_measured(times, air, 25.0, 110.0)
    assert made == pytest.approx(solved(lambda t: np.interp(t, times, air), 110.0, times=times), abs=1e-3)
    standing = np.concatenate([times[:60], times[59:]])
    twice = wall_in_measured(standing, np.interp(standing, times, air), 25.0, 110.0)
    assert twice[-1] == pytest.approx(made[-1])


def test_what_a_reading_of_the_air_moves_is_the_transpose() -> None:
    random = np.random.default_rng(3)
    times = np.cumsum(random.uniform(1.0, 5.0, 40))
    weights, air = random.normal(size=40), random.normal(size=40)
    moved = weighed_back(times, weights, 33.0)
    assert moved @ air == pytest.approx(weights @ wall_in_measured(times, air, 0.0, 33.0))
