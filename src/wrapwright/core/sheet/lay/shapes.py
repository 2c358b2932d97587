"""The trim of a wrap or a flat blank as it is printed: what is laid on a sheet."""

from __future__ import annotations

import math

import numpy as np

from wrapwright.core.base.rings import anticlockwise
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import cuts_mm
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.path import Path
from wrapwright.core.design.plates import ring_of
from wrapwright.core.sheet.lay.values import Kind, Ring, Shape
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.room import exact_box

RING_ERROR_MM = 0.02


def shape_of(wrap: FlatWrap) -> Shape:
    """Return the trim of a wrap as printed, mirrored and not turned, its box's lower left corner at the origin.

    A straight wrap is a rectangle. A tapered one is a sector with its upright axis opposite the seam; its ring is the
    trim itself, whose ends are cut parallel to the seam's or the handle's line. A flat blank is what its outline is.
    """
    trim = trim_outline(wrap).times(mirrored(0))
    left, bottom, right, top = exact_box(trim)
    width, height = right - left, top - bottom
    if wrap.plate is not None and (wrap.plate.kind != "rectangle" or wrap.plate.corner_mm > 0.0):
        kind: Kind = "circle" if wrap.plate.kind == "circle" else "outline"
        return Shape(kind, width, height, ring=_ring(trim, (left, bottom)))
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
        ring=_ring(trim, (left, bottom)),
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


def _ring(path: Path, origin: tuple[float, float]) -> Ring:
    """Return a path's only subpath as an anticlockwise ring from `origin`, nowhere more than 0.02 mm off."""
    corners = ring_of(path.subpaths[0].points - np.array(origin), RING_ERROR_MM)
    return anticlockwise(tuple(corners))
