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
    from wrapwright.outside.store.rows.press.heats import HeatKept


def found_of(kept: HeatKept, now: datetime, bench: Bench) -> dict[str, Any]:
    """Return what happened: times, door, readings and dose beside what was planned; causes found before stay."""
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
        "off_k": found.off_k,
        "planned_dose": None if plan.plan.dose is None else asdict(plan.plan.dose),
    }
