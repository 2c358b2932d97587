"""Thick walls, cylinders and spheres against the printed tables, and the series against the layers."""

from __future__ import annotations

import math

import numpy as np
import pytest
from benchmarks.heat_parts._published import TABLE
from fluids.core import Biot, Fourier_heat
from scipy.special import j0, j1

from wrapwright.core.press.heat.slab import Shape, by_differences, by_series, factors, mean_by_series, roots


@pytest.mark.parametrize(("shape", "biot", "zeta", "factor"), TABLE)
def test_the_printed_coefficients(shape: Shape, biot: float, zeta: float, factor: float) -> None:
    first = roots(biot, 1, shape)
    assert first[0] == pytest.approx(zeta, abs=2e-4)
    assert factors(first, shape)[0] == pytest.approx(factor, abs=2e-4)


def test_an_egg_s_coefficients() -> None:
    # Cengel, Example 4-3: read straight between the table's rows 40 and 50, a thousandth off.
    first = roots(1200 * 0.025 / 0.627, 1, "sphere")
    assert first[0] == pytest.approx(3.0754, abs=1e-3)
    assert factors(first, "sphere")[0] == pytest.approx(1.9959, abs=1e-3)


def test_a_stored_solution_that_took_the_wrong_row() -> None:
    # An egg of 55 mm in water at 100 degC, Bi 36.24 (answer.ya.guru), is worked with 3.06632 and 1.9942: the table's
    # row for 40 (3.0632, 1.9942), miscopied. The root there is another.
    assert roots(40, 1, "sphere")[0] == pytest.approx(3.0632, abs=2e-4)
    assert factors(roots(40, 1, "sphere"), "sphere")[0] == pytest.approx(1.9942, abs=2e-4)
    first = roots(36.24, 1, "sphere")
    assert 1 - float(first[0]) / math.tan(float(first[0])) == pytest.approx(36.24, abs=1e-9)
    assert abs(first[0] - 3.06632) > 0.01


def test_the_sphere_at_one_is_exact() -> None:
    first = roots(1.0, 1, "sphere")
    assert first[0] == pytest.approx(math.pi / 2, rel=1e-12)
    assert factors(first, "sphere")[0] == pytest.approx(4 / math.pi, rel=1e-12)


@pytest.mark.parametrize("shape", ["wall", "cylinder", "sphere"])
@pytest.mark.parametrize("biot", [1e-3, 0.3, 7.0, 300.0])
def test_all_roots_are_there_once_and_the_start_is_whole(shape: Shape, biot: float) -> None:
    zeta = roots(biot, 400, shape)
    assert (np.diff(zeta) > 1.5).all()
    assert (np.diff(zeta) < 4.8).all()
    left = {
        "wall": zeta * np.sin(zeta) - biot * np.cos(zeta),
        "cylinder": zeta * j1(zeta) - biot * j0(zeta),
        "sphere": (1 - biot) * np.sin(zeta) - zeta * np.cos(zeta),
    }[shape]
    assert np.abs(left).max() < 1e-9 * (zeta[-1] + biot)
    # At the start nothing is gone yet inside: the factors weigh it to one.
    assert float(by_series(biot, 1e-3, 0.0, shape)) == pytest.approx(1.0, abs=1e-9)


def test_a_brass_plate_in_an_oven() -> None:
    # Cengel, Example 4-4: 40 mm of brass from 20 degC in an oven at 500, h 120, 7 min. The chart reads 282 degC.
    biot, fourier = Biot(120, 0.02, 110), Fourier_heat(420, 0.02, alpha=33.9e-6)
    assert (biot, fourier) == (pytest.approx(0.021818, abs=1e-6), pytest.approx(35.595, abs=1e-3))
    surface = 500 + (20 - 500) * float(by_series(biot, fourier, 1.0))
    assert surface == pytest.approx(279.58, abs=0.02)
    assert surface == pytest.approx(282, abs=3)
    # Read off a chart it is out by two kelvin: an answer that agreed with the chart would be wrong.
    assert abs(surface - 282) > 2


def test_a_shaft_that_cools() -> None:
    # Cengel, Example 4-5: 200 mm of stainless steel, 600 degC in air at 200, h 80, 45 min: the chart reads 360 degC,
    # 0.40 of the difference; the one-term formula, in the book's note, 364.
    left = float(by_series(Biot(80, 0.1, 14.9), Fourier_heat(45 * 60, 0.1, alpha=3.95e-6), 0.0, "cylinder"))
    assert left == pytest.approx(0.40, abs=0.02)
    assert 200 + 400 * left == pytest.approx(364, abs=1.0)


def test_the_heat_that_a_shaft_gives_off() -> None:
    # Same example: 0.62 of all it could give, by the chart.
    mean = float(mean_by_series(Biot(80, 0.1, 14.9), Fourier_heat(45 * 60, 0.1, alpha=3.95e-6), "cylinder"))
    assert 1 - mean == pytest.approx(0.62, abs=0.02)


def test_the_heat_that_a_pipe_takes_up() -> None:
    # Incropera, Example 5.4 (see below): 2.73e7 J per metre of a pipe of 1 m after 8 min (from memory).
    left = float(mean_by_series(Biot(500, 0.04, 63.9), Fourier_heat(480, 0.04, alpha=18.8e-6)))
    assert 7832 * 434 * math.pi * 1.0 * 0.04 * 80 * (1 - left) == pytest.approx(2.73e7, rel=0.01)


@pytest.mark.parametrize("shape", ["wall", "cylinder", "sphere"])
def test_the_mean_is_the_mean_of_all_places(shape: Shape) -> None:
    depth = {"wall": 0, "cylinder": 1, "sphere": 2}[shape]
    middles = (np.arange(100) + 0.5) / 100
    weight = middles**depth / np.sum(middles**depth)
    places = np.array([float(by_series(2.0, 0.2, at, shape, 20)) for at in middles])
    assert float(mean_by_series(2.0, 0.2, shape)) == pytest.approx(float(places @ weight), abs=1e-4)


def test_a_boiled_egg() -> None:
    # Cengel, Example 4-3: centre from 5 to 70 degC in water at 95: Fourier number 0.209.
    assert float(by_series(1200 * 0.025 / 0.627, 0.209, 0.0, "sphere")) == pytest.approx(25 / 90, abs=3e-3)


def test_a_wall_heated_on_one_side() -> None:
    # Incropera, Example 5.4: 40 mm pipe wall of steel from -20 degC, oil at 60, h 500, insulated outside, 8 min:
    # Bi 0.313, Fo 5.64, 45.2 degC at the oil and 42.9 behind (from memory; with rounded coefficients).
    biot, fourier = Biot(500, 0.04, 63.9), Fourier_heat(480, 0.04, alpha=18.8e-6)
    assert (biot, fourier) == (pytest.approx(0.313, abs=1e-3), pytest.approx(5.64, abs=0.01))
    face, back = (60 - 80 * float(by_series(biot, fourier, place)) for place in (1.0, 0.0))
    assert (face, back) == (pytest.approx(45.2, abs=0.25), pytest.approx(42.9, abs=0.25))
    layers = 60 - 80 * by_differences([biot], np.array([fourier]))[0, 0]
    assert (layers[0], layers[-1]) == (pytest.approx(face, abs=0.08), pytest.approx(back, abs=0.08))


def test_a_wall_at_one_and_one() -> None:
    # One-term formula at Bi 1, Fo 1: centre 0.53388, surface 0.34820.
    for terms in (1, 60):
        assert float(by_series(1, 1, 0, terms=terms)) == pytest.approx(0.53388, abs=1e-4)
        assert float(by_series(1, 1, 1, terms=terms)) == pytest.approx(0.34820, abs=1e-4)
    layers = by_differences([1.0], np.array([1.0]), 101)[0, 0]
    assert (layers[-1], layers[0]) == (pytest.approx(0.53388, abs=1e-4), pytest.approx(0.34820, abs=1e-4))


BIOTS = [0.1, 0.148, 0.3, 1.0, 2.0]


def test_series_and_layers_agree_within_a_thousandth() -> None:
    fourier = np.linspace(0.05, 4.0, 80)
    layers = by_differences(BIOTS, fourier)
    for number, biot in enumerate(BIOTS):
        assert np.abs(layers[number, :, 0] - by_series(biot, fourier, 1.0)).max() < 1e-3
        assert np.abs(layers[number, :, -1] - by_series(biot, fourier, 0.0)).max() < 1e-3


def test_finer_layers_come_nearer_with_their_square() -> None:
    fourier = np.linspace(0.1, 2.0, 20)
    exact = by_series(1.0, fourier, 1.0)
    errors = [float(np.abs(by_differences([1.0], fourier, n)[0, :, 0] - exact).max()) for n in (6, 11, 21)]
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.15)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.25)


def test_one_term_is_enough_late_and_not_early() -> None:
    # Cengel, 4-2: less than 2 % from a Fourier number of 0.2 on.
    for biot in BIOTS:
        late = float(by_series(biot, 0.2, 0.0))
        assert float(by_series(biot, 0.2, 0.0, terms=1)) == pytest.approx(late, rel=0.02)
    assert abs(float(by_series(2.0, 0.02, 0.0, terms=1)) / float(by_series(2.0, 0.02, 0.0)) - 1) > 0.1


def test_a_film_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="over 0"):
        roots(0.0)
