"""What is reckoned of a load, in sentences that say that it is an estimate."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wrapwright.core.base.heat_words import celsius_words, step_words
from wrapwright.core.base.units import mm_words
from wrapwright.core.press.load.telling import (
    count_words,
    dwell_words,
    minutes_words,
    pieces_words,
    span_words,
)
from wrapwright.core.press.load.values import DOOR_S, STEP_K, Aim, Recommended, Shift
from wrapwright.core.press.trial.words import interval_words
from wrapwright.core.press.values import REFERENCE_C, UNCALIBRATED_K, Heater, Load, Wall, Window

ESTIMATE = "An estimate, a band and not a number: a test piece first, and the makers' instructions before it."
NOT_KNOWN = "not known yet"


def wall_words(wall: Wall) -> str:
    """Return a wall, for example `0.5 mm steel` or `outer shell of 0.5 mm steel`."""
    plain = f"{mm_words(wall.thickness_mm, digits=2)} {wall.material.name.replace('-', ' ')}"
    return f"outer shell of {plain}" if wall.double else plain


def load_words(load: Load) -> str:
    """Return a load, for example `4 pieces, wall 0.5 mm steel, at 200 °C (392 °F)`."""
    return f"{pieces_words(load.pieces)}, wall {wall_words(load.wall)}, at {celsius_words(load.set_c)}"


def recommended_words(heater: Heater, load: Load, found: Recommended) -> str:
    """Return how long a load wants, in one sentence."""
    if not math.isfinite(found.dwell_s.mid):
        return (
            f"{pieces_words(found.pieces)}: not within an hour; heat fewer together, or hotter where coating, sleeve "
            "and maker allow it."
        )
    closed = "the press" if heater.kind != "oven" else "the door"
    since = "" if load.preheated else " on a cold heater"
    return f"{pieces_words(found.pieces)}: {dwell_words(found.dwell_s)}, from closing {closed}{since}."


def warming_words(load: Load, found: Recommended) -> str:
    """Return what of a dwell is warming up, in one sentence."""
    if not math.isfinite(found.to_temperature_s):
        return "The coating does not come to temperature within that time: it only nears it."
    if found.to_temperature_s > found.dwell_s.mid:
        return (
            f"The coating is within {step_words(5.0)} of the heat only after {minutes_words(found.to_temperature_s)}: "
            "most of the dose is gathered on the way up."
        )
    return (
        f"Of that {minutes_words(found.to_temperature_s)} go by until the coating is within {step_words(5.0)} of "
        f"{celsius_words(load.set_c)}."
    )


def aim_words(aim: Aim, recipe: str) -> str:
    """Return what the dwell aims at, in one sentence."""
    if aim.source == "trials":
        return (
            f"Aimed at {count_words(aim.mid)} at {celsius_words(REFERENCE_C)}, between the bounds of your accepted "
            f"trials ({bounds_words(aim.window)})."
        )
    return (
        f"The dose of a sound transfer is {NOT_KNOWN} here, so this is the dwell that gives the same dose as the recipe"
        f' "{recipe}" gives one piece of its own wall: {count_words(aim.low)} to {count_words(aim.high)} at '
        f"{celsius_words(REFERENCE_C)}."
    )


def bounds_words(window: Window) -> str:
    """Return the bounds of the dose, each with `not known yet` where it is not."""
    low = NOT_KNOWN if window.low is None else interval_words(window.low)
    high = NOT_KNOWN if window.high is None else interval_words(window.high)
    return f"complete from: {low}; blurs or yellows from: {high}"


def range_words(found: Recommended, aim: Aim) -> str:
    """Return the aim's own range as dwells of this load, in one sentence."""
    low, high = found.range_s
    what = "the bounds" if aim.source == "trials" else "the recipe's own range"
    return f"In the middle case {what} would be {span_words(low, high)} here."


def doubt_words(heater: Heater, part: float | None = None) -> str:
    """Return how well the heater is known, in one sentence; `part` is its share of all doubt, 0 to 1."""
    half = f"± {step_words(heater.offset_half_k)}"
    if heater.offset_half_k >= UNCALIBRATED_K - 1e-9:
        makes = "" if part is None else f", {part * 100:.0f} % of all doubt here"
        return f"Nobody has checked this heater yet: it counts as {half}{makes}. Readings of a thermometer narrow it."
    if abs(heater.offset_k) < 0.5:
        return f"This heater holds what it is set to, {half}."
    side = "hotter" if heater.offset_k > 0 else "colder"
    return f"This heater runs {step_words(abs(heater.offset_k))} {side} than it is set, {half}; that is counted in."


_CHANGES = {
    "hotter": f"{step_words(STEP_K)} hotter",
    "cooler": f"{step_words(STEP_K)} cooler",
    "longer": "1 min longer",
    "shorter": "1 min shorter",
    "more": "1 piece more",
    "fewer": "1 piece fewer",
    "door": f"door left open for {DOOR_S:.0f} s",
}


def change_words(shift: Shift) -> str:
    """Return what is changed, for example `5 °C (9 °F) hotter`."""
    return _CHANGES[shift.change]


def effect_words(shift: Shift) -> str:
    """Return what a change does, for example `20 % more dose; the same dose after 5 min`."""
    percent = (shift.share - 1.0) * 100.0
    dose = (
        "hardly any change" if abs(percent) < 0.5 else f"{abs(percent):.0f} % {'more' if percent > 0 else 'less'} dose"
    )
    if shift.change in ("longer", "shorter"):
        return dose
    return f"{dose}; the same dose after {minutes_words(shift.dwell_s)}"


def sensitivity_words(shifts: Sequence[Shift]) -> tuple[str, ...]:
    """Return what each change does, a sentence each."""
    return tuple(f"{change_words(one)[:1].upper()}{change_words(one)[1:]}: {effect_words(one)}." for one in shifts)
