"""The live dose of a stored heat, reckoned once for each thing that happens."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import HeatState
from wrapwright.core.press.values import Dose
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.run.keeping import Planned

if TYPE_CHECKING:
    from datetime import datetime

    from wrapwright.core.press.run.live import Track
    from wrapwright.outside.store.rows.press.heats import HeatKept


@dataclass(frozen=True, eq=False)
class Dosed:
    """A heat's state with what it did.

    Attributes:
        state: now.
        track: its dose over time; None where it cannot be reckoned.
        words: what is said of readings.
        dose: so far.
        air_c, coating_c: now.
        warm_s: when the coating comes to its temperature.
        by: what tells the dose: "model" or "log".
        off_k: what a thermometer read more than the heater was thought to hold; None where none told.
    """

    state: HeatState
    track: Track | None
    words: tuple[str, ...] = ()
    dose: Dose | None = None
    air_c: float | None = None
    coating_c: float | None = None
    warm_s: float | None = None
    off_k: float | None = None
    by: str = "model"


def dosed(kept: HeatKept, plan: Planned, now: datetime, bench: Bench) -> Dosed:
    """Return a heat's state now, with its dose where heater and load are known."""
    state = state_of(plan.plan, kept.events, now)
    if state.phase == "ended" and kept.state == "ended":
        kept_dose = kept.found.get("dose")
        return Dosed(state, None, dose=Dose(**kept_dose) if kept_dose else None, warm_s=kept.found.get("warm_s"))
    if plan.load is None or state.loaded is None:
        return Dosed(state, None, warm_s=plan.plan.warm_s)
    try:
        track, words, held = _track(plan, state, bench)
        track, by, said = _logged(track, plan, state, bench)
        words = (*words, *said)
    except WrapwrightError as problem:
        return Dosed(state, None, (f"The dose cannot be reckoned: {problem.message}",), warm_s=plan.plan.warm_s)
    warm = track.warm_s(held)
    state = state_of(plan.plan, kept.events, now, warm_s=math.inf if warm is None else warm)
    air, coating = track.celsius_at(state.in_s)
    inside = state.out is None and state.phase != "ended"
    return Dosed(
        state,
        track,
        words,
        track.dose_at(state.in_s),
        air if inside else None,
        coating if inside else None,
        warm,
        off if (off := held - plan.plan.set_c - plan.heater.offset_k) else None,
        by,
    )


def _logged(track: Track, plan: Planned, state: HeatState, bench: Bench) -> tuple[Track, str, tuple[str, ...]]:
    """Return the track by the heat's log where it has one that tells, and what tells it."""
    from wrapwright.core.press.run.live import AHEAD_S
    from wrapwright.core.press.run.logged import log_words, logged_track
    from wrapwright.jobs.press.run.live.logs import rows_of

    if not plan.log or plan.load is None:
        return track, "model", ()
    rows, problem = rows_of(plan.log, state, bench)
    if problem:
        return track, "model", (problem,)
    found = logged_track(plan.heater, plan.load, rows, max(state.dwell_s, state.in_s) + AHEAD_S)
    return (
        (track, "model", log_words(rows, state.in_s)) if found is None else (found, "log", log_words(rows, state.in_s))
    )


def _track(plan: Planned, state: HeatState, bench: Bench) -> tuple[Track, tuple[str, ...], float]:
    """Return the track with the door and the readings as they were, and what the heater is thought to hold.

    An open door is reckoned as open up to now, in steps of 5 s, so that it is not reckoned anew for each look.
    """
    from dataclasses import replace

    from wrapwright.core.press.run.live import AHEAD_S, as_measured, track_of, with_openings

    assert plan.load is not None
    openings = state.openings
    if state.door_open and openings:
        last = openings[-1]
        openings = (*openings[:-1], replace(last, for_s=math.ceil(last.for_s / 5.0) * 5.0))
    ahead = math.ceil((max(state.dwell_s, state.in_s) + AHEAD_S) / 300.0) * 300.0
    load = with_openings(plan.load, openings)
    key = ("track", plan.heater, load, ahead, state.readings)

    def made() -> tuple[Track, tuple[str, ...], float]:
        track = track_of(plan.heater, load, ahead)
        heater, words = as_measured(plan.heater, load, state.readings, track)
        if heater != plan.heater:
            track = track_of(heater, load, ahead)
        return track, words, load.set_c + heater.offset_k

    found: tuple[Track, tuple[str, ...], float] = bench.recent.heats.get(key, made)
    return found
