"""The trim outline of a flat wrap in figures: corners, box, chord, sagitta, area."""

from __future__ import annotations

import math

import numpy as np

from wrapwright.core.blank.flat import FlatWrap

Point = tuple[float, float]


def end_turns(wrap: FlatWrap, up_mm: float) -> tuple[float, float]:
    """Return the turns (degrees from the seam) of the trim's left and right end at a height.

    Without gap and overlap they are 0 and 360. A handle gap or an overlap is a strip of constant width, cut parallel
    to the handle's or seam's line, so that on a taper its share of the turn grows towards the apex.
    """
    half_gap = wrap.gap_mm / 2.0
    return -_turn_beyond(wrap, up_mm, -half_gap), 360.0 + _turn_beyond(wrap, up_mm, wrap.overlap_mm - half_gap)


def _turn_beyond(wrap: FlatWrap, up_mm: float, beyond_mm: float) -> float:
    """Return the turn by which the arc at `up_mm` passes an end's line to stand `beyond_mm` square to it."""
    if beyond_mm == 0.0:
        return 0.0
    length = wrap.turn_length(up_mm)
    ratio = beyond_mm * wrap.theta / length  # distance over radius: the sine of the angle asked for
    if abs(ratio) >= 1.0:
        raise ValueError(f"a strip of {beyond_mm} mm is wider than the radius at height {up_mm} mm")
    stretch = math.asin(ratio) / ratio if ratio else 1.0
    return 360.0 * beyond_mm / length * stretch


def trim_corners(wrap: FlatWrap) -> tuple[Point, Point, Point, Point]:
    """Return the flat points lower left, lower right, upper right, upper left of the trim outline."""
    lower, upper = end_turns(wrap, 0.0), end_turns(wrap, wrap.height_mm)
    turns = np.array([lower[0], lower[1], upper[1], upper[0]])
    x, y = wrap.to_flat(turns, np.array([0.0, 0.0, wrap.height_mm, wrap.height_mm]))
    first, second, third, fourth = zip(x.tolist(), y.tolist(), strict=True)
    return first, second, third, fourth


def trim_box(wrap: FlatWrap) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top in flat mm of the trim outline, overlap in, handle gap out.

    The ends are straight lines, so corners and the arcs' own extremes decide. An arc has one wherever its tangent is
    level or upright: at every quarter turn of the sheet between its ends (past 180 degrees also to the sides).
    """
    points = list(trim_corners(wrap))
    if wrap.is_sector:
        quarter = 180.0 * math.pi / abs(wrap.theta)  # the turn on the blank that is a quarter turn of the sheet
        for up in (0.0, wrap.height_mm):
            left, right = end_turns(wrap, up)
            first, last = math.ceil((left - 180.0) / quarter), math.floor((right - 180.0) / quarter)
            turns = np.array([180.0 + quarter * step for step in range(first, last + 1)])
            x, y = wrap.to_flat(turns, np.full(turns.shape, up))
            points += zip(x.tolist(), y.tolist(), strict=True)
    across, along = zip(*points, strict=True)
    return min(across), min(along), max(across), max(along)


def bounding_box_mm(wrap: FlatWrap) -> tuple[float, float]:
    """Return width and height of the box round the trim outline, standing as the flat wrap does."""
    left, bottom, right, top = trim_box(wrap)
    return right - left, top - bottom


def outer_chord_mm(wrap: FlatWrap) -> float:
    """Return the straight distance between the ends of the longer arc of one whole turn: 2 R sin(theta / 2)."""
    return max(wrap.lower_mm, wrap.upper_mm) * float(np.sinc(wrap.theta / (2.0 * math.pi)))


def outer_sagitta_mm(wrap: FlatWrap) -> float:
    """Return the rise of the longer arc of one whole turn over its chord: 2 R sin^2(theta / 4), 0 when straight."""
    theta = abs(wrap.theta)
    return max(wrap.lower_mm, wrap.upper_mm) * theta / 8.0 * float(np.sinc(theta / (4.0 * math.pi))) ** 2


def turn_area_mm2(wrap: FlatWrap) -> float:
    """Return the area of one whole turn of the band, the frustum's mantle: (lower + upper) / 2 x height."""
    return (wrap.lower_mm + wrap.upper_mm) / 2.0 * wrap.height_mm


def sagitta_of(radius_mm: float, chord_mm: float) -> float:
    """Return the rise of an arc of up to half a circle over its chord."""
    half = chord_mm / 2.0
    return half**2 / (radius_mm + math.sqrt(radius_mm**2 - half**2))


def radius_of(chord_mm: float, sagitta_mm: float) -> float:
    """Return the radius of an arc from its chord and its rise: c^2 / (8 s) + s / 2."""
    return chord_mm**2 / (8.0 * sagitta_mm) + sagitta_mm / 2.0
