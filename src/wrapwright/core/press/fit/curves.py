"""Closed forms of a lumped wall in a first-order oven, and of a lumped wall in air as it was measured.

Both follow from dT/dt = (air - T) / tau, the wall without conduction inside it.
"""

from __future__ import annotations

from itertools import accumulate

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def approach(times: Floats, level: float, start: float, tau: float) -> Floats:
    """Return what nears a level exponentially, in degrees C; times in s from where it has `start`."""
    return level + (start - level) * np.exp(-times / tau)


def wall_in_approach(times: Floats, air: tuple[float, float, float], start: float, tau: float) -> Floats:
    """Return the temperature of a wall in air that nears a level; `air` is its level, start and time constant.

    The solution of tau T' = level + (a0 - level) exp(-t/tau_air) - T, written so that equal time constants do no
    harm.
    """
    level, a0, tau_air = air
    own = np.exp(-times / tau)
    gap = times * (1.0 / tau_air - 1.0 / tau)
    driven = times / tau * own * _mean_exp(gap)
    return level + (start - level) * own + (a0 - level) * driven


def _mean_exp(x: Floats) -> Floats:
    """Return (1 - exp(-x)) / x, 1 at nought."""
    small = np.abs(x) < 1e-8
    safe = np.where(small, 1.0, x)
    made: Floats = np.where(small, 1.0 - x / 2.0, -np.expm1(-safe) / safe)
    return made


def held(times: Floats, rise: tuple[float, float, float], level: float) -> Floats:
    """Return air that rises at full power (towards `rise`: level, start, time constant) until it is held at a level."""
    return np.minimum(approach(times, *rise), max(level, rise[1]))


def held_from(rise: tuple[float, float, float], level: float) -> float:
    """Return when the rise reaches the level that is held, in s; infinite when it never does."""
    far, start, tau = rise
    if level <= start:
        return 0.0
    return float("inf") if far <= level else tau * float(np.log((far - start) / (far - level)))


def wall_in_held(times: Floats, rise: tuple[float, float, float], level: float, start: float, tau: float) -> Floats:
    """Return the temperature of a wall in air as `held` gives it."""
    since = held_from(rise, level)
    rising = wall_in_approach(times, rise, start, tau)
    if not np.isfinite(since) or since >= times[-1]:
        return rising
    there = float(wall_in_approach(np.array([since]), rise, start, tau)[0])
    after: Floats = np.where(times < since, rising, approach(np.maximum(times - since, 0.0), level, there, tau))
    return after


def wall_in_measured(times: Floats, air: Floats, start: float, tau: float) -> Floats:
    """Return the temperature of a wall in air that runs straight from one reading to the next: exact, row by row."""
    steps = np.diff(times) / tau
    left = np.exp(-steps)
    # Of a straight line from a to b the wall keeps: end = b - (b-a)/x + (start - a + (b-a)/x) exp(-x), x = step/tau.
    slope = np.diff(air) / np.where(steps > 0, steps, 1.0)
    driven = np.where(steps > 0, air[1:] - slope - (air[:-1] - slope) * left, 0.0)
    rows = zip(left.tolist(), driven.tolist(), strict=True)
    walked = accumulate(rows, lambda before, row: before * row[0] + row[1], initial=float(start))
    return np.fromiter(walked, dtype=np.float64, count=len(times))


def weighed_back(times: Floats, weights: Floats, tau: float) -> Floats:
    """Return how much each reading of the air moves the sum of weights x wall: the transpose of `wall_in_measured`."""
    steps = np.diff(times) / tau
    left = np.exp(-steps)
    share = np.where(steps > 1e-12, -np.expm1(-steps) / np.where(steps > 1e-12, steps, 1.0), 1.0)
    first, last = share - left, 1.0 - share  # of the reading before and after each step
    rows = zip(left[::-1].tolist(), weights[:0:-1].tolist(), strict=True)
    walked = accumulate(rows, lambda after, row: (after + row[1]) * row[0], initial=0.0)
    # What the wall at the end of each step is worth: its own weight, and through it all later ones.
    later = np.fromiter(walked, dtype=np.float64, count=len(times))[:-1][::-1]
    worth = weights[1:] + later
    moved = np.zeros(len(times))
    moved[:-1] += worth * first
    moved[1:] += worth * last
    return moved
