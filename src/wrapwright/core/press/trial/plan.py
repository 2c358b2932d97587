"""Which coupons to heat: doses spread evenly over what may matter, and how few of them tell the bounds well enough."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.asked import FEWEST, LONGEST_S, MOST, SHORTEST_S
from wrapwright.core.press.trial.model import Grid, coarse, quantiles, score_chances
from wrapwright.core.press.trial.reckoning import Bed, Course, Setting, course
from wrapwright.core.press.trial.values import BEST, GOOD, SHARE

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

WITHIN, SURE = 2.0, 0.8
_BELOW, _ABOVE = 2.5, 4.0  # how far beyond the expected doses the trial reaches: common practice, no source
_SOON_S = 900.0  # nobody stands longer by an oven for one coupon than need be
_WORLDS = 200  # windows that could be true, against which a plan is weighed
_SEED = 20260502


@dataclass(frozen=True)
class Expected:
    """The doses between which the work is expected to come out, minutes: where a trial looks."""

    low: float
    high: float


@dataclass(frozen=True)
class Weighed:
    """How well so many coupons do.

    Attributes:
        pieces: how many.
        low, high: median ratio of the ends of each bound's interval.
        sure: share of the windows that could be true for which both are as narrow as wanted.
    """

    pieces: int
    low: float
    high: float
    sure: float


USUAL = Expected(0.8, 4.0)  # of the shipped recipes in their own heaters, about: common practice, no source


def spread_doses(expected: Expected, count: int) -> Array:
    """Return `count` doses, evenly apart in their logarithm, from below to above what is expected."""
    return np.geomspace(expected.low / _BELOW, expected.high * _ABOVE, count)


def designed(bed: Bed, celsius: Sequence[float], expected: Expected, count: int) -> tuple[Setting, ...]:
    """Return the settings of `count` coupons: dose after dose the temperatures in turn, the least dose first.

    Taking the temperatures in turn keeps time and temperature apart: were the dose a wrong account of the two, the
    scores of one temperature would lie above those of another. Times are rounded to what a person can keep: 5 s, from
    3 minutes on 15 s. A dose that takes one temperature longer than a quarter of an hour is left to a hotter one.
    """
    courses = courses_of(bed, celsius)
    found: list[Setting] = []
    for at, minutes in enumerate(spread_doses(expected, count)):
        turn = [courses[(at + step) % len(courses)] for step in range(len(courses))]
        kept = [one for each in turn if (one := _kept(each, float(minutes)))]
        soon = next((one for one in kept if one[1] <= _SOON_S), None)
        soonest = min(kept, key=lambda one: one[1]) if kept else _nearest(courses, float(minutes))
        found.append(soon or soonest)
    return _apart(found)


def heats_for_strip(bed: Bed, celsius: float, expected: Expected, count: int) -> tuple[Setting, ...]:
    """Return the heats of a strip round one blank: their sums from the last backwards are the spread doses.

    The last part put on gets the last heat alone, so that one is the shortest that matters.
    """
    only = course(bed, celsius, LONGEST_S)
    doses = spread_doses(expected, count)
    added = np.diff(np.concatenate([[0.0], doses]))
    heats = [(celsius, rounded(min(max(only.seconds_for(float(one)), SHORTEST_S), LONGEST_S))) for one in added]
    return tuple(reversed(heats))


def courses_of(bed: Bed, celsius: Sequence[float]) -> list[Course]:
    """Return the course of the dose at each temperature, the coolest first."""
    return [course(bed, one, LONGEST_S) for one in sorted(set(celsius))]


def _kept(one: Course, minutes: float) -> Setting | None:
    seconds = one.seconds_for(minutes)
    if not SHORTEST_S <= seconds <= LONGEST_S:
        return None
    return (one.celsius, rounded(seconds))


def _nearest(courses: Sequence[Course], minutes: float) -> Setting:
    """Return the setting nearest to a dose that none of the temperatures gives."""
    too_little = all(one.minutes[1, -1] < minutes for one in courses)
    return (courses[-1].celsius, LONGEST_S) if too_little else (courses[0].celsius, SHORTEST_S)


def rounded(seconds: float) -> float:
    """Return a dwell that a person can keep: whole 5 s, from 3 minutes on 15 s."""
    step = 5.0 if seconds < 180.0 else 15.0
    return max(SHORTEST_S, round(seconds / step) * step)


def _apart(settings: Sequence[Setting]) -> tuple[Setting, ...]:
    """Return the settings without any that stands twice."""
    return tuple(dict.fromkeys(settings))


@lru_cache(maxsize=16)
def fewest(
    expected: Expected, within: float = WITHIN, sure: float = SURE, *, most: int = MOST
) -> tuple[Weighed, tuple[Weighed, ...]]:
    """Return the plan with the fewest coupons that is as good as wanted, and all that were weighed.

    Windows that could be true are drawn round what is expected (fixed numbers: the same wish gives the same plan),
    each coupon is scored as the model says, and each set of scores is fitted as a person's will be. Where even the
    most coupons fall short, the most are returned.

    Args:
        expected: where the window is looked for.
        within: ratio of the ends of each bound's interval that is wanted.
        sure: in what share of the windows.
        most: how many there may be.
    """
    rows: dict[int, Weighed] = {}

    def enough(count: int) -> bool:
        if count not in rows:
            rows[count] = weigh(np.log10(spread_doses(expected, count)), expected, within)
        return rows[count].sure >= sure

    # Halving: what is returned does, and one coupon fewer was weighed and does not.
    low, high = FEWEST - 1, most
    if not enough(most):
        return rows[most], (rows[most],)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return rows[high], tuple(rows[count] for count in sorted(rows))


def weigh(x: Array, expected: Expected, within: float) -> Weighed:
    """Return how well coupons with these doses (log10 of minutes) tell windows that could be true."""
    rng = np.random.default_rng(_SEED + x.size)
    over = coarse()
    truth = possible_windows(expected, rng, _WORLDS)
    bounds, seen = [], []
    for at in range(3):
        scores = drawn_scores(x, truth[:, at], truth[:, 3:], rng, rising=at == 0)
        bounds.append(_posterior(x, scores, over, rising=at == 0))
        seen.append(np.stack([(scores < GOOD).any(axis=1), (scores >= GOOD).any(axis=1)], axis=1))
    return judged(int(x.size), np.stack(bounds, axis=1), bracketed(np.stack(seen, axis=1)), within)


def judged(pieces: int, bounds: Array, told: tuple[Flags, Flags], within: float) -> Weighed:
    """Return how well each world's bounds are known.

    Args:
        pieces: how many were heated.
        bounds: chances of the places of the bounds of density, sharpness, yellowing, shape (w, 3, m).
        told: whether the lower and the upper bound are bracketed, each of shape (w,).
        within: the wanted ratio.
    """
    low, high = _widths(bounds, told)
    good = float(np.mean((low <= within) & (high <= within)))
    return Weighed(pieces, float(np.median(low)), float(np.median(high)), good)


def still_open(bounds: Array, told: tuple[Flags, Flags], within: float) -> tuple[Flags, Flags]:
    """Return whether the lower and the upper bound are not yet known as wanted; both, where both are."""
    low, high = (one > within for one in _widths(bounds, told))
    done = ~(low | high)
    return low | done, high | done


def _widths(bounds: Array, told: tuple[Flags, Flags]) -> tuple[Array, Array]:
    """Return the ratio of the ends of both bounds' intervals, infinite where a bound is not bracketed."""
    beyond = np.prod(1.0 - np.cumsum(np.pad(bounds[:, 1:], ((0, 0), (0, 0), (1, 0))), axis=2), axis=1)
    upper = np.maximum(-np.diff(beyond, axis=1), 0.0)
    low, high = _ratios(bounds[:, 0]), _ratios(upper)
    return np.where(told[0], low, np.inf), np.where(told[1], high, np.inf)


def bracketed(seen: Flags) -> tuple[Flags, Flags]:
    """Return whether the lower and the upper bound have scores on both sides; `seen` is of shape (w, 3, 2)."""
    both: Flags = np.asarray(seen.all(axis=2))
    return both[:, 0], both[:, 1] | both[:, 2]


def possible_windows(expected: Expected, rng: np.random.Generator, worlds: int) -> Array:
    """Return worlds as rows: bounds of density, sharpness, yellowing, then gap and scatter; log10, but the last two."""
    low, high = math.log10(expected.low), math.log10(expected.high)
    starts = rng.uniform(low - 0.25, low + 0.25, worlds)
    ends = np.maximum(rng.uniform(high - 0.15, high + 0.35, worlds), starts + 0.15)
    yellow = ends + rng.uniform(-0.1, 0.4, worlds)
    gaps, sigmas = 10.0 ** rng.uniform(-1.2, -0.6, worlds), 10.0 ** rng.uniform(-1.3, -0.8, worlds)
    return np.stack([starts, ends, yellow, gaps, sigmas], axis=1)


def drawn_scores(
    x: Array, bounds: Array, more: Array, rng: np.random.Generator, *, rising: bool
) -> NDArray[np.intp]:  # fmt: skip
    """Return scores as each world gives them, (w, n): `x` (n,) or (w, n), `bounds` (w,), gap and scatter (w, 2)."""
    away = (x - bounds[:, None]) * (1.0 if rising else -1.0)
    z = away + more[:, 1:] * rng.standard_normal(away.shape)
    return (GOOD + np.clip(np.floor(z / more[:, :1]), 1 - GOOD, 1)).astype(np.intp)


def _posterior(x: Array, scores: NDArray[np.intp], over: Grid, *, rising: bool) -> Array:
    """Return for each world the chances of the bound's places."""
    worlds = len(scores)
    table = np.log(score_chances(x, over, rising=rising)).reshape(x.size * BEST, -1)
    one_hot = (scores[:, :, None] == np.arange(1, BEST + 1)).reshape(worlds, -1).astype(float)
    log_like = one_hot @ table
    raw = np.exp(log_like - log_like.max(axis=1, keepdims=True))
    bound = raw.reshape(worlds, over.places.size, -1).sum(axis=2)
    return np.asarray(bound / bound.sum(axis=1, keepdims=True))


def _ratios(chances: Array) -> Array:
    """Return for each world the ratio of the ends of the interval."""
    tails = ((1.0 - SHARE) / 2.0, (1.0 + SHARE) / 2.0)
    ends = np.array([quantiles(coarse().places, one, tails) for one in chances])
    return np.asarray(10.0 ** (ends[:, 1] - ends[:, 0]))
