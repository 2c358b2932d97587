"""Thin walls against textbooks, closed forms and an independent integrator."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fluids.core import Biot
from scipy.integrate import solve_ivp

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.heat.films import STEFAN_BOLTZMANN
from wrapwright.core.press.heat.known import material_named
from wrapwright.core.press.heat.lumped import (
    lumped_c,
    lumped_seconds,
    radiating_c,
    time_constant_s,
    wall_constant_s,
)
from wrapwright.core.press.values import Wall

BEAD_M = 7.06e-4  # Incropera and DeWitt, Example 5.1: diameter for a time constant of 1 s


def test_a_thermocouple_s_diameter() -> None:
    # Example 5.1: h 400, density 8500, c 400, k 20: 7.06e-4 m; full figure 7.05882e-4.
    assert time_constant_s(400, 8500, 400, 7.05882e-4 / 6) == pytest.approx(1.0, abs=1e-6)
    assert time_constant_s(400, 8500, 400, BEAD_M / 6) == pytest.approx(1.0, abs=5e-4)
    assert Biot(400, BEAD_M / 6, 20) == pytest.approx(2.35e-3, abs=5e-6)


def test_how_long_it_takes_to_read_the_gas() -> None:
    # Same example: 25 to 199 degC in gas at 200: 5.2 s; full figure 5.16479 time constants.
    assert lumped_seconds(25, 200, 199, 1.0) == pytest.approx(5.16479, abs=1e-5)
    assert lumped_seconds(25, 200, 199, 1.0) == pytest.approx(5.2, abs=0.05)
    assert float(lumped_c(5.16479, 25, 200, 1.0)) == pytest.approx(199, abs=1e-4)


def test_another_junction() -> None:
    # Cengel, Heat Transfer, Example 4-1: b 0.463235 1/s, 99 % after 10 s (9.9413), Bi 0.001.
    constant = time_constant_s(210, 8500, 320, 1e-3 / 6)
    assert 1 / constant == pytest.approx(0.463235, abs=1e-6)
    assert lumped_seconds(0, 1, 0.99, constant) == pytest.approx(9.9413, abs=1e-4)
    assert Biot(210, 1e-3 / 6, 35) == pytest.approx(0.001)


def test_a_body_found_in_a_room() -> None:
    # Cengel, Example 4-2: a cylinder of water, 1.7 m by 0.3 m, h 8, 37 to 25 degC in a room at 20: 12.2 h.
    length = math.pi * 0.15**2 * 1.7 / (2 * math.pi * 0.15 * 1.7 + 2 * math.pi * 0.15**2)
    constant = time_constant_s(8, 996, 4178, length)
    assert lumped_seconds(37, 20, 25, constant) / 3600 == pytest.approx(12.2, abs=0.05)


def test_convection_and_radiation_in_balance() -> None:
    # Incropera, Example 5.2: the bead of 5.1, emissivity 0.9, duct walls at 400 degC: 218.7 degC; 4.9 s to within 1 K.
    times = np.linspace(0, 20, 2001)
    bead = radiating_c(times, 25, gas_c=200, around_c=400, film=400, emissivity=0.9, held_j_m2k=8500 * 400 * BEAD_M / 6)
    assert bead[-1] == pytest.approx(218.7, abs=0.1)
    reached = float(np.interp(217.7, bead, times))
    assert reached == pytest.approx(4.97, abs=0.1)
    assert reached == pytest.approx(4.9, abs=0.1)


def test_the_stepping_is_that_of_an_independent_integrator() -> None:
    held, film, grey = 8000 * 500 * 0.0005, 7.0, 0.9

    def slope(_: float, temp: np.ndarray) -> np.ndarray:
        kelvin = temp + 273.15
        return (film * (200 - temp) + grey * STEFAN_BOLTZMANN * (473.15**4 - kelvin**4)) / held

    times = np.linspace(0, 600, 61)
    other = solve_ivp(slope, (0, 600), [25.0], t_eval=times, rtol=1e-10, atol=1e-10).y[0]
    ours = radiating_c(times, 25, gas_c=200, around_c=200, film=film, emissivity=grey, held_j_m2k=held)
    assert np.abs(ours - other).max() < 1e-4


def test_many_cool_at_once() -> None:
    times = np.array([0.0, 60.0, 600.0])
    held = np.array([2000.0, 7728.0])
    cooling = radiating_c(times, 200, gas_c=25, around_c=25, film=8, emissivity=0.9, held_j_m2k=held)
    assert cooling.shape == (2, 3)
    assert (np.diff(cooling, axis=1) < 0).all()
    assert cooling.min() > 25
    assert (cooling[0, 1:] < cooling[1, 1:]).all()


@pytest.mark.parametrize(
    ("name", "thickness", "constant"),
    [("steel", 0.5, 80.0), ("aluminium", 1.0, 97.52), ("ceramic", 4.0, 309.12), ("glass", 3.0, 225.0)],
)
def test_walls_heated_on_one_side(name: str, thickness: float, constant: float) -> None:
    # Closed form density x c x thickness / h, h 25, with the properties that the tables give.
    wall = Wall(material_named(name), thickness, 0.02)
    ours = wall_constant_s(wall, 25.0)
    assert ours == pytest.approx(constant, abs=0.01)
    assert lumped_seconds(25, 200, 180, ours) / ours == pytest.approx(2.16905, abs=1e-5)
    assert lumped_seconds(25, 200, 195, ours) / ours == pytest.approx(3.55535, abs=1e-5)


def test_base_and_handle_warm_with_the_wall() -> None:
    wall = Wall(material_named("steel"), 0.5, 0.02, other_j_k=40.0)
    assert wall_constant_s(wall, 25.0) == pytest.approx(80.0 + 40.0 / (25 * 0.02))


@pytest.mark.parametrize("goal", [200.0, 210.0, 24.0])
def test_what_is_never_reached_is_said(goal: float) -> None:
    with pytest.raises(WrapwrightError, match="is never reached"):
        lumped_seconds(25, 200, goal, 80)


def test_a_constant_needs_figures_over_nothing() -> None:
    with pytest.raises(WrapwrightError, match="density of -8000"):
        time_constant_s(25, -8000, 500, 0.0005)
