"""The model of scores against published figures and against a search for the greatest likelihood."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import norm
from tests.core.press.trial.worlds import marks

from wrapwright.core.press.trial.model import Grid, coarse, grid, log_likelihood, quantiles, score_chances, weighed
from wrapwright.core.press.trial.values import Mark

# Beetles after five hours of carbon disulphide: C. I. Bliss, The calculation of the dosage-mortality curve, Ann. Appl.
# Biol. 22 (1935) 134-167; log10 of the dose, number, dead. Figures from memory, recomputed below.
BEETLES = (
    (1.6907, 59, 6), (1.7242, 60, 13), (1.7552, 62, 18), (1.7842, 56, 28),
    (1.8113, 63, 52), (1.8369, 59, 53), (1.8610, 62, 61), (1.8839, 60, 60),
)  # fmt: skip
# The probit fit that textbooks print: -34.96 + 19.74 x (A. Agresti, Categorical Data Analysis, 2nd ed., 6.6.3; memory).
INTERCEPT, SLOPE = -34.96, 19.74


def beetles() -> list[Mark]:
    found = []
    for x, number, dead in BEETLES:
        found += [Mark(0, x, 4, 5)] * dead + [Mark(0, x, 1, 3)] * (number - dead)
    return found


def test_two_steps_are_the_published_probit() -> None:
    over = Grid(np.linspace(1.74, 1.80, 241), np.array([0.1]), np.linspace(0.035, 0.075, 161))
    like = log_likelihood(beetles(), over, rising=True, lapse=0.0)
    place, _, sigma = np.unravel_index(int(like.argmax()), like.shape)
    assert over.places[place] == pytest.approx(-INTERCEPT / SLOPE, abs=5e-4)
    assert 1.0 / over.sigmas[sigma] == pytest.approx(SLOPE, rel=0.005)
    # Standard error of the bound by the delta method, from the observed information of the same fit.
    low, high = quantiles(over.places, weighed(like).sum(axis=(1, 2)), (0.025, 0.975))
    fitted = minimize(_beetles_lost, [1.77, np.log(0.05)], method="BFGS")
    half = 1.96 * float(np.sqrt(fitted.hess_inv[0, 0]))
    assert (high - low) / 2.0 == pytest.approx(half, rel=0.1)
    assert fitted.x[0] == pytest.approx(-INTERCEPT / SLOPE, abs=2e-4)


def _beetles_lost(at: np.ndarray) -> float:
    x, number, dead = (np.array(column) for column in zip(*BEETLES, strict=True))
    share = norm.cdf((x - at[0]) / np.exp(at[1])).clip(1e-12, 1 - 1e-12)
    return -float((dead * np.log(share) + (number - dead) * np.log1p(-share)).sum())


@pytest.mark.parametrize("rising", [True, False])
def test_the_likeliest_point_is_that_of_a_search(rising: bool) -> None:
    rng = np.random.default_rng(6)
    given = marks(np.tile(np.linspace(-0.6, 1.2, 10), 5), 0.35, 0.15, 0.12, rng, rising=rising)
    over = Grid(np.linspace(0.2, 0.5, 61), np.linspace(0.05, 0.21, 33), np.linspace(0.06, 0.2, 29))
    like = log_likelihood(given, over, rising=rising)
    found = np.unravel_index(int(like.argmax()), like.shape)
    best = minimize(_lost, [0.3, np.log(0.2), np.log(0.2)], args=(given, rising), method="Nelder-Mead")
    assert over.places[found[0]] == pytest.approx(best.x[0], abs=0.011)
    assert over.gaps[found[1]] == pytest.approx(np.exp(best.x[1]), abs=0.011)
    assert over.sigmas[found[2]] == pytest.approx(np.exp(best.x[2]), abs=0.011)
    assert float(like.max()) == pytest.approx(-best.fun, abs=0.05)


def _lost(at: np.ndarray, given: tuple[Mark, ...], rising: bool) -> float:
    """Minus the logarithm of the likelihood, one score after the other, by the normal's own function."""
    bound, gap, sigma = at[0], np.exp(at[1]), np.exp(at[2])
    total = 0.0
    for one in given:
        z = one.x - bound if rising else bound - one.x
        edges = [-np.inf, *((level - 4) * gap for level in (2, 3, 4, 5)), np.inf]
        share = norm.cdf((z - edges[one.low - 1]) / sigma) - norm.cdf((z - edges[one.low]) / sigma)
        total += float(np.log(0.98 * share + 0.02 / 5.0))
    return -total


def test_chances_of_the_scores_sum_to_one_and_turn_over_with_the_dose() -> None:
    for rising in (True, False):
        table = score_chances(np.array([-1.0, 0.2, 1.4]), coarse(), rising=rising)
        assert table.sum(axis=1) == pytest.approx(1.0)
        mean = (table * np.arange(1, 6)[:, None, None, None]).sum(axis=1)
        assert np.all(np.diff(mean, axis=0) >= -1e-12) == rising


def test_a_doubtful_dose_counts_for_less() -> None:
    over = grid()
    sure, doubtful = (
        weighed(log_likelihood([Mark(1, 0.0, 1, 1, doubt), Mark(2, 0.5, 5, 5, doubt)], over, rising=True))
        for doubt in (0.0, 0.5)
    )
    spread = [np.subtract(*quantiles(over.places, one.sum(axis=(1, 2)), (0.95, 0.05))) for one in (sure, doubtful)]
    assert spread[1] > 1.3 * spread[0]
