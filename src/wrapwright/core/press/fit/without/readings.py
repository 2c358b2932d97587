"""An oven's offset from a few readings of a thermometer, with how well that is known."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_range_words, celsius_words, shift_words, step_words
from wrapwright.core.press.fit.least import quantile
from wrapwright.core.press.fit.values import Found
from wrapwright.core.press.values import UNCALIBRATED_K

FEWEST, MOST = 2, 50
USUAL = 3
CLASS_K = 5.0  # half-width of a cheap oven thermometer's own error; common practice, no source
FINEST_K, COARSEST_K = 0.01, 20.0
LOWEST_C, HIGHEST_C = 50.0, 300.0
FARTHEST_K = 60.0
MOST_CLASS_K = 30.0


@dataclass(frozen=True)
class Readings:
    """Readings of one thermometer in one oven at one setting, degrees C.

    Attributes:
        set_c: what the oven was set to.
        read_c: what the thermometer said each time.
        step_k: smallest step that was read.
        class_k: half-width of the thermometer's own error, as its maker says it.
    """

    set_c: float
    read_c: tuple[float, ...]
    step_k: float
    class_k: float = CLASS_K


@dataclass(frozen=True)
class Offset:
    """What the readings tell.

    Attributes:
        offset_k: mean of the readings less what was set.
        half_k: half-width of it, 95 %.
        spread_k: the part of the half-width from the readings' spread: Student's t times s over the root of n.
        step_k: the part from the step of reading.
        class_k: the part from the thermometer's own error.
        words: sentences.
    """

    offset_k: float
    half_k: float
    spread_k: float
    step_k: float
    class_k: float
    words: tuple[str, ...]

    def found(self) -> Found:
        """Return what goes into the heater's figures."""
        return Found(self.offset_k, self.half_k, source="readings of a thermometer")


def mean_half(spread: float, count: int) -> float:
    """Return the half-width of a mean's 95 % interval: Student's t with n - 1 times s over the root of n.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2.
    """
    return quantile(count - 1) * spread / math.sqrt(count)


def offset_of(readings: Readings) -> Offset:
    """Return an oven's offset from readings of a thermometer.

    Half-width: the t-interval of the mean, the step of reading as a rectangle (1.96 q / root 12, since the same
    rounding may sit in all of them) and the thermometer's own error, added as squares (JCGM 100:2008, 4.3.7, 5.1.2).

    Raises:
        WrapwrightError: unusable: fewer than two readings, figures that cannot be.
    """
    _refuse(readings)
    count = len(readings.read_c)
    mean = math.fsum(readings.read_c) / count
    spread = math.sqrt(math.fsum((one - mean) ** 2 for one in readings.read_c) / (count - 1))
    parts = (mean_half(spread, count), 1.96 * readings.step_k / math.sqrt(12.0), readings.class_k)
    half = math.sqrt(math.fsum(one**2 for one in parts))
    return Offset(mean - readings.set_c, half, *parts, _words(readings, mean, half, parts))


def _words(readings: Readings, mean: float, half: float, parts: tuple[float, float, float]) -> tuple[str, ...]:
    count, offset = len(readings.read_c), mean - readings.set_c
    said = [
        f"{count} readings, {celsius_words(mean)} on average at {celsius_words(readings.set_c)} set: offset "
        f"{shift_words(offset)}, known to {step_words(half)}.",
        f"In that: {step_words(parts[0])} from their spread (Student's t for {count - 1} degrees of freedom, "
        f"{quantile(count - 1):.2f}), {step_words(parts[1])} from the step of reading, {step_words(parts[2])} of the "
        "thermometer.",
    ]
    if half >= UNCALIBRATED_K:
        said.append(
            f"That is no better than the {step_words(UNCALIBRATED_K)} of an oven nobody has looked at: read it again."
        )
    elif count < USUAL:
        said.append(f"A third reading would bring Student's t from {quantile(1):.1f} to {quantile(2):.1f}.")
    if len(set(readings.read_c)) == 1:
        said.append("All readings are the same: the step of reading hides their spread.")
    return tuple(said)


def _refuse(readings: Readings) -> None:
    count = len(readings.read_c)
    if not FEWEST <= count <= MOST:
        message = f"{count} reading{'s' if count != 1 else ''} cannot say how far they spread; {FEWEST} to {MOST} can."
        raise unusable(message, remedy=f"Read it {USUAL} times, some minutes apart.", where="readings")
    for one in (readings.set_c, *readings.read_c):
        if not LOWEST_C <= one <= HIGHEST_C:
            limits = celsius_range_words((LOWEST_C, HIGHEST_C))
            message = f"{celsius_words(one)} is no temperature of a hot oven for blanks: {limits}."
            remedy = (
                "Is it Fahrenheit? Write the unit with it: 392 F." if one > HIGHEST_C else "Read it when it is hot."
            )
            raise unusable(message, remedy=remedy, where="readings" if one != readings.set_c else "set")
    worst = max(readings.read_c, key=lambda one: abs(one - readings.set_c))
    if abs(worst - readings.set_c) > FARTHEST_K:
        off = step_words(abs(worst - readings.set_c))
        message = f"{celsius_words(worst)} is {off} from the {celsius_words(readings.set_c)} set."
        raise unusable(message, remedy="Look at the thermometer and at C and F.", where="readings")
    if not FINEST_K <= readings.step_k <= COARSEST_K:
        message = f"A step of reading of {readings.step_k:g} °C is not within {FINEST_K:g} to {step_words(COARSEST_K)}."
        raise unusable(message, remedy="Give the smallest step that you can read.", where="step")
    if not 0.0 <= readings.class_k <= MOST_CLASS_K:
        most = step_words(MOST_CLASS_K)
        message = f"An error of the thermometer of {step_words(readings.class_k)} is not within 0 to {most}."
        raise unusable(message, remedy="Give the half-width that its maker says.", where="class")
