"""Which readings cannot be, or can hardly be: each judged with one sentence that names it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.units import mm_words

# Other units a bare number may have been read in.
_OTHERS = (("in", 25.4), ("cm", 10.0))


@dataclass(frozen=True)
class Plausible:
    """What a length may be: over `least_mm`, at most `most_mm`; a blank usually has `usual_mm` (common practice)."""

    least_mm: float
    most_mm: float
    usual_mm: tuple[float, float]

    def over(self, factor: float) -> Plausible:
        """Return the same limits divided by `factor`."""
        low, high = self.usual_mm
        return Plausible(self.least_mm / factor, self.most_mm / factor, (low / factor, high / factor))


GIRTH = Plausible(30.0, 2000.0, (60.0, 1000.0))
DIAMETER = GIRTH.over(math.pi)
WALL = Plausible(10.0, 2000.0, (25.0, 600.0))


def doubt(what: str, length_mm: float, limits: Plausible, *, where: str = "") -> list[WrapwrightError]:
    """Return the problem with a length, if any: negative, zero, too long, or plausible only in another unit."""
    if not math.isfinite(length_mm):
        return [unusable(f"{what} is not a number.", remedy="Measure again and write it with its unit.", where=where)]
    figure = _figure(length_mm)
    if length_mm <= 0.0:
        return [unusable(f"{what} reads {figure}; it must be more than 0 mm.", remedy="Measure again.", where=where)]
    if length_mm > limits.most_mm:
        return [
            unusable(
                f"{what} reads {figure}, over the limit of {mm_words(limits.most_mm)}.",
                remedy="Measure again, and write the reading with its unit.",
                where=where,
            )
        ]
    if length_mm < limits.least_mm:
        return [
            unusable(
                f"{what} reads {figure}, less than the {mm_words(limits.least_mm)} that a blank can have.",
                remedy=_question(length_mm, limits.usual_mm),
                where=where,
            )
        ]
    return []


def _question(length_mm: float, usual: tuple[float, float]) -> str:
    """Return the question whether another unit was meant, naming those in which the number is plausible."""
    meant = [
        f"{length_mm:g} {unit} ({_figure(length_mm * size)})"
        for unit, size in _OTHERS
        if usual[0] <= length_mm * size <= usual[1]
    ]
    if not meant:
        return "Measure again, and write the reading with its unit."
    return f"Was it {' or '.join(meant)}? Write it with its unit."


def _figure(length_mm: float) -> str:
    return mm_words(length_mm, digits=3)
