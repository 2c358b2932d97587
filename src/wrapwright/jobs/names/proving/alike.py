"""Whether what was read is painted as it should be: in its colour, as a line or filled, and cut off nowhere else."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.names.matching import Outline, difference, moved, outline_of

if TYPE_CHECKING:
    from wrapwright.outside.pdf.listed.drawn import Limits, Shape

Array = NDArray[np.float64]
Ink = Callable[[Rgb], Sequence[float]]
_INK = 2e-6  # of a colour's value: six decimals are written
_WIDE_MM = 0.001  # of a line's width: hundredths of the grid are written


@dataclass(frozen=True, eq=False)
class Wanted:
    """One path that should be drawn.

    Attributes:
        outline: its curves, flat mm.
        colour: working space, 0..1.
        stroke_mm: of a line along it; 0 for a filled path.
        element: which it comes from.
        even_odd: by which rule it is filled.
        limits: what it is cut off by, beside the bleed.
    """

    outline: Outline
    colour: Rgb
    stroke_mm: float
    element: int
    even_odd: bool = False
    limits: tuple[Outline, ...] = ()


def wanted_of(item: PlacedOutline) -> Wanted:
    """Return how an item of a draw list should be drawn."""
    limits = tuple(outline_of(clip) for clip in item.clips)
    return Wanted(outline_of(item.path), item.colour, item.stroke_mm, item.element, item.even_odd, limits)


def has_colour(shape: Shape, wanted: Wanted, ink: Ink) -> bool:
    """Return whether a shape has its colour."""
    should = ink(wanted.colour)
    return len(shape.ink) == len(should) and bool(np.allclose(shape.ink, should, rtol=0.0, atol=_INK))


def is_painted_so(shape: Shape, wanted: Wanted, to_flat: Array) -> bool:
    """Return whether a shape is filled by its rule, or is a line of its width; `to_flat` takes its mm to flat mm."""
    if wanted.stroke_mm <= 0.0:
        return shape.paint == ("fill even-odd" if wanted.even_odd else "fill")
    a, b, c, d, _, _ = shape.matrix
    wide = shape.wide * math.sqrt(abs(a * d - b * c) * abs(float(np.linalg.det(to_flat[:2, :2]))))
    return shape.paint == "line" and abs(wide - wanted.stroke_mm) < _WIDE_MM


def is_limited_so(limits: Limits, wanted: Sequence[Outline], bleed: Outline, to_flat: Array) -> bool:
    """Return whether something is cut off by what it should be, and by the bleed at most besides.

    Args:
        limits: as read.
        wanted: what should cut it off, flat mm.
        bleed: the wrap with its bleed, flat mm.
        to_flat: 3x3, takes the limits' mm to flat mm.
    """
    if not limits and not wanted:
        return True
    found = [moved(one.outline(), to_flat) for one in limits]
    found = [one for one in found if difference(one, bleed) is not None]
    return len(found) == len(wanted) and all(
        difference(one, other) is None for one, other in zip(found, wanted, strict=True)
    )
