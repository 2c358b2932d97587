"""The trim outline of a flat wrap in figures: corners, box, chord, sagitta, area."""

from __future__ import annotations

import math

import numpy as np

from wrapwright.core.blank.flat import FlatWrap

Point = tuple[float, float]


def cuts_mm(wrap: FlatWrap) -> tuple[float, float]:
    """Return how far right of its line each end is cut: of its first turn the left end, of its last the right one.

    The left end is cut half the handle's gap to its right, the right end half the gap to its left or, without a
    handle, the overlap to its right. Where a panel joins another there is no handle.
    """
    half = wrap.gap_mm / 2.0
    return half if wrap.from_turn == 0.0 else 0.0, wrap.overlap_mm - (half if wrap.to_turn == 360.0 else 0.0)


def end_turns(wrap: FlatWrap, up_mm: float) -> tuple[float, float]:
    """Return the turns (degrees from the seam) of the trim's left and right end, overlap included, at a height.

    Without gap and overlap they are 0 and 360. A handle gap or an overlap is a strip of constant width, cut parallel
    to the handle's or seam's line, so that on a taper its share of the turn grows towards the apex.
    """
    left, right = cuts_mm(wrap)
    return wrap.from_turn + cut_turn(wrap, left, up_mm), wrap.to_turn + cut_turn(wrap, right, up_mm)


def cut_turn(wrap: FlatWrap, offset_mm: float, up_mm: float) -> float:
    """Return by how many degrees a line parallel to a wall's upright, `offset_mm` to its right, lies beside it.

    Nearer to the apex than `offset_mm` the line is not met any more: a quarter turn of the sheet is returned.
    """
    length = wrap.turn_length(up_mm)
    sine = offset_mm * wrap.theta / length  # distance over radius
    if abs(sine) < 1e-8:
        return 360.0 * offset_mm / length
    return 360.0 * math.asin(max(-1.0, min(1.0, sine))) / wrap.theta


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
