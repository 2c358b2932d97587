"""Equivalent minutes: how long at the reference temperature would have done the same."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.press.dose.rates import EA_KJ, GAS, ZERO_C, rate
from wrapwright.core.press.values import REFERENCE_C

Floats = NDArray[np.float64]


def equivalent_minutes(
    times_s: ArrayLike,
    temps_c: ArrayLike,
    ea_kj: ArrayLike = EA_KJ,
    reference_c: float = REFERENCE_C,
    *,
    from_c: float | None = None,
) -> Floats:
    """Return the minutes at the reference that do the same as the whole curve: (k,), or a scalar array for one curve.

    The integral of the rate of Arrhenius over time, by trapezoids; see `cumulative_minutes`.
    """
    every = cumulative_minutes(times_s, temps_c, ea_kj, reference_c, from_c=from_c)
    return np.asarray(every[..., -1])


def cumulative_minutes(
    times_s: ArrayLike,
    temps_c: ArrayLike,
    ea_kj: ArrayLike = EA_KJ,
    reference_c: float = REFERENCE_C,
    *,
    from_c: float | None = None,
) -> Floats:
    """Return the equivalent minutes up to every moment, of the shape of the temperatures: (m,) or (k, m).

    Trapezoids: with curves of a wall's warming, steps up to a tenth of its time constant cost less than 0.01 %.

    Args:
        times_s: (m,), growing.
        temps_c: (m,) or (k, m).
        ea_kj: activation energy, one or (k,).
        reference_c: where a minute counts as one.
        from_c: what is cooler counts nothing; None: everything counts.

    Raises:
        WrapwrightError: unusable: times that do not grow, figures missing, an activation energy not over 0.
    """
    times, temps = np.asarray(times_s, dtype=np.float64), np.asarray(temps_c, dtype=np.float64)
    energy = np.asarray(ea_kj, dtype=np.float64)
    _refuse(times, temps, energy)
    fast = rate(temps, energy[..., None] if energy.ndim else energy, reference_c)
    if from_c is not None:
        fast = np.where(temps < from_c, 0.0, fast)
    gained = (fast[..., 1:] + fast[..., :-1]) * (np.diff(times) / 120.0)
    total = np.zeros_like(fast)
    np.cumsum(gained, axis=-1, out=total[..., 1:])
    return total


def ramp_minutes(
    start_c: float, end_c: float, seconds: float, ea_kj: float = EA_KJ, reference_c: float = REFERENCE_C
) -> float:
    """Return the equivalent minutes of a steady ramp, exactly.

    The integral of exp(-a/T) dT is T exp(-x) - a E1(x), x = a/T, a = Ea/R (Abramowitz and Stegun, 5.1).

    Raises:
        WrapwrightError: unusable: a time that is not over 0.
    """
    from scipy.special import exp1

    if not (math.isfinite(seconds) and seconds > 0):
        raise unusable(f"a ramp of {seconds:g} s cannot be: give more than 0 s.")
    if start_c == end_c:
        return seconds / 60.0 * float(rate(start_c, ea_kj, reference_c))
    steep = ea_kj * 1000.0 / GAS
    scale = math.exp(steep / (reference_c + ZERO_C))

    def below(celsius: float) -> float:
        kelvin = celsius + ZERO_C
        x = steep / kelvin
        return kelvin * math.exp(-x) - steep * float(exp1(x))

    return scale * (below(end_c) - below(start_c)) / (end_c - start_c) * seconds / 60.0


def mean_kinetic_c(temps_c: ArrayLike, weights: ArrayLike | None = None, ea_kj: float = EA_KJ) -> float:
    """Return the one temperature that would have done the same in the same time, degrees C.

    -(Ea/R) / ln(mean of exp(-Ea/RT)): the mean kinetic temperature (USP <1160>). It lies between mean and maximum.

    Args:
        temps_c: temperatures.
        weights: how long each stood; None: all alike.
        ea_kj: activation energy, kJ/mol.

    Raises:
        WrapwrightError: unusable: no temperature, or one that cannot be.
    """
    temps = np.asarray(temps_c, dtype=np.float64)
    if not temps.size or not bool(np.all(np.isfinite(temps) & (temps > -ZERO_C))):
        raise unusable("a mean kinetic temperature needs at least one temperature, all above -273.15 degrees C.")
    hottest = float(temps.max())
    share = np.average(rate(temps, ea_kj, hottest), weights=None if weights is None else np.asarray(weights))
    return 1.0 / (1.0 / (hottest + ZERO_C) - math.log(float(share)) * GAS / (ea_kj * 1000.0)) - ZERO_C


def _refuse(times: Floats, temps: Floats, energy: Floats) -> None:
    if times.ndim != 1 or len(times) < 2 or temps.shape[-1] != len(times):
        raise unusable("a dose needs at least two moments, and a temperature at each.")
    if not bool(np.all(np.diff(times) > 0)):
        raise unusable("the times of a dose must grow from each moment to the next.")
    if not bool(np.all(np.isfinite(temps))) or float(temps.min()) <= -ZERO_C:
        raise unusable("every moment of a dose needs a temperature above -273.15 degrees C.")
    if not bool(np.all(np.isfinite(energy) & (energy > 0))):
        raise unusable("an activation energy must be over 0 kJ/mol; 80 to 170 is usual.")
