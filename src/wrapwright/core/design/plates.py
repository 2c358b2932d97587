"""The outline of a flat blank's transfer, grown or drawn in all round, and how far places lie inside it."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate, Ring
from wrapwright.core.design.path import Path, Subpath, joined, line_points, polygon, rectangle
from wrapwright.core.design.supplies import Art

Array = NDArray[np.float64]

_FINE = 20_000.0  # an outline's straight pieces miss its curves by this part of its longer side: 5 microns of 100 mm
_QUARTER = 16  # straight pieces of a quarter turn where an outline is grown round a corner: 2 microns at 2 mm


def plate_outline(wrap: FlatWrap, plate: Plate, grow_mm: float) -> Path:
    """Return a flat blank's outline grown by `grow_mm` all round, drawn in below 0; empty when nothing is left.

    Rectangles keep sharp corners, rounded ones and circles stay what they are; an outline is grown round its corners.
    """
    wide, high = wrap.lower_mm / 2.0 + grow_mm, wrap.height_mm / 2.0 + grow_mm
    if min(wide, high) <= 0.0:
        return Path()
    if plate.kind == "outline":
        return polygon(plate.ring) if grow_mm == 0.0 else _grown(plate, grow_mm)
    middle = wrap.height_mm / 2.0
    if plate.kind == "circle":
        return rounded(wide, high, wide, (0.0, middle))
    radius = max(0.0, plate.corner_mm + grow_mm) if plate.corner_mm > 0.0 else 0.0
    return rounded(wide, high, radius, (0.0, middle))


def rounded(half_width: float, half_height: float, radius: float, middle: tuple[float, float]) -> Path:
    """Return a box with round corners, anticlockwise; each corner in two cubics (radial error under 5 in a million)."""
    x0, y0 = middle
    if radius <= 0.0:
        return rectangle(x0 - half_width, y0 - half_height, x0 + half_width, y0 + half_height)
    handle = 4.0 / 3.0 * math.tan(math.pi / 16.0)
    chain: list[Array] = []
    for quarter, (side_x, side_y) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        centre = np.array([x0 + side_x * (half_width - radius), y0 + side_y * (half_height - radius)])
        for eighth in (0, 1):
            start = math.pi / 4.0 * (2 * quarter + eighth)
            one, other = _unit(start), _unit(start + math.pi / 4.0)
            out, back = _unit(start + math.pi / 2.0), _unit(start + 3.0 * math.pi / 4.0)
            curve = centre + radius * np.stack([one, one + handle * out, other - handle * back, other])
            chain.append(curve if not chain else _joined_on(chain[-1][-1], curve))
    closing = _joined_on(chain[-1][-1], chain[0][:1])
    return Path((Subpath(np.concatenate([*chain, closing])),))


def _unit(angle: float) -> Array:
    return np.array([math.cos(angle), math.sin(angle)])


def _joined_on(last: Array, curve: Array) -> Array:
    """Return what follows `last` in a chain: a straight line to the curve where it begins elsewhere, then the curve."""
    if float(np.abs(curve[0] - last).max()) <= 1e-9:
        return curve[1:]
    return np.concatenate([line_points(np.stack([last, curve[0]]))[1:], curve[1:]])


def _grown(plate: Plate, grow_mm: float) -> Path:
    from shapely import MultiPolygon, Polygon

    found = Polygon(plate.ring).buffer(grow_mm, quad_segs=_QUARTER)
    parts = list(found.geoms) if isinstance(found, MultiPolygon) else [found]
    rings = [list(part.exterior.coords)[:-1] for part in parts if not part.is_empty]
    return joined(polygon([(float(x), float(y)) for x, y in ring][::-1]) for ring in rings)


def outer_ring(art: Art, *, where: str) -> tuple[Ring, int]:
    """Return the outer ring of a drawing's one filled shape, y up in the drawing's unit, and how many holes it has.

    Raises:
        WrapwrightError: unusable, when there is no filled shape, or more than one beside each other.
    """
    from shapely import Polygon

    size = np.array([art.width, art.height])
    error = float(size.max()) / _FINE
    subs = [sub for shape in art.shapes if shape.stroke == 0.0 for sub in shape.path.subpaths]
    rings = [ring_of(sub.points * size, error) for sub in subs]
    areas = [Polygon(ring) for ring in rings if len(ring) > 2]
    # The hull's area: one that crosses itself may hold nothing in sum, and is told as crossing later.
    areas = sorted((one for one in areas if one.convex_hull.area > 0.0), key=lambda one: -one.convex_hull.area)
    if not areas:
        raise unusable(
            "the drawing of the outline holds no filled shape.",
            remedy="Fill the shape with one solid colour; a line alone is no outline.",
            where=where,
        )
    outer, inner = areas[0], areas[1:]
    if outer.is_valid and not all(one.is_valid and outer.covers(one) for one in inner):
        raise unusable(
            f"the drawing of the outline holds {len(areas)} shapes that are not inside each other.",
            remedy="Join them into one shape, or draw one blank to a file.",
            where=where,
        )
    return tuple((float(x), float(y)) for x, y in list(outer.exterior.coords)[:-1]), len(inner)


def ring_of(points: Array, error: float) -> list[tuple[float, float]]:
    """Return the corners of a chain of cubics as straight pieces, nowhere more than `error` off, none twice in a row.

    A cubic cut into n equal parts misses its chords by at most 3/4 d / n^2, d the longest second difference of its
    control points (the error of linear interpolation, h^2/8 max |f''|, with f'' at most 6 d).
    """
    pieces = []
    for at in range(0, len(points) - 1, 3):
        p0, p1, p2, p3 = points[at : at + 4]
        bend = max(float(np.linalg.norm(p0 - 2 * p1 + p2)), float(np.linalg.norm(p1 - 2 * p2 + p3)))
        count = max(1, math.ceil(math.sqrt(0.75 * bend / error)))
        s = (np.arange(count) / count)[:, None]
        pieces.append((1 - s) ** 3 * p0 + 3 * s * (1 - s) ** 2 * p1 + 3 * s * s * (1 - s) * p2 + s**3 * p3)
    corners = np.concatenate([*pieces, points[-1:]])
    kept = np.linalg.norm(corners - np.roll(corners, 1, axis=0), axis=1) > error * 1e-6
    return [(float(x), float(y)) for x, y in corners[kept]]


def plate_room(wrap: FlatWrap, plate: Plate, x: Array, y: Array) -> Array:
    """Return how many mm flat points lie inside a flat blank's outline, below 0 outside it.

    Beyond a sharp corner the larger of the distances from its two sides counts, as its bleed goes.
    """
    x, y = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    half_width, half_height = wrap.lower_mm / 2.0, wrap.height_mm / 2.0
    if plate.kind == "circle":
        return np.asarray(half_width - np.hypot(x, y - half_height))
    if plate.kind == "rectangle":
        over_x = np.abs(x) - half_width + plate.corner_mm
        over_y = np.abs(y - half_height) - half_height + plate.corner_mm
        inside = np.minimum(np.maximum(over_x, over_y), 0.0)
        if plate.corner_mm <= 0.0:
            return np.asarray(-np.maximum(over_x, over_y))
        return np.asarray(plate.corner_mm - inside - np.hypot(np.maximum(over_x, 0.0), np.maximum(over_y, 0.0)))
    from shapely import Polygon, contains_xy, distance, points, prepare

    area = Polygon(plate.ring)
    prepare(area)
    away = distance(area.exterior, points(x, y))
    return np.asarray(np.where(contains_xy(area, x, y), away, -away), dtype=np.float64)
