"""How scores depend on dose: an ordered probit over the logarithm of the dose, and its likelihood on a grid.

A quality is judged on steps 1 to 5. Behind the score lies a continuous quality that rises with the logarithm of the
dose (density) or falls with it (sharpness, yellowing), scattered normally from coupon to coupon:
P(score >= k) = Phi((z - (k - 4) gap) / sigma), z = x - m for density and m - x for the others, x = log10 of the dose.
m is the bound: there a coupon is as often accepted (4 or better) as not. This is the ordered probit of P. McCullagh,
Regression models for ordinal data, J. R. Stat. Soc. B 42 (1980) 109-142, with steps of equal size; with two steps it
is the probit of C. I. Bliss (1935). A small share of the scores, LAPSE, is taken to be a slip of the eye or hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.values import BEST, GOOD, Mark, Quality

Array = NDArray[np.float64]

LAPSE = 0.02
RISES: dict[Quality, bool] = {"density": True, "sharpness": False, "yellowing": False}


@dataclass(frozen=True, eq=False)
class Grid:
    """Where the likelihood is reckoned.

    Attributes:
        places: bounds m, log10 of minutes, evenly apart, shape (m,).
        gaps: log10 of dose from one score to the next, shape (g,); all are as likely beforehand.
        sigmas: scatter from coupon to coupon, log10 of dose, shape (s,); likewise.
    """

    places: Array
    gaps: Array
    sigmas: Array

    @property
    def shape(self) -> tuple[int, int, int]:
        """Numbers of bounds, gaps and scatters."""
        return (self.places.size, self.gaps.size, self.sigmas.size)


@lru_cache(maxsize=4)
def grid(low: float = -2.0, high: float = 2.5, step: float = 0.025) -> Grid:
    """Return the grid of the fit: bounds from 0.01 to 316 minutes, scores 0.03 to 0.5 decades apart.

    The scatter runs from 0.02 decades (5 % of dose) to 0.4 (a factor of 2.5). Nothing is held more likely than
    anything else beforehand: what comes out is told by the scores.
    """
    places = np.linspace(low, high, round((high - low) / step) + 1)
    return Grid(places, np.geomspace(0.03, 0.5, 6), np.geomspace(0.02, 0.4, 7))


@lru_cache(maxsize=2)
def coarse() -> Grid:
    """Return a grid over the same ranges for weighing plans, thousands of fits at a time."""
    return Grid(np.linspace(-2.0, 2.5, 76), np.geomspace(0.03, 0.5, 4), np.geomspace(0.02, 0.4, 5))


def score_chances(x: Array, over: Grid, *, rising: bool, doubt: Array | float = 0.0, lapse: float = LAPSE) -> Array:
    """Return the chance of each score, shape (n, 5, m, g, s).

    Args:
        x: log10 of doses, shape (n,).
        over: the grid.
        rising: whether the quality rises with the dose.
        doubt: standard deviation of each x, shape (n,) or one for all.
        lapse: share of slips, spread evenly over the scores.
    """
    reached = _reached(x, over, rising=rising, doubt=doubt)
    full = np.ones((x.size, 1, *over.shape))
    steps = np.concatenate([full, reached, np.zeros_like(full)], axis=1)
    return np.asarray((1.0 - lapse) * (steps[:, :-1] - steps[:, 1:]) + lapse / BEST)


def _reached(x: Array, over: Grid, *, rising: bool, doubt: Array | float) -> Array:
    """Return the chance that a score is 2, 3, 4, 5 or better, shape (n, 4, m, g, s)."""
    from scipy.special import ndtr

    away = (x[:, None] - over.places) * (1.0 if rising else -1.0)
    cut = (np.arange(2, BEST + 1) - GOOD)[:, None] * over.gaps
    spread = np.sqrt(over.sigmas**2 + np.broadcast_to(np.asarray(doubt, float), x.shape)[:, None] ** 2)
    z = away[:, None, :, None, None] - cut[None, :, None, :, None]
    return np.asarray(ndtr(z / spread[:, None, None, None, :]))


def log_likelihood(marks: Sequence[Mark], over: Grid, *, rising: bool, lapse: float = LAPSE) -> Array:
    """Return the logarithm of the likelihood of the marks, shape (m, g, s); zeros for none."""
    total = np.zeros(over.shape)
    if not marks:
        return total
    # Alike marks are reckoned once: groups of hundreds then cost no more than their kinds.
    kinds: dict[tuple[float, float], list[Mark]] = {}
    for one in marks:
        kinds.setdefault((one.x, one.doubt), []).append(one)
    x, doubt = (np.array(part) for part in zip(*kinds, strict=True))
    table = score_chances(x, over, rising=rising, doubt=doubt, lapse=lapse)
    for chances, alike in zip(table, kinds.values(), strict=True):
        counted: dict[tuple[int, int], int] = {}
        for one in alike:
            counted[one.low, one.high] = counted.get((one.low, one.high), 0) + 1
        for (low, high), number in counted.items():
            total += number * np.log(np.maximum(chances[low - 1 : high].sum(axis=0), 1e-300))
    return total


def weighed(log_like: Array) -> Array:
    """Return the chances of the grid's points, summing to one; all were as likely before."""
    raw = np.exp(log_like - log_like.max())
    return np.asarray(raw / raw.sum())


def quantiles(places: Array, chances: Array, shares: Sequence[float]) -> tuple[float, ...]:
    """Return the places below which these shares of the chances lie; straight between the grid's cells' edges."""
    step = float(places[1] - places[0])
    edges = np.concatenate([[0.0], np.cumsum(chances) / chances.sum()])
    at = np.concatenate([places - step / 2.0, [places[-1] + step / 2.0]])
    return tuple(float(np.interp(share, edges, at)) for share in shares)
