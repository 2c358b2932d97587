"""What is kept of a heat that is over: its times, its dose, what happened to the door, what was planned."""

from __future__ import annotations

from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.run.keeping import planned
from wrapwright.jobs.press.run.live.dosing import dosed
from wrapwright.jobs.press.run.live.moments import said

if TYPE_CHECKING:
    from wrapwright.core.press.run.live import Track
    from wrapwright.outside.store.rows.press.heats import HeatKept

POINTS = 60


def found_of(kept: HeatKept, now: datetime, bench: Bench) -> dict[str, Any]:
    """Return what happened: times, door, readings, dose and curve beside what was planned; causes found before stay."""
    plan = planned(kept)
    found = dosed(kept, plan, now, bench)
    state = found.state
    return {
        **kept.found,
        "planned_s": plan.plan.dwell_s,
        "dwell_s": state.dwell_s,
        "in_s": round(state.in_s, 3),
        "early_s": round(state.early_s, 3),
        "late_s": round(state.late_s, 3),
        "stopped": state.stopped,
        "loaded": None if state.loaded is None else said(state.loaded),
        "out": None if state.out is None else said(state.out),
        "openings": [[round(one.at_s, 3), round(one.for_s, 3)] for one in state.openings],
        "readings": [[round(one.at_s, 3), one.celsius] for one in state.readings],
        "dose": None if found.dose is None else {key: round(one, 4) for key, one in asdict(found.dose).items()},
        "warm_s": found.warm_s,
        "by": found.by,
        "curve": [] if found.track is None else _curve(found.track, state.in_s),
        "off_k": found.off_k,
        "planned_dose": None if plan.plan.dose is None else asdict(plan.plan.dose),
    }


def _curve(track: Track, in_s: float) -> list[list[float]]:
    """Return the heat's course at 61 moments from first to last: seconds, air, coating, equivalent minutes."""
    moments = [in_s * part / POINTS for part in range(POINTS + 1)]
    return [
        [round(at, 1), *(round(one, 1) for one in track.celsius_at(at)), round(track.dose_at(at).mid, 3)]
        for at in moments
    ]
