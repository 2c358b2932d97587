"""The straight girth line that best follows a measured profile: least largest misfit (minimax)."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from wrapwright.core.blank.measuring.wall import Wall

# Grid on which the tallest band is looked for; finer than a reading of the wall.
BAND_STEP_MM = 0.5


@dataclass(frozen=True)
class Line:
    """A girth line W(s) = start + slope (s - from)."""

    from_mm: float
    start_mm: float
    slope: float

    def at(self, position_mm: float) -> float:
        """Return the line's girth at a position along the wall."""
        return self.start_mm + self.slope * (position_mm - self.from_mm)


@dataclass(frozen=True)
class Misfit:
    """How a single sector or rectangle follows a bulging wall, over the band.

    Attributes:
        misfit_mm: largest |W - C|, of girth.
        stand_off_mm: largest gap between wrap and wall, (max - min)(W - C) / (2 pi): a wrap pulled tight rests
            where the blank is fullest.
        short_mm: largest C - W, at least 0: what the overlap must make up.
        tallest_from_mm, tallest_height_mm: the tallest band of the wall whose misfit stays within tolerance,
            to half a millimetre; the whole wall when that does.
        curve: (position along the wall, W - C) at the readings inside the band and at its edges.
    """

    misfit_mm: float
    stand_off_mm: float
    short_mm: float
    tallest_from_mm: float
    tallest_height_mm: float
    curve: tuple[tuple[float, float], ...]


def best_line(wall: Wall) -> Line:
    """Return the line W that makes the largest |W(s) - C(s)| over the whole of `wall` least.

    C is straight between readings, so that only the readings and the ends count. The linear programme (least e with
    -e <= a + b s - C <= e) has its optimum where b is the slope of an edge of the readings' convex hull; those few
    slopes are tried, which is exact.
    """
    base = wall.from_mm
    points = [(at - base, girth) for at, girth in zip(wall.positions_mm, wall.girths_mm, strict=True)]
    best = (math.inf, 0.0, 0.0)
    for slope in _hull_slopes(points):
        lifted = [girth - slope * at for at, girth in points]
        low, high = min(lifted), max(lifted)
        if high - low < best[0]:
            best = (high - low, (low + high) / 2.0, slope)
    return Line(base, best[1], best[2])


def _hull_slopes(points: list[tuple[float, float]]) -> list[float]:
    """Return the slopes of the edges of the convex hull of points that rise in their first coordinate."""
    slopes = []
    for side in (1.0, -1.0):
        chain: list[tuple[float, float]] = []
        for point in points:
            while len(chain) > 1 and side * _turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
        slopes += [(y2 - y1) / (x2 - x1) for (x1, y1), (x2, y2) in itertools.pairwise(chain)]
    return slopes


def _turn(first: tuple[float, float], second: tuple[float, float], third: tuple[float, float]) -> float:
    """Return a number over 0 when the three points turn left."""
    return (second[0] - first[0]) * (third[1] - first[1]) - (second[1] - first[1]) * (third[0] - first[0])


def misfit_of(wall: Wall, line: Line) -> float:
    """Return the largest |W - C| over the wall."""
    return max(abs(line.at(at) - girth) for at, girth in zip(wall.positions_mm, wall.girths_mm, strict=True))


def misfit(wall: Wall, band: Wall, line: Line, *, tolerance_mm: float) -> Misfit:
    """Return how `line` follows `band`, a part of `wall`."""
    curve = tuple((at, line.at(at) - girth) for at, girth in zip(band.positions_mm, band.girths_mm, strict=True))
    over = [difference for _, difference in curve]
    lowest, height = tallest_band(wall, tolerance_mm)
    return Misfit(
        misfit_mm=max(abs(difference) for difference in over),
        stand_off_mm=(max(over) - min(over)) / (2.0 * math.pi),
        short_mm=max(0.0, -min(over)),
        tallest_from_mm=lowest,
        tallest_height_mm=height,
        curve=curve,
    )


def tallest_band(wall: Wall, tolerance_mm: float) -> tuple[float, float]:
    """Return (from, height) of the tallest band of the wall whose misfit stays within tolerance, lowest on a tie."""
    if misfit_of(wall, best_line(wall)) <= tolerance_mm:
        return wall.from_mm, wall.length_mm
    steps = int(wall.length_mm / BAND_STEP_MM)
    best, top = (wall.from_mm, 0.0), 1
    # A part of a band never fits worse than the band, so that the top edge only ever moves up.
    for start in range(steps):
        low = wall.from_mm + start * BAND_STEP_MM
        top = max(top, start + 1)
        while top <= steps and _fits(wall, low, wall.from_mm + top * BAND_STEP_MM, tolerance_mm):
            top += 1
        height = (top - 1 - start) * BAND_STEP_MM
        if height > best[1]:
            best = (low, height)
    return best


def _fits(wall: Wall, low: float, high: float, tolerance_mm: float) -> bool:
    band = wall.between(low, high)
    return misfit_of(band, best_line(band)) <= tolerance_mm
