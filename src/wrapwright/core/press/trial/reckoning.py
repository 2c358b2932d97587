"""The dose of each coupon: what heater and wall make of its temperature and time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.values import Coupon, Kind
from wrapwright.core.press.values import ROOM_C, Cover, Dose, Heater, Load, Wall

Array = NDArray[np.float64]
Setting = tuple[float, float]  # degrees C that are set, seconds

_STEP_S = 2.0
_READ_S = 5.0  # half-width of when a piece really comes out: common practice, no source
_NORMAL_90 = 3.289707  # standard deviations of a normal distribution that nine of ten cases span


@dataclass(frozen=True)
class Bed:
    """Where coupons are heated, one at a time.

    Attributes:
        heater: oven or press.
        wall: of a coupon: its own, not the piece's that the window is wanted for.
        covers: over it.
        room_c: where it starts.
        preheated: whether the heater is at temperature when it goes in.
    """

    heater: Heater
    wall: Wall
    covers: tuple[Cover, ...] = ()
    room_c: float = ROOM_C
    preheated: bool = True

    def load(self, celsius: float) -> Load:
        """Return the load of one coupon at a set temperature."""
        return Load(self.wall, 1, self.covers, celsius, self.room_c, self.preheated)


@dataclass(frozen=True, eq=False)
class Course:
    """How the dose of one coupon grows at one set temperature.

    Attributes:
        celsius: what is set.
        times_s: (m,).
        minutes: (3, m): with the least, the middle and the highest activation energy.
    """

    celsius: float
    times_s: Array
    minutes: Array

    def at(self, seconds: float, energy: int = 1) -> float:
        """Return the minutes after `seconds`."""
        return float(np.interp(seconds, self.times_s, self.minutes[energy]))

    def seconds_for(self, minutes: float) -> float:
        """Return how long it takes to that dose; infinite when it is not reached in the course's time."""
        if minutes > self.minutes[1, -1]:
            return math.inf
        return float(np.interp(minutes, self.minutes[1], self.times_s))


@lru_cache(maxsize=64)  # every score asks for the same few again
def course(bed: Bed, celsius: float, until_s: float) -> Course:
    """Return how the dose grows up to `until_s`, everything else in the middle of what it may be."""
    from wrapwright.core.press.dose.dose import cumulative_minutes
    from wrapwright.core.press.dose.rates import EA_HIGH, EA_KJ, EA_LOW
    from wrapwright.core.press.heat.warming import warm_up

    warming = warm_up(bed.heater, bed.load(celsius), until_s=until_s, step_s=_STEP_S)
    energies = np.array([EA_LOW, EA_KJ, EA_HIGH])
    temps = np.repeat(warming.coating_c[:1], energies.size, axis=0)
    return Course(celsius, warming.times_s, cumulative_minutes(warming.times_s, temps, energies))


def reckoned(bed: Bed, settings: Sequence[Setting], kind: Kind = "coupons") -> tuple[Coupon, ...]:
    """Return the coupons of these settings, numbered in their order, each with its dose and band.

    On a strip each setting is one heat of the same blank, and part n is put on before heat n and stays on: its
    transfer gets that heat and all later ones, its coating got all of them. Between heats the blank cools to the room.
    All positions of one heat get the same dose, as far as can be reckoned: what differs between them is the heater's.
    """
    doses = _doses(bed, settings)
    spreads = _spreads(bed, settings)
    if kind == "strip":
        later = [_sum(doses[at:]) for at in range(len(doses))]
        weights = [np.array([one.mid for one in doses[at:]]) for at in range(len(doses))]
        spread = [float(weights[at] @ np.array(spreads[at:])) / float(weights[at].sum()) for at in range(len(doses))]
        return _coupons(settings, later, spread, bare=_sum(doses).mid)
    return _coupons(settings, doses, spreads)


def _coupons(
    settings: Sequence[Setting], doses: Sequence[Dose], spreads: Sequence[float], bare: float | None = None
) -> tuple[Coupon, ...]:  # fmt: skip
    """Return the coupons; of their spreads only what differs between them is their own."""
    middle = float(np.mean(spreads)) if spreads else 0.0
    plain = [
        Coupon(number, celsius, seconds, dose, 0.0, bare)
        for number, ((celsius, seconds), dose) in enumerate(zip(settings, doses, strict=True), start=1)
    ]
    return tuple(
        replace(one, doubt=math.hypot((spread - middle) / _NORMAL_90, _reading(one.seconds)))
        for one, spread in zip(plain, spreads, strict=True)
    )


def _reading(seconds: float) -> float:
    """Return what a few seconds sooner or later do to the logarithm of the dose, as a standard deviation."""
    return _READ_S / seconds / math.log(10.0) / math.sqrt(3.0)


def _doses(bed: Bed, settings: Sequence[Setting]) -> list[Dose]:
    """Return the dose of each setting with its band; each temperature is reckoned once."""
    from wrapwright.core.press.dose.band import dose_bands

    found: dict[Setting, Dose] = {}
    for celsius in sorted({one[0] for one in settings}):
        dwells = sorted({seconds for at, seconds in settings if at == celsius})
        bands = dose_bands(bed.heater, bed.load(celsius), dwells, step_s=_STEP_S)
        found |= {(celsius, dwell): band.dose for dwell, band in zip(dwells, bands, strict=True)}
    return [found[one] for one in settings]


def _spreads(bed: Bed, settings: Sequence[Setting]) -> list[float]:
    """Return how far apart the least and the highest activation energy put each dose, in decades, signed."""
    longest = {
        celsius: max(seconds for at, seconds in settings if at == celsius) for celsius in {one[0] for one in settings}
    }
    courses = {celsius: course(bed, celsius, until) for celsius, until in longest.items()}
    return [
        math.log10(max(courses[celsius].at(seconds, 2), 1e-9) / max(courses[celsius].at(seconds, 0), 1e-9))
        for celsius, seconds in settings
    ]


def _sum(doses: Sequence[Dose]) -> Dose:
    return Dose(sum(one.low for one in doses), sum(one.mid for one in doses), sum(one.high for one in doses))
