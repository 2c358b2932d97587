"""What a small change does to a load's dose: 5 degrees, a minute, a piece, an open door."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from wrapwright.core.press.load.course import course_of, course_to
from wrapwright.core.press.load.values import DOOR_S, MINUTE_S, STEP_K, Change, Shift
from wrapwright.core.press.values import Heater, Load, Opening


def sensitivity(heater: Heater, load: Load, dwell_s: float) -> tuple[Shift, ...]:
    """Return what each small change does to the dose of a dwell, in the middle case.

    Hotter and cooler by 5 K; longer and shorter by a minute (shorter only where the dwell is longer than that); in an
    oven a piece more (whether or not it holds one), a piece fewer (of two at least), and the door left open for 20 s
    in the middle of the dwell. A press takes one piece and has no door.
    """
    base = course_of(heater, load, dwell_s + MINUTE_S)
    dose = base.dose_at(dwell_s)
    found = []
    for change, other in _changed(heater, load, dwell_s):
        course = course_to(heater, other, dose, guess_s=dwell_s + MINUTE_S)
        then = course.dose_at(dwell_s)
        found.append(Shift(change, then, then / dose, course.reaches(dose)))
    then = base.dose_at(dwell_s + MINUTE_S)
    found.append(Shift("longer", then, then / dose, dwell_s))
    if dwell_s > MINUTE_S:
        then = base.dose_at(dwell_s - MINUTE_S)
        found.append(Shift("shorter", then, then / dose, dwell_s))
    return tuple(found)


def _changed(heater: Heater, load: Load, dwell_s: float) -> Iterator[tuple[Change, Load]]:
    yield "hotter", replace(load, set_c=load.set_c + STEP_K)
    yield "cooler", replace(load, set_c=load.set_c - STEP_K)
    if heater.kind != "oven":
        return
    yield "more", replace(load, pieces=load.pieces + 1)
    if load.pieces > 1:
        yield "fewer", replace(load, pieces=load.pieces - 1)
    yield "door", replace(load, openings=(*load.openings, Opening(dwell_s / 2.0, DOOR_S)))
