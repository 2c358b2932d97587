"""How far one panel reaches under or over the next, from what may go wrong at a join."""

from __future__ import annotations

import math
from dataclasses import replace

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.measuring.budget import (
    HOLD_MM,
    LEAST_OVERLAP_MM,
    STEEL_GROWTH_MM,
    OverlapNeed,
    Term,
    expanded_mm,
)

_LAY_MM = 0.5  # mark to mark by eye
_CUT_MM = 0.5  # beside a printed line
_CREEP_SHARE = 0.001  # two panels of one paper take up moisture alike; printed minutes apart they differ by this


def join_budget(length_mm: float) -> tuple[Term, ...]:
    """Return every source of doubt about a join, for a panel of that length: half-widths in mm.

    The girth's own doubt is no part of it: panels are laid mark to mark, and all of that doubt comes to the seam.
    """
    return (
        _term("lay to the marks", _LAY_MM),
        _term("cut beside the line", _CUT_MM),
        _term("paper moisture between panels", _CREEP_SHARE * length_mm),
    )


def _term(what: str, half_width_mm: float) -> Term:
    return Term(what, half_width_mm, half_width_mm / math.sqrt(3.0), "estimate")


def join_need(length_mm: float, turn_mm: float, growth_mm: float | None) -> OverlapNeed:
    """Return what the overlap of a join has to cover.

    Args:
        length_mm: of the panel.
        turn_mm: one whole turn.
        growth_mm: of the whole girth when hot; None for a steel blank's.
    """
    growth = STEEL_GROWTH_MM if growth_mm is None else growth_mm
    return OverlapNeed(HOLD_MM, growth * length_mm / turn_mm, 0.0, expanded_mm(join_budget(length_mm)))


def most_mm(wrap: FlatWrap, growth_mm: float | None) -> float:
    """Return the largest overlap any join of this wrap can need."""
    turn = max(wrap.lower_mm, wrap.upper_mm)
    return join_need(turn, turn, growth_mm).rounded_mm


def with_overlaps(panels: tuple[FlatWrap, ...], growth_mm: float | None) -> tuple[FlatWrap, ...]:
    """Return the panels with the overlap that each join needs; the last keeps the wrap's own."""
    found = []
    for panel in panels:
        turn = max(panel.lower_mm, panel.upper_mm)
        length = turn * (panel.to_turn - panel.from_turn) / 360.0
        own = max(join_need(length, turn, growth_mm).rounded_mm, LEAST_OVERLAP_MM)
        found.append(panel if panel.to_turn == 360.0 else replace(panel, overlap_mm=own))
    return tuple(found)
