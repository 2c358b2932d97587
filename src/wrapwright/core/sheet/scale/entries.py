"""What was measured on a printed target: two lengths, the scales they mean, and how well those are known."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.units import INCH_MM, mm_words

AXES = ("across", "along")
MOST_OFF = 0.03  # no printer is farther out; beyond it is another unit, or a scale set on the way
DIVISION_MM = 0.5  # of a common steel rule
SHORTEST_MM = 40.0  # of an asked length that can still tell a scale
_LARGEST_MM = 3000.0
_UNITS = (("in", INCH_MM), ("cm", 10.0))
_COARSEST_MM = 2.0

Pair = tuple[float, float]


@dataclass(frozen=True)
class Lengths:
    """Two lengths of a target as asked and as measured on the print, across and along, in mm.

    Attributes:
        asked_mm: nominal distances of the target's lines.
        measured_mm: what the rule read on the print.
        division_mm: smallest division that was read.
    """

    asked_mm: Pair
    measured_mm: Pair
    division_mm: float = DIVISION_MM

    @property
    def scale(self) -> Pair:
        """Measured / asked, across and along."""
        return (self.measured_mm[0] / self.asked_mm[0], self.measured_mm[1] / self.asked_mm[1])

    @property
    def error(self) -> Pair:
        """Half-width of each scale: half a division at both ends of the rule, over the length."""
        return (self.division_mm / self.asked_mm[0], self.division_mm / self.asked_mm[1])


@dataclass(frozen=True)
class ScaleEntry:
    """A measurement of a set-up's scale as it is kept.

    Attributes:
        id: its number in the store.
        day: when it was measured.
        paper: what it was measured on.
        lengths: what was read.
        note: the user's own words.
    """

    id: int
    day: date
    paper: str
    lengths: Lengths
    note: str = ""


def measured(lengths: Lengths) -> Lengths:
    """Return the lengths once they can be believed.

    Raises:
        WrapwrightError: unusable; every length that is no length, or more than 3 % off what was asked, with the
            question what it may have been instead.
    """
    problems: list[WrapwrightError] = []
    if not 0.0 < lengths.division_mm <= _COARSEST_MM:
        problems.append(
            unusable(
                f"the division reads {mm_words(lengths.division_mm, digits=3)}; it must lie between 0 and"
                f" {mm_words(_COARSEST_MM)} to tell a scale.",
                remedy="Use a steel rule with half millimetres.",
                where="division",
            )
        )
    for axis, name in enumerate(AXES):
        problems += _in_doubt(lengths, axis, name)
    raise_all(problems)
    return lengths


def _in_doubt(lengths: Lengths, axis: int, name: str) -> list[WrapwrightError]:
    asked, read, other = lengths.asked_mm[axis], lengths.measured_mm[axis], lengths.asked_mm[1 - axis]
    if not SHORTEST_MM <= asked <= _LARGEST_MM:
        message = f"{mm_words(asked, digits=2)} is asked {name}; it must lie between {SHORTEST_MM:g} and 3000 mm."
        return [unusable(message, remedy="Give what is written on the target.", where="asked")]
    if not math.isfinite(read) or read <= 0.0:
        return [unusable(f"the length {name} must be more than 0 mm.", remedy="Measure it again.", where=name)]
    off = read / asked - 1.0
    if abs(off) <= MOST_OFF + 1e-12:
        return []
    message = (
        f"{mm_words(read, digits=2)} measured {name} where {mm_words(asked, digits=2)} were asked is"
        f" {abs(off) * 100:.3g} % off; a printer that prints at actual size is within {MOST_OFF * 100:g} %."
    )
    return [unusable(message, remedy=_question(read, asked, other), where=name)]


def _question(read: float, asked: float, other: float) -> str:
    for unit, size in _UNITS:
        if abs(read * size / asked - 1.0) <= MOST_OFF:
            return (
                f"Is it in another unit: {read:g} {unit} ({mm_words(read * size, digits=2)})? Write it with its unit."
            )
    if abs(read / other - 1.0) <= MOST_OFF:
        return "Are the two lengths exchanged? Across is the head's travel, along the feed."
    return (
        "Is it in another unit, or was it scaled by the driver? Print the target at 100 % (actual size, no fitting to"
        " the page) and measure from line to line."
    )


def scale_words(scale: float) -> str:
    """Return what a scale does to a length: "0.12 % long", "0.3 % short", "true"."""
    off = (scale - 1.0) * 100.0
    if abs(off) < 0.005:
        return "true"
    return f"{abs(off):.2f} % {'long' if off > 0 else 'short'}"
