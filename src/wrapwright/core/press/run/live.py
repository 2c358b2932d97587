"""The dose of a heat while it runs: the warm-up reckoned with what has happened to the door and what was measured.

What a hot wall goes on doing once it is out is not counted: neither here, nor in what is planned, nor in a window.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wrapwright.core.base.heat_words import celsius_words, seconds_words, step_words
from wrapwright.core.press.run.values import HeatPlan, HeatState, Reading
from wrapwright.core.press.values import Dose, Heater, Load, Opening

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

NEAR_K = 5.0  # a coating is at its temperature when it is within so much of what the heater holds
AHEAD_S = 600.0  # how far beyond the dwell is looked for a dose that is still missing
_THERMOMETER_K = 3.0  # what a cheap oven thermometer may be off besides the thermostat's swing; common practice
_SETTLED_K = 8.0  # a reading tells of the heater once it is back this near to what it holds
INSIDE = 0.9
_STEP_S = 5.0  # offers are whole steps
_LEAST_OFFER_S = 5.0


@dataclass(frozen=True, eq=False)
class Track:
    """A heat's dose over time: equivalent minutes, middle and band, and temperatures; all (m,)."""

    times_s: Floats
    low: Floats
    mid: Floats
    high: Floats
    coating_c: Floats
    air_c: Floats

    def dose_at(self, seconds: float) -> Dose:
        """Return the dose after so many seconds."""
        low, mid, high = (self._at(seconds, row) for row in (self.low, self.mid, self.high))
        return Dose(min(low, mid), mid, max(high, mid))

    def celsius_at(self, seconds: float) -> tuple[float, float]:
        """Return the temperatures of air and coating after so many seconds."""
        return self._at(seconds, self.air_c), self._at(seconds, self.coating_c)

    def reaches(self, dose: float) -> float | None:
        """Return when the middle case reaches a dose, None where it does not within the track."""
        import numpy as np

        if self.mid[-1] < dose:
            return None
        return float(np.interp(dose, self.mid, self.times_s))

    def warm_s(self, held_c: float) -> float | None:
        """Return when the coating is within NEAR_K of what the heater holds; None where never within the track."""
        there = self.coating_c >= held_c - NEAR_K
        return float(self.times_s[int(there.argmax())]) if bool(there.any()) else None

    def _at(self, seconds: float, row: Floats) -> float:
        import numpy as np

        return float(np.interp(seconds, self.times_s, row))


def track_of(heater: Heater, load: Load, until_s: float) -> Track:
    """Return the track of a load with its openings; step 1 s, beyond 20 min 2 s."""
    import numpy as np

    from wrapwright.core.press.dose.dose import cumulative_minutes
    from wrapwright.core.press.dose.doubt import doubts
    from wrapwright.core.press.heat.warming import warm_up

    what = doubts(heater, load)
    until = max(10.0, math.ceil(until_s))
    warming = warm_up(heater, load, until_s=until, step_s=1.0 if until <= 1200.0 else 2.0, cases=what.cases)
    minutes = cumulative_minutes(warming.times_s, warming.coating_c, what.ea_kj)
    low, high = np.quantile(minutes[what.apart :], ((1 - INSIDE) / 2, (1 + INSIDE) / 2), axis=0)
    return Track(warming.times_s, low, minutes[0], high, warming.coating_c[0], warming.air_c[0])


def with_openings(load: Load, openings: Sequence[Opening]) -> Load:
    """Return the load with the door as it was really opened, to whole seconds; the loading itself is not one."""
    told = tuple(Opening(float(round(one.at_s)), max(1.0, float(round(one.for_s)))) for one in openings)
    return replace(load, openings=told)


def as_measured(
    heater: Heater, load: Load, readings: Sequence[Reading], track: Track
) -> tuple[Heater, tuple[str, ...]]:
    """Return the heater as a thermometer found it, and a sentence for each reading.

    The readings' mean takes the place of what the heater was thought to hold, with a doubt of half the thermostat's
    swing and 3 K of the thermometer (common practice, no source). A reading while the heater is still recovering from
    an opened door tells nothing of that and is only noted.
    """
    held = load.set_c + heater.offset_k
    settled, said = [], []
    for one in readings:
        if one.at_s >= 0.0 and abs(track.celsius_at(one.at_s)[0] - held) > _SETTLED_K:
            read = celsius_words(round(one.celsius))
            said.append(f"The reading of {read} came while the heater was recovering: it is only noted.")
            continue
        settled.append(one.celsius)
    if not settled:
        return heater, tuple(said)
    offset = sum(settled) / len(settled) - load.set_c
    half = min(heater.offset_half_k, heater.band_k / 2.0 + _THERMOMETER_K)
    way = "hotter" if offset > heater.offset_k else "cooler"
    off = abs(offset - heater.offset_k)
    if off >= 1.0:
        said.append(
            f"The thermometer says {step_words(round(off))} {way} than was reckoned with; the dose is reckoned anew."
        )
    return replace(heater, offset_k=offset, offset_half_k=half), tuple(said)


@dataclass(frozen=True)
class Offer:
    """Seconds that the dwell wants more, and why; negative: so many fewer do."""

    seconds: float
    words: str


def offer_of(plan: HeatPlan, state: HeatState, track: Track, *, logged: bool = False) -> Offer | None:
    """Return how much longer the planned dose takes now, None where the dwell as it stands gives it.

    Only where something has happened that changes it: the door, a reading of a thermometer or, once the coating is at
    its temperature, what a logger reads. Rounded up to 5 s. Past the end only while that much is still missing and
    the door is shut: an open one means that they are being taken out.
    """
    why = _why(plan, state, logged=logged)
    if plan.dose is None or state.phase not in ("dwell", "unload") or not why:
        return None
    needed = track.reaches(plan.dose.mid)
    if needed is None or needed <= state.in_s:
        return None
    late = state.phase == "unload"
    if late and (state.door_open or needed - state.in_s < _LEAST_OFFER_S):
        return None
    more = needed - state.dwell_s
    if more >= _LEAST_OFFER_S:
        seconds = math.ceil(more / _STEP_S - 1e-9) * _STEP_S
        left = seconds_words(state.dwell_s + seconds - state.in_s)
        act = f"Leave them in for {left} more" if late else f"Add {seconds_words(seconds)}"
        return Offer(seconds, f"{act}: {why}, and the planned dose takes that much longer.")
    if more <= -2 * _STEP_S:
        early = math.floor(-more / _STEP_S) * _STEP_S
        return Offer(-early, f"The planned dose is reached {seconds_words(early)} before the end: {why}.")
    return None


def _why(plan: HeatPlan, state: HeatState, *, logged: bool) -> str:
    """Return what has changed the heat, "" for nothing."""
    opened = sum(one.for_s for one in state.openings)
    what = "door" if plan.heater_kind == "oven" else "press"
    door = f"the {what} stood open for {seconds_words(opened)}" if opened >= 1.0 else ""
    read = "the thermometer says otherwise than planned" if state.readings else ""
    log = "the logger reads otherwise than planned" if logged and state.soak else ""
    return " and ".join(one for one in (door, read, log) if one)
