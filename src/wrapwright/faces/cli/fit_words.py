"""A fitted wrap in plain words, in mm and inches."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wrapwright.core.base.units import both_words, mm_words

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped
    from wrapwright.jobs.fit_wrap import Fitted


def shape_lines(fitted: Fitted) -> list[str]:
    """Return the lines that say the shape, how to draw it, and how well the girth is known."""
    if fitted.wrapped.wrap.plate is not None:
        rows = _plate_rows(fitted.wrapped)
    else:
        rows = _sector_rows(fitted) if fitted.wrapped.wrap.is_sector else _rectangle_rows(fitted.wrapped)
        rows += _common_rows(fitted)
    width = max(len(name) for name, _ in rows[1:])
    return [rows[0][0], *(f"  {name:<{width}}  {words}" for name, words in rows[1:])]


def _plate_rows(wrapped: Wrapped) -> list[tuple[str, str]]:
    wrap = wrapped.wrap
    corner = wrap.plate.corner_mm if wrap.plate else 0.0
    rows = [("width", _both(wrap.lower_mm)), ("height", _both(wrap.height_mm))]
    if corner:
        rows.append(("radius of the corners", _both(corner)))
    rows.append(("the width may be out by", f"{mm_words(wrapped.girth_error_mm)}, read to 1 mm"))
    head = "A circle." if wrap.plate and wrap.plate.kind == "circle" else "A rectangle."
    return [(head, ""), *rows]


def _rectangle_rows(wrapped: Wrapped) -> list[tuple[str, str]]:
    return [
        ("A rectangle.", ""),
        ("width", _both(wrapped.wrap.trim_width_mm)),
        ("height", _both(wrapped.wrap.height_mm)),
    ]


def _sector_rows(fitted: Fitted) -> list[tuple[str, str]]:
    wrap = fitted.wrapped.wrap
    wide, narrow = ("foot", "top") if wrap.inverted else ("top", "foot")
    return [
        (f"A sector of a ring; its longer arc goes to the {wide} of the band.", ""),
        ("outer radius", _both(wrap.outer_radius_mm)),
        ("inner radius", _both(wrap.inner_radius_mm)),
        ("angle", f"{math.degrees(abs(wrap.theta)):.3f} deg, overlap not counted"),
        (f"arc at the {wide}", _both(max(wrap.lower_mm, wrap.upper_mm) + wrap.overlap_mm)),
        (f"arc at the {narrow}", _both(min(wrap.lower_mm, wrap.upper_mm) + wrap.overlap_mm)),
        ("height along the wall", _both(wrap.height_mm)),
        ("outer chord", _both(fitted.outer_chord_mm)),
        ("rise over that chord", _both(fitted.outer_sagitta_mm)),
        ("box round it", f"{mm_words(fitted.bounding_box_mm[0])} x {mm_words(fitted.bounding_box_mm[1])}"),
    ]


def _common_rows(fitted: Fitted) -> list[tuple[str, str]]:
    wrapped = fitted.wrapped
    middle = wrapped.wrap.turn_length(wrapped.wrap.height_mm / 2.0)
    rows = [
        ("overlap, counted above", _both(wrapped.overlap_mm) if wrapped.overlap_mm else "none"),
        ("front to back at mid height", _both(middle / 2.0)),
        ("the girth may be out by", f"{mm_words(wrapped.girth_error_mm)}, read to 1 mm with a class II tape"),
    ]
    if wrapped.kind == "profile":
        fit = wrapped.misfit
        top = fit.tallest_from_mm + fit.tallest_height_mm
        rows += [
            ("misfit of the girth", f"up to {mm_words(fit.misfit_mm, digits=2)}"),
            ("gap under the wrap", f"up to {mm_words(fit.stand_off_mm, digits=2)}"),
            ("tallest band that fits", f"from {mm_words(fit.tallest_from_mm)} to {mm_words(top)}"),
        ]
    return rows


def _both(length_mm: float) -> str:
    return both_words(length_mm, digits=2, parts=32)
