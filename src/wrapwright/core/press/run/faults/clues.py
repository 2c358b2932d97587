"""What of a run speaks for a cause or against it: each clue a factor on the cause's weight, with its sentence.

The factors are judgement (common practice, no source): 3 to 4 where a figure points at the cause, 0.3 or less where it
speaks against it. A clue that is not known is no clue.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from wrapwright.core.base.heat_words import celsius_words, seconds_words, step_words
from wrapwright.core.press.run.faults.evidence import Evidence
from wrapwright.core.press.values import REFERENCE_C, UNCALIBRATED_K


@dataclass(frozen=True)
class Clue:
    """A factor on a cause's weight, and why; `change`: what to change first in this case, "" for the cause's own."""

    factor: float
    words: str
    change: str = ""


Reader = Callable[[Evidence], Clue | None]
STRONG, CLEAR, SLIGHT = 4.0, 3.0, 2.0
AGAINST, HARDLY = 0.3, 0.1
_MISFIT_MM = 1.0  # of girth: from here on paper bulges or gapes visibly. Judgement
_OPEN_S = 15.0
_OFF_K = 3.0


def dose_low(run: Evidence) -> Clue | None:
    """Return what the dose says of too little heat."""
    if run.dose is None:
        return None
    low = run.window.low
    if low is not None:
        if run.dose.mid < low[0]:
            return Clue(STRONG, f"The dose, {_dose(run)}, lies below the lower bound of {low[0]:.1f} min.")
        if run.dose.mid < low[1]:
            return Clue(SLIGHT, f"The dose, {_dose(run)}, lies at the lower bound, {low[0]:.1f} to {low[1]:.1f} min.")
        return Clue(AGAINST, f"The dose, {_dose(run)}, lies above the lower bound of {low[1]:.1f} min.")
    if run.planned is not None and run.dose.mid < 0.85 * run.planned.mid:
        return Clue(CLEAR, f"The dose, {_dose(run)}, is less than the {run.planned.mid:.1f} min planned.")
    return None


def dose_high(run: Evidence) -> Clue | None:
    """Return what the dose says of too much heat."""
    if run.dose is None:
        return None
    high = run.window.high
    if high is not None:
        if run.dose.mid > high[1]:
            return Clue(STRONG, f"The dose, {_dose(run)}, lies above the upper bound of {high[1]:.1f} min.")
        if run.dose.mid > high[0]:
            return Clue(SLIGHT, f"The dose, {_dose(run)}, lies at the upper bound, {high[0]:.1f} to {high[1]:.1f} min.")
        return Clue(AGAINST, f"The dose, {_dose(run)}, lies below the upper bound of {high[0]:.1f} min.")
    if run.planned is not None and run.dose.mid > 1.15 * run.planned.mid:
        return Clue(CLEAR, f"The dose, {_dose(run)}, is more than the {run.planned.mid:.1f} min planned.")
    return None


def short(run: Evidence) -> Clue | None:
    """Return what the time says of too little heat."""
    if run.early_s >= 5.0:
        change = "Leave the next one in until its time is up; nothing else."
        return Clue(CLEAR, f"It was taken out {seconds_words(run.early_s)} early.", change)
    if run.seconds[1] and run.in_s < run.seconds[0]:
        return Clue(SLIGHT, f"It was in for {seconds_words(run.in_s)}; the recipe begins at {_time(run, 0)}.")
    if run.seconds[1] and run.in_s > run.seconds[1]:
        return Clue(AGAINST, f"It was in for {seconds_words(run.in_s)}; the recipe ends at {_time(run, 1)}.")
    return None


def long(run: Evidence) -> Clue | None:
    """Return what the time says of too much heat."""
    if run.late_s >= 10.0:
        change = "Take the next one out when its time is up; nothing else."
        return Clue(CLEAR, f"It was taken out {seconds_words(run.late_s)} late.", change)
    if run.seconds[1] and run.in_s > run.seconds[1]:
        return Clue(SLIGHT, f"It was in for {seconds_words(run.in_s)}; the recipe ends at {_time(run, 1)}.")
    if run.seconds[1] and run.in_s < run.seconds[0]:
        return Clue(AGAINST, f"It was in for {seconds_words(run.in_s)}; the recipe begins at {_time(run, 0)}.")
    return None


def set_low(run: Evidence) -> Clue | None:
    """Return what the setting says of too little heat."""
    if run.celsius[1] and run.set_c < run.celsius[0]:
        return Clue(
            SLIGHT, f"It was set to {celsius_words(run.set_c)}; the recipe begins at {celsius_words(run.celsius[0])}."
        )
    return None


def set_high(run: Evidence) -> Clue | None:
    """Return what the setting says of too much heat."""
    if run.celsius[1] and run.set_c > run.celsius[1]:
        return Clue(
            SLIGHT, f"It was set to {celsius_words(run.set_c)}; the recipe ends at {celsius_words(run.celsius[1])}."
        )
    return None


def cooler(run: Evidence) -> Clue | None:
    """Return what is known of a heater that is cooler than it says."""
    if run.off_k is not None:
        if run.off_k <= -_OFF_K:
            return Clue(STRONG, f"The thermometer read {step_words(round(-run.off_k))} less than was reckoned with.")
        return Clue(AGAINST, "The thermometer did not read less than was reckoned with.")
    return _looked_at(run)


def hotter(run: Evidence) -> Clue | None:
    """Return what is known of a heater that is hotter than it says."""
    if run.off_k is not None:
        if run.off_k >= _OFF_K:
            return Clue(STRONG, f"The thermometer read {step_words(round(run.off_k))} more than was reckoned with.")
        return Clue(AGAINST, "The thermometer did not read more than was reckoned with.")
    return _looked_at(run)


def _looked_at(run: Evidence) -> Clue:
    if run.calibrated:
        return Clue(AGAINST, "The heater was calibrated.")
    return Clue(SLIGHT, f"The heater was never calibrated: it may be {step_words(UNCALIBRATED_K)} off either way.")


def door(run: Evidence) -> Clue | None:
    """Return what the door says."""
    what = "door" if run.heater_kind == "oven" else "press"
    if run.open_s >= _OPEN_S:
        return Clue(CLEAR, f"The {what} stood open for {seconds_words(run.open_s)}.")
    return Clue(HARDLY, f"The {what} was not opened.") if run.open_s < 1.0 else None


def shared(run: Evidence) -> Clue | None:
    """Return what the number of pieces says."""
    if run.pieces == 1:
        return Clue(HARDLY, "It was in there alone.")
    if run.pieces >= run.capacity:
        return Clue(SLIGHT, f"The heater was full: {run.pieces} pieces shared its power.")
    return None


def not_turned(run: Evidence) -> Clue | None:
    """Return what the turns say."""
    if run.turns_missed:
        left = "A turn of the recipe was" if run.turns_missed == 1 else f"{run.turns_missed} turns of the recipe were"
        return Clue(CLEAR, f"{left} left out.")
    return None


def misfit(run: Evidence) -> Clue | None:
    """Return what wrap and blank say of each other."""
    making = run.making
    if "profile-misfit" in making.accepted:
        return Clue(STRONG, "The check of the wrap's misfit was accepted as an error.")
    if making.misfit_mm is None:
        return None
    if making.misfit_mm >= _MISFIT_MM:
        return Clue(CLEAR, f"Wrap and blank differ by up to {making.misfit_mm:.1f} mm of girth.")
    return Clue(AGAINST, f"Wrap and blank differ by no more than {making.misfit_mm:.1f} mm of girth.")


def overlap(run: Evidence) -> Clue | None:
    """Return what the overlap says."""
    if run.making.says("overlap-short"):
        width = run.making.overlap_mm
        told = "" if width is None else f" It is {width:.1f} mm."
        return Clue(STRONG, f"The checks said that the overlap is short.{told}")
    return Clue(AGAINST, "The checks found the overlap wide enough.") if run.making.found else None


def readings(run: Evidence) -> Clue | None:
    """Return what the blank's readings say."""
    if run.making.says("too-few-readings"):
        return Clue(CLEAR, "The checks said that the blank has too few readings.")
    return None


def scale(run: Evidence) -> Clue | None:
    """Return what the printer's scale says."""
    if run.making.drifts:
        return Clue(STRONG, run.making.drifts[0])
    if run.making.says("never-calibrated"):
        return Clue(CLEAR, "The printer's scale was never measured.")
    return Clue(AGAINST, "The printer's scale was measured and does not drift.") if run.making.found else None


def pixels(run: Evidence) -> Clue | None:
    """Return what the pictures' resolution says."""
    if run.making.says("picture-ppi"):
        told = "" if run.making.ppi is None else f": {run.making.ppi:.0f} ppi"
        return Clue(STRONG, f"The checks said that a picture has few pixels{told}.")
    return Clue(HARDLY, "The checks found pixels enough.") if run.making.found else None


def art_places(run: Evidence) -> Clue | None:
    """Return what the checks said of the art's places."""
    rules = ("off-wrap", "outside-safe", "over-handle", "over-keepout", "crosses-seam", "uncoated")
    said = [one for one in rules if one in run.making.accepted]
    return Clue(CLEAR, f"Accepted as errors: {', '.join(said)}.") if said else None


def colours(run: Evidence) -> Clue | None:
    """Return what the checks said of colours."""
    said = [one for one in ("out-of-gamut", "coating-dark", "ink-limit", "text-contrast") if run.making.says(one)]
    return Clue(CLEAR, f"The checks spoke of {', '.join(said)}.") if said else None


def taped(run: Evidence) -> Clue | None:
    """Return what holds the paper."""
    if run.hold in ("tape", "none"):
        return Clue(SLIGHT, "Tape alone held it." if run.hold == "tape" else "Nothing held it.")
    return None


def sleeved(run: Evidence) -> Clue | None:
    """Return whether a sleeve was on it."""
    if run.hold == "sleeve":
        return Clue(SLIGHT, "A sleeve was shrunk over it.")
    return Clue(HARDLY, "There was no sleeve.") if run.hold else None


def hurried(run: Evidence) -> Clue | None:
    """Return what the cooling says."""
    if run.cooled_early_s >= 10.0:
        return Clue(CLEAR, f"Its cooling was cut short by {seconds_words(run.cooled_early_s)}.")
    return None


def mirrored_once(run: Evidence) -> Clue | None:
    """Return what the sheet says."""
    return Clue(CLEAR, "Its sheet was mirrored when it was made.") if run.making.found else None


def of_all(run: Evidence) -> Clue | None:
    """Return what the other pieces of the heat say of a cause that would concern them all."""
    if not run.others:
        return None
    if run.alike == run.others:
        return Clue(SLIGHT, "Every piece of this heat has it.")
    return Clue(AGAINST, "The others of this heat do not have it.") if not run.alike else None


def of_one(run: Evidence) -> Clue | None:
    """Return what the other pieces of the heat say of a cause that would concern this one alone."""
    if not run.others:
        return None
    if not run.alike:
        return Clue(SLIGHT, "The others of this heat do not have it.")
    return Clue(AGAINST, "Every piece of this heat has it.") if run.alike == run.others else None


def again(run: Evidence) -> Clue | None:
    """Return what earlier heats of this heater say."""
    had, looked = run.before
    if looked >= 3 and had / looked >= 0.3:
        return Clue(SLIGHT, f"{had} of the last {looked} pieces of this heater had it.")
    return None


def _dose(run: Evidence) -> str:
    assert run.dose is not None
    return f"{run.dose.mid:.1f} min at {celsius_words(REFERENCE_C)} ({run.dose.low:.1f} to {run.dose.high:.1f})"


def _time(run: Evidence, end: int) -> str:
    return seconds_words(run.seconds[end])
