"""The dose of one heat with its band, its curves, and what each source of doubt adds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.dose.dose import cumulative_minutes
from wrapwright.core.press.dose.doubt import INSIDE, SOURCES, Doubts, Source, doubts
from wrapwright.core.press.heat.refusals import refuse_time
from wrapwright.core.press.heat.warming import Warming, warm_up
from wrapwright.core.press.values import Curve, Dose, Heater, Load

Floats = NDArray[np.float64]
MOMENTS = 450


@dataclass(frozen=True)
class Share:
    """What one source of doubt does on its own: the dose with it at its two bounds, everything else in the middle.

    Attributes:
        source: which.
        low, high: the lower and the higher dose, equivalent minutes.
        part: of the whole doubt, 0 to 1; the parts add up to 1.
    """

    source: Source
    low: float
    high: float
    part: float


@dataclass(frozen=True)
class DoseBand:
    """A heat as it may go: its dose, its curves, and where the doubt comes from, largest first."""

    dose: Dose
    coating: Curve
    air: Curve
    wall: Curve
    shares: tuple[Share, ...]


def dose_band(heater: Heater, load: Load, dwell_s: float, *, step_s: float | None = None) -> DoseBand:
    """Return what `dwell_s` does to this load, counted from when the pieces went in.

    Dose and curves are the middle case; their bands hold nine of ten cases of what is not known (`doubts`).

    Raises:
        WrapwrightError: unusable: figures that cannot be.
    """
    return dose_bands(heater, load, (dwell_s,), step_s=step_s)[0]


def dose_bands(
    heater: Heater, load: Load, dwells_s: Sequence[float], *, step_s: float | None = None
) -> tuple[DoseBand, ...]:
    """Return what each dwell does; the heat is reckoned once, up to the longest, each dwell read from it.

    Args:
        heater: what heats.
        load: what is heated.
        dwells_s: at least one.
        step_s: between two moments of the curves; None: 1 s, more where that makes over 450.

    Raises:
        WrapwrightError: unusable: figures that cannot be.
    """
    for dwell in dwells_s:
        refuse_time(dwell, 1.0)
    what, longest = doubts(heater, load), max(dwells_s)
    step = max(1.0, longest / MOMENTS) if step_s is None else step_s
    warming = warm_up(heater, load, until_s=longest, step_s=step, cases=what.cases)
    minutes = cumulative_minutes(warming.times_s, warming.coating_c, what.ea_kj)
    curves = tuple(_curve(warming, one, what.apart) for one in (warming.coating_c, warming.air_c, warming.wall_c))
    return tuple(_band(warming, minutes, what, curves, dwell) for dwell in dwells_s)


def _band(warming: Warming, minutes: Floats, what: Doubts, curves: tuple[Curve, ...], dwell_s: float) -> DoseBand:
    at = _at(warming.times_s, minutes, dwell_s)
    low, high = np.quantile(at[what.apart :], ((1 - INSIDE) / 2, (1 + INSIDE) / 2))
    mid = float(at[0])
    coating, air, wall = (_until(one, dwell_s) for one in curves)
    return DoseBand(Dose(min(float(low), mid), mid, max(float(high), mid)), coating, air, wall, _shares(at))


def _at(times_s: Floats, rows: Floats, moment_s: float) -> Floats:
    """Return every row at one moment, straight between two."""
    right = int(np.clip(np.searchsorted(times_s, moment_s), 1, len(times_s) - 1))
    share = (moment_s - times_s[right - 1]) / (times_s[right] - times_s[right - 1])
    found: Floats = rows[:, right - 1] * (1.0 - share) + rows[:, right] * share
    return found


def _shares(at: Floats) -> tuple[Share, ...]:
    found = []
    for number, source in enumerate(SOURCES):
        low, high = sorted((float(at[1 + 2 * number]), float(at[2 + 2 * number])))
        found.append((source, low, high, float(np.log(high / low) ** 2)))
    whole = sum(one[3] for one in found) or 1.0
    shares = [Share(source, low, high, square / whole) for source, low, high, square in found]
    return tuple(sorted(shares, key=lambda one: -one.part))


def _curve(warming: Warming, rows: Floats, apart: int) -> Curve:
    low, high = np.quantile(rows[apart:], ((1 - INSIDE) / 2, (1 + INSIDE) / 2), axis=0)
    mid = rows[0]
    return Curve(
        tuple(warming.times_s.tolist()),
        tuple(mid.tolist()),
        tuple(np.minimum(low, mid).tolist()),
        tuple(np.maximum(high, mid).tolist()),
    )


def _until(curve: Curve, dwell_s: float) -> Curve:
    count = int(np.searchsorted(np.asarray(curve.times_s), dwell_s * (1 + 1e-12), side="right"))
    if count == len(curve.times_s):
        return curve
    return Curve(curve.times_s[:count], curve.mid_c[:count], curve.low_c[:count], curve.high_c[:count])
