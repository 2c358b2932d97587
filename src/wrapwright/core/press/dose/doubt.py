"""What is not known of a heat, as cases to reckon: the sources of doubt and how far each may lie."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.dose.rates import EA_HIGH, EA_KJ, EA_LOW
from wrapwright.core.press.heat.warming import Cases
from wrapwright.core.press.values import Heater, Load, Range

Floats = NDArray[np.float64]
Source = Literal["activation energy", "oven temperature", "surface coefficient", "wall", "covers"]
SOURCES: tuple[Source, ...] = ("oven temperature", "surface coefficient", "wall", "activation energy", "covers")
SPREAD = 64  # cases that the band is read from
INSIDE = 0.9  # of all cases lie in the band


@dataclass(frozen=True)
class Doubts:
    """Cases and the activation energy of each, (k,), the middle first, then each source low and high, then all mixed.

    Attributes:
        cases: what warms up.
        ea_kj: (k,).
        apart: how many cases, from the first, are the middle and the sources on their own.
    """

    cases: Cases
    ea_kj: Floats
    apart: int


def doubts(heater: Heater, load: Load) -> Doubts:
    """Return the cases that tell how far a dose may lie.

    Each source is taken as equally likely on either side of its middle and, on each side, evenly spread up to its
    bound: no more is known of them. The mixed cases are the first points of a low-discrepancy sequence, the same for
    every call, so that a small change of the heat gives a small change of the band.
    """
    ranges = bounds(heater, load)
    apart = np.zeros((1 + 2 * len(SOURCES), len(SOURCES)))
    for number in range(len(SOURCES)):
        apart[1 + 2 * number, number], apart[2 + 2 * number, number] = -1.0, 1.0
    place = np.vstack([apart, spread_points(SPREAD, len(SOURCES))])
    film, offset, thickness, energy = (
        _at(ranges[name], place[:, SOURCES.index(name)])
        for name in ("surface coefficient", "oven temperature", "wall", "activation energy")
    )
    cover = place[:, SOURCES.index("covers")] if load.covers else None
    return Doubts(Cases(film, offset, thickness, cover), energy, len(apart))


def bounds(heater: Heater, load: Load) -> dict[str, Range]:
    """Return how far each source may lie, the covers apart: those say it themselves."""
    half, doubt = heater.offset_half_k, load.wall.doubt
    return {
        "oven temperature": Range(heater.offset_k - half, heater.offset_k, heater.offset_k + half),
        "surface coefficient": heater.film,
        "wall": Range(1.0 - doubt, 1.0, 1.0 + doubt),
        "activation energy": Range(EA_LOW, EA_KJ, EA_HIGH),
    }


def spread_points(count: int, sources: int) -> Floats:
    """Return points in the cube from -1 to 1, (count, sources), evenly spread and always the same; an even count.

    The additive recurrence on powers of the root of x^(d+1) = x + 1, a Kronecker sequence (Niederreiter, Random
    Number Generation and Quasi-Monte Carlo Methods, 1992, 3.1); each with its mirror image, so that they lie as much
    on one side of the middle as on the other.
    """
    root = 2.0
    for _ in range(40):
        root = (1.0 + root) ** (1.0 / (sources + 1))
    steps = root ** -np.arange(1.0, sources + 1.0)
    points = 2.0 * np.mod(0.5 + np.outer(np.arange(1.0, count // 2 + 1.0), steps), 1.0) - 1.0
    return np.vstack([points, -points])


def _at(spread: Range, place: Floats) -> Floats:
    low, high = (spread.mid - spread.low) * place, (spread.high - spread.mid) * place
    placed: Floats = spread.mid + np.where(place < 0, low, high)
    return placed
