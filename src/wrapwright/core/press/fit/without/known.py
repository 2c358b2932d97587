"""What a recipe that is known to be good in a heater says of it: a bound on its offset, through the dose alone."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import shift_words, step_words
from wrapwright.core.press.dose.dose import equivalent_minutes
from wrapwright.core.press.fit.values import Found
from wrapwright.core.press.heat.warming import Cases, warm_up
from wrapwright.core.press.values import UNCALIBRATED_K, Heater, Load

REACH_K = 40.0
STEP_K = 0.5


@dataclass(frozen=True)
class KnownGood:
    """A heat that came out well.

    Attributes:
        load: what was heated.
        dwell_s: how long.
        window: doses that do well, lowest and highest, equivalent minutes.
        source: of the window: accepted trials, or a recipe's own range.
    """

    load: Load
    dwell_s: float
    window: tuple[float, float]
    source: str


@dataclass(frozen=True)
class Bounded:
    """What it tells.

    Attributes:
        low_k, high_k: offsets of the heater with which that heat lies in the window.
        open_low, open_high: whether an end is only where the search ended.
        films: W/m2K, lowest and highest with which it can lie there at all.
        minutes: dose of that heat by the heater's figures, with the offset at nought.
        tells: whether the bound is narrower than what is known of an oven that nobody has looked at.
        words: sentences.
    """

    low_k: float
    high_k: float
    open_low: bool
    open_high: bool
    films: tuple[float, float]
    minutes: float
    tells: bool
    words: tuple[str, ...]

    def found(self) -> Found:
        """Return what goes into the heater's figures: nothing, where it tells nothing."""
        if not self.tells:
            return Found(source="a recipe known to be good")
        middle, half = (self.low_k + self.high_k) / 2.0, (self.high_k - self.low_k) / 2.0
        return Found(middle, half, source="a recipe known to be good")


def bounded(heater: Heater, good: KnownGood) -> Bounded:
    """Return the offsets that a heat known to be good leaves open.

    Every offset within REACH_K is tried with the heater's lowest, middle and highest film; one stands if with any
    film the dose, counted as the window's was, lies in the window. A dose cannot part a hotter oven from a better film,
    so the film is bounded only as far as no offset would do with it.

    Raises:
        WrapwrightError: unusable: a window that runs backwards, or a heat that no offset brings into it.
    """
    low, high = good.window
    if not 0.0 < low <= high:
        raise unusable(f"A dose from {low:g} to {high:g} equivalent minutes is no window.", where="window")
    offsets = np.arange(-REACH_K, REACH_K + STEP_K / 2.0, STEP_K)
    films = np.unique([heater.film.low, heater.film.mid, heater.film.high])
    many = Cases(film=np.repeat(films, len(offsets)), offset_k=np.tile(offsets, len(films)))
    plain = replace(heater, offset_k=0.0)
    warming = warm_up(plain, good.load, until_s=good.dwell_s, step_s=max(1.0, good.dwell_s / 300.0), cases=many)
    doses = equivalent_minutes(warming.times_s, warming.coating_c).reshape(len(films), len(offsets))
    stands = (doses >= low) & (doses <= high)
    any_film = np.atleast_1d(stands.any(axis=0))
    middle = float(doses[len(films) // 2, len(offsets) // 2])
    if not any_film.any():
        message = (
            f"By these figures that heat gives {middle:.2f} equivalent minutes, and no offset within "
            f"{step_words(REACH_K)} brings it into {low:.2f} to {high:.2f}."
        )
        raise unusable(message, remedy="Look at the wall, the dwell and the heater's power.", where="recipe")
    kept = offsets[any_film]
    good_films = films[stands.any(axis=1)]
    ends = (float(kept[0]), float(kept[-1]))
    opened = (bool(any_film[0]), bool(any_film[-1]))
    width = (ends[1] - ends[0]) / 2.0
    tells = width < UNCALIBRATED_K and not any(opened)
    span = (float(good_films[0]), float(good_films[-1]))
    words = _words(ends, opened, tells, span, heater, good)
    return Bounded(*ends, *opened, span, middle, tells, words)


def _words(
    ends: tuple[float, float],
    opened: tuple[bool, bool],
    tells: bool,  # noqa: FBT001 (beside the figures it is about)
    films: tuple[float, float],
    heater: Heater,
    good: KnownGood,
) -> tuple[str, ...]:
    low = f"{'below ' if opened[0] else ''}{shift_words(ends[0])}"
    high = f"{'above ' if opened[1] else ''}{shift_words(ends[1])}"
    said = [
        f"That heat does well, so its dose lies between {good.window[0]:.2f} and {good.window[1]:.2f} equivalent "
        f"minutes ({good.source}); the oven's offset then lies between {low} and {high}.",
        "It speaks of the offset only through the dose: a hotter oven and a better film do the same, and so does an "
        "error in the wall. It tells nothing of the oven's time constant or its sensor.",
    ]
    if tells:
        said.append(
            f"The offset is taken as {shift_words((ends[0] + ends[1]) / 2)}, known to "
            f"{step_words((ends[1] - ends[0]) / 2)}."
        )
    else:
        said.append(
            f"That is no narrower than the {step_words(UNCALIBRATED_K)} of an oven nobody has looked at, so its "
            "figures stay; three readings of a thermometer say more."
        )
    if films != (heater.film.low, heater.film.high):
        said.append(f"With a film outside {films[0]:.0f} to {films[1]:.0f} W/m²K no offset would do.")
    return tuple(said)
