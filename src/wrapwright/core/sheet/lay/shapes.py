"""The trim of a wrap or a flat blank as it is printed: what is laid on a sheet."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import cuts_mm
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.path import Path, Subpath
from wrapwright.core.sheet.lay.values import Ring, Shape
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.room import exact_box

Array = NDArray[np.float64]

RING_ERROR_MM = 0.02
_SAME_MM = 1e-9


def shape_of(wrap: FlatWrap) -> Shape:
    """Return the trim of a wrap as printed, mirrored and not turned, its box's lower left corner at the origin.

    A straight wrap is a rectangle. A tapered one is a sector with its upright axis opposite the seam; its ring is the
    trim itself, whose ends are cut parallel to the seam's or the handle's line.
    """
    trim = trim_outline(wrap).times(mirrored(0))
    left, bottom, right, top = exact_box(trim)
    width, height = right - left, top - bottom
    if not wrap.is_sector:
        return Shape("rectangle", width, height)
    return Shape(
        kind="sector",
        width_mm=width,
        height_mm=height,
        inner_mm=wrap.inner_radius_mm,
        outer_mm=wrap.outer_radius_mm,
        half_deg=_half_deg(wrap),
        centre_below=not wrap.inverted,
        ring=ring_of(trim, (left, bottom)),
        lean_mm=-left - width / 2.0,
    )


def _half_deg(wrap: FlatWrap) -> float:
    """Return half the angle of the least sector about the upright axis that holds the trim.

    An end cut beside its line, and parallel to it, reaches farthest round at the inner radius where it stands out of
    the sector, at the outer one where it is drawn in.
    """
    left, right = cuts_mm(wrap)
    out = max(-left, right)
    radius = wrap.inner_radius_mm if out > 0.0 else wrap.outer_radius_mm
    return math.degrees(abs(wrap.theta) / 2.0 + math.asin(max(-1.0, min(1.0, out / radius))))


def ring_of(path: Path, origin: tuple[float, float], *, error_mm: float = RING_ERROR_MM) -> Ring:
    """Return a path's only subpath as an anticlockwise ring from `origin`, nowhere more than `error_mm` off.

    A cubic cut into n equal parts misses its chords by at most 3/4 d / n^2, d the longest second difference of its
    control points (the error of linear interpolation, h^2/8 max |f''|, with f'' at most 6 d).
    """
    points = _flattened(path.subpaths[0], error_mm) - np.array(origin)
    x, y = points.T
    area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum())
    if area < 0.0:
        points = points[::-1]
    return tuple((float(x), float(y)) for x, y in points)


def _flattened(sub: Subpath, error_mm: float) -> Array:
    pieces = []
    for at in range(0, len(sub.points) - 1, 3):
        p0, p1, p2, p3 = sub.points[at : at + 4]
        bend = max(float(np.linalg.norm(p0 - 2 * p1 + p2)), float(np.linalg.norm(p1 - 2 * p2 + p3)))
        count = max(1, math.ceil(math.sqrt(0.75 * bend / error_mm)))
        s = (np.arange(count) / count)[:, None]
        pieces.append((1 - s) ** 3 * p0 + 3 * s * (1 - s) ** 2 * p1 + 3 * s * s * (1 - s) * p2 + s**3 * p3)
    points = np.concatenate([*pieces, sub.points[-1:]])
    kept = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1) > _SAME_MM
    return np.asarray(points[kept])
