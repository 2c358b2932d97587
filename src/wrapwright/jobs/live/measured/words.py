"""A measured blank in plain words: what was worked out, how well it is known, and what its overlap is for."""

from __future__ import annotations

import math

from wrapwright.core.blank.measuring.budget import LEAST_OVERLAP_MM
from wrapwright.core.blank.trim import bounding_box_mm
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.outside.documents.screen.lengths import Unit, both, said

Row = tuple[str, str]


def figure_rows(wrapped: Wrapped, unit: Unit) -> tuple[Row, ...]:
    """Return label and value of what the readings come to, for a list beside the drawing."""
    wrap = wrapped.wrap
    rows: list[Row] = []
    if wrap.plate is not None:
        return (
            ("Width", both(wrap.lower_mm, unit)),
            ("Height", both(wrap.height_mm, unit)),
            ("Width is known to", f"± {said(wrapped.girth_error_mm, unit)}"),
        )
    if wrapped.kind == "straight":
        rows.append(("Bare girth", both(wrapped.girth_bottom_mm, unit)))
    else:
        rows.append(("Bare girth at the top", both(wrapped.girth_top_mm, unit)))
        rows.append(("Bare girth at the bottom", both(wrapped.girth_bottom_mm, unit)))
    rows.append(("Flat width", both(wrap.trim_width_mm, unit)))
    rows.append(("Flat height", both(wrap.height_mm, unit)))
    if wrap.is_sector:
        radii = f"{said(wrap.inner_radius_mm, unit)} and {said(wrap.outer_radius_mm, unit)}"
        rows.append(("Sector", f"radii {radii}, {math.degrees(abs(wrap.theta)):.2f}°"))
        width, height = bounding_box_mm(wrap)
        rows.append(("Box round it", f"{said(width, unit)} × {said(height, unit)}"))
    rows.append(("Girth is known to", f"± {said(wrapped.girth_error_mm, unit)}"))
    rows.append(("Front and back opposite to", f"± {said(wrapped.opposite_error_mm, unit)}"))
    return tuple(rows)


def doubt_rows(wrapped: Wrapped, unit: Unit) -> tuple[tuple[str, str, str, float, str], ...]:
    """Return what, half-width, standard uncertainty, share of the sum of squares, and source of every term."""
    whole = sum(term.standard_mm**2 for term in wrapped.overlap_budget) or 1.0
    return tuple(
        (
            term.what,
            f"± {said(term.half_width_mm, unit, digits=2)}",
            said(term.standard_mm, unit, digits=2),
            term.standard_mm**2 / whole,
            term.source,
        )
        for term in wrapped.overlap_budget
    )


def doubt_words(wrapped: Wrapped, unit: Unit) -> str:
    """Return in two sentences how well the girth is known and what that means on the piece."""
    worst = max(wrapped.overlap_budget, key=lambda term: term.standard_mm)
    if wrapped.wrap.plate is not None:
        known = f"From these readings the print is as wide as the blank to ± {said(wrapped.girth_error_mm, unit)}"
        return f"{known}. The largest doubt is the {worst.what}."
    known = f"From these readings the girth is known to ± {said(wrapped.girth_error_mm, unit)}"
    opposite = f"front and back come out within {said(wrapped.opposite_error_mm, unit)} of exactly opposite"
    return f"{known}; {opposite}. The largest doubt is the {worst.what}."


def overlap_words(wrapped: Wrapped, unit: Unit, *, asked: float | None) -> str:
    """Return what the overlap is and what it is for."""
    if wrapped.wrap.plate is not None:
        return "The transfer is cut to the blank's edge, all round."
    if wrapped.wrap.gap_mm:
        return "No overlap: the ends stop at the handle."
    need = wrapped.need
    parts = [(need.hold_mm, "for the tape to hold"), (need.growth_mm, "for the blank's growth in the heat")]
    parts += [(need.misfit_mm, "for the bulge")] if need.misfit_mm > 0.005 else []
    parts += [(need.doubt_mm, "for what the girth may be out by")]
    listed = ", ".join(f"{said(length, unit)} {what}" for length, what in parts)
    sum_words = f"{listed}: together {said(need.sum_mm, unit)}"
    if asked is None:
        least = f", and never under {said(LEAST_OVERLAP_MM, unit)}" if need.sum_mm < LEAST_OVERLAP_MM else ""
        return f"{said(need.rounded_mm, unit)} of overlap: {sum_words}, rounded up to the next half millimetre{least}."
    return (
        f"{said(asked, unit)} of overlap, as you asked. The readings ask for {listed}: {said(need.rounded_mm, unit)}."
    )
