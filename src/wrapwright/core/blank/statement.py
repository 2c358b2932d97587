"""A flat wrap as the report and `fit` state it: plain values, lengths and degrees to 6 decimals, fixed order."""

from __future__ import annotations

import math

from wrapwright.core.base.units import stated
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import bounding_box_mm, outer_chord_mm, outer_sagitta_mm
from wrapwright.core.blank.wrapped import Wrapped

Stated = dict[str, object]


def sector_statement(wrap: FlatWrap) -> Stated | None:
    """Return inner and outer radius and the angle without the overlap; None for a straight wrap."""
    if not wrap.is_sector:
        return None
    return {
        "inner_radius_mm": stated(wrap.inner_radius_mm),
        "outer_radius_mm": stated(wrap.outer_radius_mm),
        "angle_deg": stated(math.degrees(abs(wrap.theta))),
    }


def wrap_statement(wrapped: Wrapped) -> Stated:
    """Return the report's `wrap`: width, height, overlap and its budget, sector and misfit."""
    return {
        "width_mm": stated(wrapped.wrap.trim_width_mm),
        "height_mm": stated(wrapped.wrap.height_mm),
        "overlap_mm": stated(wrapped.overlap_mm),
        "overlap_budget": [
            {
                "what": term.what,
                "half_width_mm": stated(term.half_width_mm),
                "standard_mm": stated(term.standard_mm),
                "source": term.source,
            }
            for term in wrapped.overlap_budget
        ],
        "sector": sector_statement(wrapped.wrap),
        "misfit_mm": stated(wrapped.misfit_mm),
    }


def blank_statement(wrapped: Wrapped) -> Stated:
    """Return the report's `blank`: its kind, end girths, wall, and whether the foot is the wider end."""
    return {
        "kind": wrapped.kind,
        "girth_top_mm": stated(wrapped.girth_top_mm),
        "girth_bottom_mm": stated(wrapped.girth_bottom_mm),
        "wall_mm": stated(wrapped.wall_mm),
        "inverted": wrapped.inverted,
    }


def cutting_statement(wrap: FlatWrap) -> Stated:
    """Return what one needs to draw and cut the shape: box, outer chord and outer sagitta."""
    width, height = bounding_box_mm(wrap)
    return {
        "bounding_box_mm": [stated(width), stated(height)],
        "outer_chord_mm": stated(outer_chord_mm(wrap)),
        "outer_sagitta_mm": stated(outer_sagitta_mm(wrap)),
    }
