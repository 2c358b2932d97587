"""Least squares against certified values, against another library's fit, and against theory."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import t

from wrapwright.core.press.fit.least import fitted, hang_together, quantile
from wrapwright.core.press.fit.profile import profile_interval

# NIST Statistical Reference Datasets, nonlinear regression, Misra1a (lower difficulty): y = b1 (1 - exp(-b2 x)), the
# same curve as a wall in steady air.
MISRA_Y = (10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78)
MISRA_X = (77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0)
CERTIFIED = ((2.3894212918e02, 2.7070075241e00), (5.5015643181e-04, 7.2668688436e-06))


def test_certified_values_of_misra1a() -> None:
    x, y = np.array(MISRA_X), np.array(MISRA_Y)
    # Its start 1.
    found = fitted(lambda at: [at[0] * (1.0 - np.exp(-np.exp(at[1]) * x))], [y], [500.0, np.log(1e-4)])
    b2 = np.exp(found.at[1])
    assert (found.at[0], b2) == (pytest.approx(CERTIFIED[0][0], rel=1e-6), pytest.approx(CERTIFIED[1][0], rel=1e-6))
    assert found.noise[0] == pytest.approx(1.0187876330e-01, rel=1e-6)
    spread = np.sqrt(np.diag(found.spread) / found.together[0])
    assert spread[0] == pytest.approx(CERTIFIED[0][1], rel=1e-3)
    assert spread[1] * b2 == pytest.approx(CERTIFIED[1][1], rel=1e-3)


def test_two_columns_against_another_fit() -> None:
    random = np.random.default_rng(4)
    x = np.arange(0.0, 400.0)

    def model(_: Any, a: float, b: float, c: float) -> Any:
        return np.concatenate([a * np.exp(-x / np.exp(b)), c + a * np.exp(-x / 50.0)])

    sigma = np.repeat([0.5, 2.0], len(x))
    y = model(x, 150.0, 4.5, 20.0) + random.normal(size=2 * len(x)) * sigma
    ours = fitted(lambda at: np.split(model(x, *at), 2), np.split(y, 2), [100.0, 4.0, 0.0])
    theirs, spread = curve_fit(model, x, y, [100.0, 4.0, 0.0], sigma=sigma, absolute_sigma=True)
    assert ours.noise == pytest.approx([0.5, 2.0], rel=0.08)
    deviation = np.sqrt(np.diag(spread))
    assert np.abs(ours.at - theirs) == pytest.approx(np.zeros(3), abs=float(0.1 * deviation.max()))
    assert np.sqrt(np.diag(ours.spread)) == pytest.approx(deviation, rel=0.1)


def test_residuals_that_hang_together_count_for_less() -> None:
    random = np.random.default_rng(5)
    white = random.normal(size=4000)
    assert hang_together(white) == pytest.approx(1.0, abs=0.1)
    # First-order autoregression: (1 + r) / (1 - r), Box and Jenkins, Time Series Analysis, 3.2.
    run = np.zeros(20000)
    for at, one in enumerate(random.normal(size=20000)):
        run[at] = (0.8 * run[at - 1] if at else 0.0) + one
    assert hang_together(run) == pytest.approx(9.0, rel=0.2)
    assert hang_together(np.zeros(50)) == hang_together(np.ones(3)) == 1.0


def test_the_quantile_is_students() -> None:
    for free in (1, 2, 3, 10, 1000):
        assert quantile(free) == pytest.approx(t.ppf(0.975, free), rel=1e-9)


def test_a_profile_of_a_straight_line_is_its_t_interval() -> None:
    random = np.random.default_rng(6)
    x = np.arange(60.0)
    y = 3.0 + 0.5 * x + random.normal(size=60)

    def model(at: Any) -> list[Any]:
        return [at[0] + at[1] * x]

    found = fitted(model, [y], [0.0, 0.0])
    half = t.ppf(0.975, found.free) * np.sqrt(found.spread[1, 1])
    low, high = profile_interval(model, [y], found, 1)
    assert (low, high) == (pytest.approx(found.at[1] - half, rel=5e-3), pytest.approx(found.at[1] + half, rel=5e-3))


def test_a_profile_that_never_rises_is_open() -> None:
    x = np.arange(30.0)
    y = np.random.default_rng(7).normal(size=30)

    def model(at: Any) -> list[Any]:
        return [at[0] + 0.0 * at[1] + 0.0 * x]

    found = fitted(model, [y], [0.0, 1.0])
    assert profile_interval(model, [y], found, 1) == (-np.inf, np.inf)
