"""What a gauge says: two marks read into a flat length, and two arcs' lengths into the flat lengths of a taper."""

from __future__ import annotations

import math

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.units import mm_words

DIVISIONS = 10  # of the vernier
VERNIER_MM = 19.0  # over which they stand: each is a tenth shorter than two millimetres
STEP_MM = VERNIER_MM / DIVISIONS

_LEAST_APART_MM = 20.0  # of two arcs, to tell a taper


def read_gauge(head: float, vernier: float) -> float:
    """Return the flat length in the strip's own mm that two marks mean.

    Args:
        head: the whole millimetre of the head's scale that the vernier's 0 stands on or has passed.
        vernier: the line of the vernier, 0..10, that meets a mark of the scale; a half between two that meet as well.

    Source: the vernier's line k stands 1.9 k mm beyond its 0, and meets a mark when the 0 stands k/10 mm beyond one.

    Raises:
        WrapwrightError: unusable; no whole millimetre, or no line of the vernier.
    """
    if not math.isfinite(head) or head != math.floor(head) or head <= 0:
        raise unusable(
            f"the head's mark reads {head:g}; it is a whole number of millimetres above 0.",
            remedy="Read the mark that the vernier's 0 stands on or has just passed.",
            where="head",
        )
    if not math.isfinite(vernier) or not 0.0 <= vernier <= DIVISIONS or vernier * 2.0 != math.floor(vernier * 2.0):
        raise unusable(
            f"the vernier's line reads {vernier:g}; its lines are 0 to {DIVISIONS}, a half between two.",
            remedy="Read the line that meets a mark of the scale best.",
            where="vernier",
        )
    return head + vernier / DIVISIONS


def ends_of(readings: tuple[tuple[float, float], ...], wall_mm: float) -> tuple[float, float]:
    """Return the flat lengths at the wall's lower and upper end from those of two arcs.

    Args:
        readings: (wall position of the arc's middle line, its flat length), two of them.
        wall_mm: the wall's height, in the same millimetres as the positions.

    A straight wall's girth grows evenly along it, so that the line through both is carried on to the ends.

    Raises:
        WrapwrightError: unusable; not two arcs, an arc beyond the wall, or both at the same place.
    """
    if len(readings) != 2:
        raise unusable(
            f"a taper is read with two arcs, but {len(readings)} came.",
            remedy="Read one near the foot and one near the rim.",
            where="readings",
        )
    (low_at, low), (high_at, high) = sorted(readings)
    for at in (low_at, high_at):
        if not 0.0 <= at <= wall_mm:
            raise unusable(
                f"an arc lies at {mm_words(at)}, beyond the wall of {mm_words(wall_mm)}.",
                remedy="Give the position of its middle line, from the wall's lower edge.",
                where="readings",
            )
    if high_at - low_at < _LEAST_APART_MM:
        raise unusable(
            f"the arcs lie {mm_words(high_at - low_at)} apart; {_LEAST_APART_MM:g} mm or more tell a taper.",
            remedy="Read one near the foot and one near the rim.",
            where="readings",
        )
    slope = (high - low) / (high_at - low_at)
    return low - slope * low_at, high + slope * (wall_mm - high_at)
