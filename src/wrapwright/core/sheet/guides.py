"""The dashed arcs outside rim and base of a tapered wrap, by which the curved cuts are made."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.design.path import polygon
from wrapwright.core.sheet.marks import Mark, corner_mark, mark

Array = NDArray[np.float64]

NAME = "guide arcs"
GUIDE_MM = 0.15
DASH_MM = 3.0
GAP_MM = 3.0
_POINTS = 7  # along one side of a dash: on a radius of 10 mm its straight pieces miss the arc by 3 micrometres
_LEAST_TURN_MM = 30.0  # a shorter whole turn leaves no arc worth cutting by


def guides_mm(marks: tuple[str, ...]) -> float:
    """Return how far outside the trim the guide arcs stand, by the names of the marks on a page; 0 without arcs."""
    found = [name for name in marks if name.startswith(NAME)]
    return float(found[0].split()[2]) if found else 0.0


def guide_arcs(wrap: FlatWrap, to_print: Array, clear_mm: float) -> tuple[tuple[Mark, ...], ...]:
    """Return the dashes of the arc above the rim and of the one below the base; empty on a straight wall.

    The dashes' edge towards the wrap lies exactly `clear_mm` from the trim; dashes and gaps are as even as 3 mm
    dashes allow.

    Args:
        wrap: the flat wrap.
        to_print: 3x3 matrix, flat mm as seen -> mm of the marks.
        clear_mm: distance from the trim.
    """
    if not wrap.is_sector:
        return ()
    spans = (
        (wrap.height_mm + clear_mm, wrap.height_mm + clear_mm + GUIDE_MM),
        (-clear_mm - GUIDE_MM, -clear_mm),
    )
    if min(wrap.turn_length(up) for span in spans for up in span) < _LEAST_TURN_MM:
        return ()
    name = f"{NAME} {clear_mm:g} mm"
    return tuple(_dashes(wrap, span, name, to_print) for span in spans)


def _dashes(wrap: FlatWrap, span: tuple[float, float], name: str, to_print: Array) -> tuple[Mark, ...]:
    middle = (span[0] + span[1]) / 2.0
    start, end = end_turns(wrap, middle)
    one_mm = 360.0 / wrap.turn_length(middle)
    count = max(1, round(((end - start) / one_mm + GAP_MM) / (DASH_MM + GAP_MM)))
    found = []
    for first in np.linspace(start, end - DASH_MM * one_mm, count):
        turns = np.linspace(first, first + DASH_MM * one_mm, _POINTS)
        near, far = (np.stack(wrap.to_flat(turns, np.asarray(up)), axis=1) for up in span)
        ring = [(float(x), float(y)) for x, y in np.concatenate([near, far[::-1]])]
        found.append(mark(name, polygon(ring).times(to_print), ()))
    return tuple(found)


def join_lines(wrap: FlatWrap, to_print: Array, clear_mm: float) -> list[Mark]:
    """Return the marks beyond rim and base of the line where a panel's own art ends and the next panel's edge lies.

    The next panel's corner marks go on from the same line, so that mark meets mark. Empty where no panel follows.

    Args:
        wrap: the panel.
        to_print: 3x3 matrix, flat mm as seen -> mm of the marks.
        clear_mm: distance from the trim.
    """
    if wrap.to_turn == 360.0 or wrap.overlap_mm <= 0.0:
        return []
    lean = wrap.tilt(wrap.to_turn)
    upward = to_print[:2, :2] @ np.array([np.sin(lean), np.cos(lean)])
    found = []
    for up, along in ((0.0, -upward), (wrap.height_mm, upward)):
        x, y = wrap.to_flat(np.asarray(wrap.to_turn), np.asarray(up))
        place = to_print[:2, :2] @ np.array([float(x), float(y)]) + to_print[:2, 2]
        found.append(corner_mark(place, along, clear_mm))
    return found


def enough(kept: int, dashes: tuple[Mark, ...]) -> bool:
    """Return whether so many dashes still show the arc: at least half of them."""
    return 2 * kept >= len(dashes)
