"""The borders of a wrap on the flat paper: trim, bleed and safe outlines, and which points lie inside them.

A flat blank has its own outline; bleed and safe margin run along it all round.

The two ends are cut parallel to the seam's or the handle's line: the left end half the handle gap to its right,
the right end half the gap to its left, or, without a handle, the overlap to its right. Rim and base are arcs
about the cone's apex (straight on a straight wall).
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import cut_turn, cuts_mm
from wrapwright.core.design.path import Path, Subpath, line_points, windings
from wrapwright.core.design.plates import plate_outline, plate_room

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

ARC_ERROR_MM = 0.0005
_EDGE = 1e-9  # a point on the border counts as inside: mm


def trim_outline(wrap: FlatWrap) -> Path:
    """Return the outline along which the transfer is cut, in flat mm, arcs true to 0.5 micrometres."""
    if wrap.plate is not None:
        return plate_outline(wrap, wrap.plate, 0.0)
    return _band_outline(wrap, 0.0, wrap.height_mm, *cuts_mm(wrap))


@lru_cache(maxsize=64)  # asked for once an item; a path is never changed
def bleed_outline(wrap: FlatWrap, bleed_mm: float) -> Path:
    """Return the trim outline grown by `bleed_mm` at rim and base; the ends stay where they are cut.

    A flat blank's is grown all round.
    """
    if wrap.plate is not None:
        return plate_outline(wrap, wrap.plate, bleed_mm)
    return _band_outline(wrap, -bleed_mm, wrap.height_mm + bleed_mm, *cuts_mm(wrap))


def safe_outline(wrap: FlatWrap, safe_mm: float) -> Path:
    """Return the outline `safe_mm` inside rim, base and seam (or handle); empty when nothing is left.

    The overlap lies under or over the other end, so the safe part ends before the seam, not before the overlap's edge.
    On a flat blank it lies inside the outline all round.
    """
    if wrap.plate is not None:
        return plate_outline(wrap, wrap.plate, -safe_mm)
    low, high = safe_mm, wrap.height_mm - safe_mm
    half = wrap.gap_mm / 2.0 + safe_mm
    if low >= high or min(wrap.turn_length(low), wrap.turn_length(high)) <= 2.0 * half:
        return Path()
    return _band_outline(wrap, low, high, half, -half)


def inside_trim(wrap: FlatWrap, x: Array, y: Array, bleed: float = 0.0) -> Flags:
    """Return which flat points (arrays of one shape) lie inside the trim, grown by `bleed` mm at rim and base.

    Points on the border count as inside. Sectors of more than half a turn are handled by angle, not by half planes.
    """
    if wrap.plate is not None:
        return np.asarray(plate_room(wrap, wrap.plate, x, y) >= -bleed - _EDGE)
    turn, up = wrap.from_flat(x, y)
    inside = (up >= -bleed - _EDGE) & (up <= wrap.height_mm + bleed + _EDGE)
    left, right = cuts_mm(wrap)
    for on, cut in ((turn - wrap.from_turn, left), (wrap.to_turn - turn, -right)):
        far_on = np.abs(wrap.theta) * on / 360.0 > np.pi / 2.0
        inside &= far_on | (beside_mm(wrap, on, up) >= cut - _EDGE)
    return inside


def touches(wrap: FlatWrap, outline: Path, bleed: float) -> bool:
    """Return whether the filled outline shares some area with the wrap grown by `bleed` at rim and base."""
    border = bleed_outline(wrap, bleed)
    one, other = outline.box(), border.box()
    if one[0] >= other[2] or one[2] <= other[0] or one[1] >= other[3] or one[3] <= other[1]:
        return False
    edge = flattened(border.subpaths[0])
    for sub in outline.subpaths:
        corners = flattened(sub)
        inner = _hair_inside(corners)
        if bool(inside_trim(wrap, inner[:, 0], inner[:, 1], bleed).any()):
            return True
        if bool((windings(_hair_inside(edge), corners) % 2 == 1).any()) or _cross(corners, edge):
            return True
    return False


def _hair_inside(corners: Array) -> Array:
    """Return corners drawn in by a millionth, so that two shapes which only share an edge do not touch."""
    drawn: Array = corners + (corners.mean(axis=0) - corners) * 1e-6
    return drawn


def flattened(sub: Subpath, steps: int = 12) -> Array:
    """Return the subpath as a polygon, shape (n, 2), each curve in `steps` straight pieces."""
    points = sub.points
    curves = np.stack([points[0:-1:3], points[1::3], points[2::3], points[3::3]], axis=1)
    at = np.arange(steps) / steps
    weights = np.stack([(1 - at) ** 3, 3 * at * (1 - at) ** 2, 3 * at**2 * (1 - at), at**3], axis=1)
    inner = np.einsum("sk,nkd->nsd", weights, curves).reshape(-1, 2)
    return np.vstack([inner, points[-1:]])


def beside_mm(wrap: FlatWrap, turn: Array, up: Array) -> Array:
    """Return how far places lie from the upright at turn 0, square to it and to its right.

    Of use up to a quarter turn of the sheet beside it; farther on the line is no neighbour any more.
    """
    share = turn / 360.0
    angle = wrap.theta * share
    distance: Array = wrap.lower_mm * share * np.sinc(angle / np.pi) + up * np.sin(angle)
    return distance


def _band_outline(wrap: FlatWrap, low: float, high: float, left: float, right: float) -> Path:
    """Return the outline between two wall positions and two cuts, anticlockwise from its lower left corner."""
    start, end = wrap.from_turn, wrap.to_turn
    lower = _arc(wrap, low, start + cut_turn(wrap, left, low), end + cut_turn(wrap, right, low))
    upper = _arc(wrap, high, end + cut_turn(wrap, right, high), start + cut_turn(wrap, left, high))
    rise = line_points(np.stack([lower[-1], upper[0]]))
    fall = line_points(np.stack([upper[-1], lower[0]]))
    return Path((Subpath(np.vstack([lower, rise[1:], upper[1:], fall[1:]])),))


def _arc(wrap: FlatWrap, up: float, start: float, end: float) -> Array:
    """Return cubic control points along the wall at `up` from one turn to another.

    Handles are 4/3 tan(a/4) of the radius; the radial error of such an arc of angle a is
    r (4/27) sin^6(a/4) / cos^2(a/4) (own derivation; a is the angle of one piece).
    """
    length = wrap.turn_length(up) * (end - start) / 360.0
    angle = abs(wrap.theta * (end - start) / 360.0)
    radius = abs(length) / angle if angle > 0.0 else 0.0
    pieces = 1
    while (
        radius * 4.0 / 27.0 * math.sin(angle / pieces / 4.0) ** 6 / math.cos(angle / pieces / 4.0) ** 2 > ARC_ERROR_MM
    ):
        pieces += 1
    turns = np.linspace(start, end, pieces + 1)
    x, y = wrap.to_flat(turns, np.asarray(up))
    lean = wrap.theta * (turns / 360.0 - 0.5)
    part = angle / pieces
    ratio = 4.0 / 3.0 * math.tan(part / 4.0) / part if part > 1e-8 else 1.0 / 3.0
    handle = np.stack([np.cos(lean), -np.sin(lean)], axis=1) * (length / pieces * ratio)
    ends = np.stack([x, y], axis=1)
    out = np.empty((3 * pieces + 1, 2))
    out[0::3] = ends
    out[1::3], out[2::3] = ends[:-1] + handle[:-1], ends[1:] - handle[1:]
    return out


def _cross(one: Array, other: Array) -> bool:
    """Return whether any side of one polygon strictly crosses a side of the other."""
    p, q = one[:, None, :], np.roll(one, -1, axis=0)[:, None, :]
    r, s = other[None, :, :], np.roll(other, -1, axis=0)[None, :, :]

    def side(a: Array, b: Array, c: Array) -> Array:
        out: Array = (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (
            c[..., 0] - a[..., 0]
        )
        return np.where(np.abs(out) < 1e-7, 0.0, out)

    return bool(((side(p, q, r) * side(p, q, s) < 0.0) & (side(r, s, p) * side(r, s, q) < 0.0)).any())
