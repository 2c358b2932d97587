"""Shapes and judges for the tests of laying freely: sectors by their radii, and shapely's word on what lies where."""

from __future__ import annotations

import math

import numpy as np
import shapely

from wrapwright.core.sheet.lay.values import Shape
from wrapwright.core.sheet.nest.values import Spot


def sector(inner: float, outer: float, half_deg: float, *, fine: float = 0.02) -> Shape:
    """Return a sector of a ring, its chords at most `fine` mm beside its arcs."""
    half = math.radians(half_deg)

    def arc(radius: float) -> np.ndarray:
        step = 2.0 * math.acos(1.0 - fine / radius)
        angles = np.linspace(-half, half, max(4, math.ceil(2.0 * half / step)) + 1)
        return np.column_stack([radius * np.sin(angles), radius * np.cos(angles)])

    ring = np.concatenate([arc(inner), arc(outer)[::-1]])
    width, height = 2.0 * outer * math.sin(half), outer - inner * math.cos(half)
    ring += [width / 2.0, -inner * math.cos(half)]
    points = tuple((float(x), float(y)) for x, y in ring)
    return Shape("sector", width, height, inner, outer, half_deg, True, points)


def circle(across: float) -> Shape:
    return Shape("circle", across, across)


def rectangle(width: float, height: float) -> Shape:
    return Shape("rectangle", width, height)


def outline(*points: tuple[float, float]) -> Shape:
    across, up = zip(*points, strict=True)
    return Shape("outline", max(across), max(up), ring=points)


def exactly(shape: Shape) -> shapely.Polygon:
    """Return the trim at turn 0: arcs with chords that miss by less than 0.0005 mm."""
    if shape.kind == "rectangle":
        return shapely.box(0.0, 0.0, shape.width_mm, shape.height_mm)
    if shape.kind == "circle":
        radius = shape.width_mm / 2.0
        return shapely.Point(radius, radius).buffer(radius, quad_segs=128)
    if shape.kind == "sector" and not shape.lean_mm:
        return shapely.Polygon(sector(shape.inner_mm, shape.outer_mm, shape.half_deg, fine=0.0005).ring)
    return shapely.Polygon(shape.ring)


def lies(shape: Shape, spot: Spot) -> shapely.Polygon:
    """Return the trim where a spot puts it."""
    turned = shapely.affinity.rotate(exactly(shape), spot.turn_deg, origin=(0.0, 0.0))
    width, height = shape.width_mm, shape.height_mm
    back = {0: (0.0, 0.0), 90: (height, 0.0), 180: (width, height), 270: (0.0, width)}[spot.turn_deg]
    return shapely.affinity.translate(turned, spot.x_mm + back[0], spot.y_mm + back[1])


def nearest(polygons: list[shapely.Polygon]) -> float:
    """Return the least distance between any two, infinite for one alone; negative (their area) where two overlap."""
    tree, least = shapely.STRtree(polygons), math.inf
    for index, one in enumerate(polygons):
        left, bottom, right, top = one.bounds
        for other in tree.query(shapely.box(left - 12.0, bottom - 12.0, right + 12.0, top + 12.0)):
            if other > index:
                apart = one.distance(polygons[other])
                least = min(least, apart if apart > 0.0 else -one.intersection(polygons[other]).area)
    return least


def all_within(polygons: list[shapely.Polygon], width: float, height: float) -> bool:
    boxes = [one.bounds for one in polygons]
    return all(min(box[:2]) >= -1e-6 and box[2] <= width + 1e-6 and box[3] <= height + 1e-6 for box in boxes)


def grid(shape: Shape, area: tuple[float, float], gutter: float) -> int:
    """Return how many boxes stand in one plain grid, upright or turned, whichever holds more."""
    counts = []
    for width, height in ((shape.width_mm, shape.height_mm), (shape.height_mm, shape.width_mm)):
        across = math.floor((area[0] + gutter) / (width + gutter) + 1e-9)
        counts.append(across * math.floor((area[1] + gutter) / (height + gutter) + 1e-9))
    return max(counts)
