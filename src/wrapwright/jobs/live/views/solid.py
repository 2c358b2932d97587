"""The blank in space, and the measured figures beside the wrap."""

from __future__ import annotations

import math

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.blank.readings import Blank
from wrapwright.core.blank.sight import read_round_deg
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.jobs.live.values import SolidView, WrapFigures


def solid_of(wrapped: Wrapped, blank: Blank) -> SolidView:
    """Return the blank in space.

    Between two readings the wall is the slope of a cone: its rise is what its length along the wall leaves of the
    change of radius (Pythagoras).
    """
    wall: list[tuple[float, float, float]] = []
    rise = 0.0
    for position, girth in wrapped.profile:
        radius = girth / (2.0 * math.pi)
        if wall:
            along, out = position - wall[-1][2], radius - wall[-1][1]
            rise += math.sqrt(max(0.0, along * along - out * out))
        wall.append((rise, radius, position))
    handle = blank.handle
    return SolidView(
        wall=tuple(wall),
        band_from_mm=wrapped.band_from_mm,
        band_height_mm=wrapped.band_height_mm,
        handle=(handle.at_deg, handle.gap_mm) if handle else None,
        coating=hex_of(rgb_of(blank.coating)),
        read_deg=2.0 * read_round_deg(wrapped.wrap.turn_length(wrapped.wrap.height_mm / 2.0)),
    )


def figures_of(wrapped: Wrapped) -> WrapFigures:
    """Return the measured figures."""
    return WrapFigures(
        girth_top_mm=wrapped.girth_top_mm,
        girth_bottom_mm=wrapped.girth_bottom_mm,
        wall_mm=wrapped.wall_mm,
        width_mm=wrapped.wrap.trim_width_mm,
        height_mm=wrapped.wrap.height_mm,
        overlap_mm=wrapped.overlap_mm,
        girth_error_mm=wrapped.girth_error_mm,
        opposite_error_mm=wrapped.opposite_error_mm,
        misfit_mm=wrapped.misfit_mm,
    )
