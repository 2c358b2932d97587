"""Radiation, surface coefficients and covers against textbooks and the library `ht`."""

from __future__ import annotations

import ht
import numpy as np
import pytest

from wrapwright.core.press.heat.films import (
    ANCHOR,
    STEFAN_BOLTZMANN,
    Face,
    conductance,
    cover_resistance,
    passing,
    radiated,
    radiation_film,
)
from wrapwright.core.press.heat.known import cover_named, starter_heater


def test_a_steam_pipe_radiates_as_in_the_textbook() -> None:
    # Incropera and DeWitt, Example 1.2, with 473 K, 298 K and sigma 5.67e-8: E 2270, G 447 W/m2, 998 W per metre.
    book = 5.67e-8 / STEFAN_BOLTZMANN
    assert book * radiated(0.8, 473 - 273.15) == pytest.approx(2270, abs=1)
    assert book * radiated(1.0, 298 - 273.15) == pytest.approx(447, abs=0.5)
    film = book * float(radiation_film(0.8, 473 - 273.15, 298 - 273.15))
    assert film == pytest.approx(10.930, abs=1e-3)
    assert (15 + film) * np.pi * 0.07 * (200 - 25) == pytest.approx(998, abs=0.5)


@pytest.mark.parametrize(("emissivity", "kelvin", "around"), [(1.0, 400, 0), (0.85, 400, 305), (0.9, 480, 298)])
def test_it_is_what_an_independent_library_says(emissivity: float, kelvin: float, around: float) -> None:
    # ht cites Bergman and others, Introduction to Heat Transfer, 6th edition; its sigma is of CODATA 2014: 2e-6.
    ours = float(radiated(emissivity, kelvin - 273.15, around - 273.15))
    assert ours == pytest.approx(ht.q_rad(emissivity=emissivity, T=kelvin, T2=around), rel=2e-6)


def test_the_library_s_printed_figures() -> None:
    assert float(radiated(1.0, 400 - 273.15)) == pytest.approx(1451.613952, rel=2e-6)
    assert float(radiated(0.85, 400 - 273.15, 305 - 273.15)) == pytest.approx(816.78217, rel=2e-6)


@pytest.mark.parametrize(("surface", "film"), [(25, 12.3110), (180, 20.2900), (195, 21.2824)])
def test_the_coefficient_of_radiation(surface: float, film: float) -> None:
    # Closed form; the cube of the mean temperature is only near it, and far off while the wall is cold.
    assert float(radiation_film(0.9, surface, 200)) == pytest.approx(film, abs=1e-3)
    mean = (surface + 200) / 2 + 273.15
    near = 4 * 0.9 * STEFAN_BOLTZMANN * mean**3
    assert near == pytest.approx({25: 11.708, 180: 20.281, 195: 21.282}[surface], abs=1e-3)


def test_coefficient_and_flux_are_one() -> None:
    surface, around = np.array([25.0, 120.0, 199.0]), 200.0
    flux = radiation_film(0.7, surface, around) * (around - surface)
    assert flux == pytest.approx(radiated(0.7, around, surface), rel=1e-12)


def test_an_oven_s_coefficient_is_the_measured_range() -> None:
    # Baik and others, J. Food Sci. 64(4) 688: 20 to 48 W/m2K at 186-225 degC, 75-80 % of it radiation.
    oven = starter_heater("oven")
    assert (oven.film.low, oven.film.high) == (20, 48)
    assert 0.75 <= oven.radiant <= 0.80
    assert "Baik" in oven.source
    assert "estimate" in oven.source


def test_paper_adds_little_to_an_oven_s_film() -> None:
    # Conductivity 0.05 to 0.18 W/mK (Incropera A.3 and sciencing.com), 0.13 mm: closed form.
    paper = cover_named("paper")
    low, high = 1 / cover_resistance([paper], -1.0), 1 / cover_resistance([paper], 1.0)
    assert (float(low), float(high)) == (pytest.approx(385, abs=0.5), pytest.approx(1385, abs=0.7))
    assert 25 / float(conductance(25.0, [paper], -1.0)) - 1 == pytest.approx(0.065, abs=5e-4)


def test_covers_are_in_series() -> None:
    both = [cover_named("paper"), cover_named("sleeve")]
    resistance = ht.conduction.k_to_R(k=0.10, t=0.13e-3) + ht.conduction.k_to_R(k=0.20, t=0.05e-3)
    assert float(cover_resistance(both)) == pytest.approx(resistance, rel=1e-12)
    assert float(conductance(30.0, both)) == pytest.approx(1 / (1 / 30 + resistance), rel=1e-12)
    assert float(conductance(30.0)) == pytest.approx(30.0)


def test_radiation_is_weak_while_the_wall_is_cold() -> None:
    bare = Face(np.array([30.0]), np.zeros(1), 0.775, np.array([175.0]), 25.0)
    air = np.array([175.0])

    def now(coating_k: float) -> float:
        return float(passing(bare, bare.usual(), bare.anchor(), air, np.array([coating_k]))[0])

    assert now(0.0) < now(ANCHOR * 175) < now(170.0)
    assert now(ANCHOR * 175) == pytest.approx(30.0)
    # The radiant part alone runs as the closed form does: 12.3110 to 21.2824 from 25 to 195 against 200.
    strength = [now(at) - 30.0 * 0.225 for at in (0.0, 170.0)]
    assert strength[1] / strength[0] == pytest.approx(21.2824 / 12.3110, rel=1e-4)
