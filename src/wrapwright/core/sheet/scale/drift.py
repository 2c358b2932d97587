"""Whether a printer's scale drifts: a trend through three entries or more, against what reading leaves open.

Least squares with equal weights over the days; the trend's standard uncertainty from the entries' own (JCGM 100:2008,
5.1.2 and H.3). A trend is called drift when it is beyond twice that (coverage factor 2, about 95 %; JCGM 100:2008, 6).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.sheet.scale.entries import AXES, ScaleEntry

LEAST_ENTRIES = 3
COVERAGE = 2.0
_EXAMPLE_MM = 240.0  # a common wrap


@dataclass(frozen=True)
class Trend:
    """How one axis changes.

    Attributes:
        axis: "across" or "along".
        change: of the scale from the first day to the last, along the straight line that fits best.
        doubt: what of it reading the rule can account for (coverage factor 2).
        entries: how many there are.
    """

    axis: str
    change: float
    doubt: float
    entries: int

    @property
    def drifts(self) -> bool:
        """Whether the change is more than reading can account for."""
        return abs(self.change) > self.doubt


def same_paper(entries: Sequence[ScaleEntry]) -> tuple[ScaleEntry, ...]:
    """Return the entries on the paper of the newest, oldest first: another paper is another scale."""
    rising = sorted(entries, key=lambda one: (one.day, one.id))
    return tuple(one for one in rising if one.paper == rising[-1].paper) if rising else ()


def trends(entries: Sequence[ScaleEntry]) -> tuple[Trend, ...]:
    """Return the trends across and along; nothing for fewer than three entries on the newest entry's paper.

    Entries of one and the same day are taken in the order in which they were kept, evenly.
    """
    rising = same_paper(entries)
    if len(rising) < LEAST_ENTRIES:
        return ()
    days = [float(one.day.toordinal()) for one in rising]
    if days[0] == days[-1]:
        days = [float(at) for at in range(len(rising))]
    return tuple(_trend(rising, days, axis) for axis in range(2))


def _trend(rising: Sequence[ScaleEntry], days: Sequence[float], axis: int) -> Trend:
    middle = sum(days) / len(days)
    offsets = [day - middle for day in days]
    spread = sum(offset * offset for offset in offsets)
    span = days[-1] - days[0]
    weights = [offset / spread * span for offset in offsets]
    change = sum(weight * one.lengths.scale[axis] for weight, one in zip(weights, rising, strict=True))
    errors = [one.lengths.error[axis] / math.sqrt(3.0) for one in rising]
    standard = math.sqrt(sum((weight * error) ** 2 for weight, error in zip(weights, errors, strict=True)))
    return Trend(AXES[axis], change, COVERAGE * standard, len(rising))


def drift_words(entries: Sequence[ScaleEntry]) -> tuple[str, ...]:
    """Return what there is to say of drift, a sentence each."""
    rising = same_paper(entries)
    found = trends(entries)
    if not found:
        count = f"{len(rising)} so far" if rising else "none yet"
        return (f"Drift is looked for from three measurements on the same paper; there is {count}.",)
    since = f"over {len(rising)} measurements from {rising[0].day} to {rising[-1].day}"
    said = [_words(one, since) for one in found if one.drifts]
    if said:
        return (*said, "Measure again before each run, and look at the paper's damp and at the feed rollers.")
    most = max(found, key=lambda one: one.doubt)
    return (
        f"No drift {since}: what changed is within the {most.doubt * 100:.2f} % that reading the rule leaves open.",
    )


def _words(one: Trend, since: str) -> str:
    grown = "longer" if one.change > 0 else "shorter"
    return (
        f"Drift {one.axis}: the printer prints {abs(one.change) * 100:.2f} % {grown} {since}, more than the"
        f" {one.doubt * 100:.2f} % that reading the rule leaves open; on a wrap of {_EXAMPLE_MM:g} mm that is"
        f" {abs(one.change) * _EXAMPLE_MM:.1f} mm."
    )
