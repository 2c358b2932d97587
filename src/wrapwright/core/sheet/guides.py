"""The dashed lines outside a trim that is not straight, by which the curved cuts are made."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.design.path import polygon
from wrapwright.core.design.plates import plate_outline, ring_of
from wrapwright.core.sheet.marks import Mark, corner_mark, mark

Array = NDArray[np.float64]

NAME = "guide arcs"
LINE = "guide line"
GUIDE_MM = 0.15
DASH_MM = 3.0
GAP_MM = 3.0
_POINTS = 7  # along one side of a dash: on a radius of 10 mm its straight pieces miss the arc by 3 micrometres
_LEAST_TURN_MM = 30.0  # a shorter whole turn leaves no arc worth cutting by


def guides_mm(marks: tuple[str, ...]) -> float:
    """Return how far outside the trim the guide arcs or the guide line stand, by the names of a page's marks, or 0."""
    found = [name for name in marks if name.startswith((NAME, LINE))]
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


def has_line(wrap: FlatWrap) -> bool:
    """Return whether a flat blank is cut along curves, so that corner marks do not tell where."""
    return wrap.plate is not None and (wrap.plate.kind != "rectangle" or wrap.plate.corner_mm > 0.0)


def guide_line(wrap: FlatWrap, to_print: Array, clear_mm: float) -> tuple[Mark, ...]:
    """Return the dashes all round a flat blank that is cut along curves; empty for any other.

    Arguments and the dashes' place as for `guide_arcs`.
    """
    if wrap.plate is None or not has_line(wrap):
        return ()
    name, found = f"{LINE} {clear_mm:g} mm", []
    for sub in plate_outline(wrap, wrap.plate, clear_mm + GUIDE_MM / 2.0).subpaths:
        corners = np.array(ring_of(sub.points, 0.005))
        closed = np.vstack([corners, corners[:1]])
        run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
        count = max(1, round(float(run[-1]) / (DASH_MM + GAP_MM)))
        for first in np.arange(count) * (run[-1] / count):
            at = first + np.linspace(0.0, DASH_MM, _POINTS)
            middle = _along(closed, run, at)
            way = _along(closed, run, at + 0.05) - _along(closed, run, at - 0.05)
            out = np.stack([way[:, 1], -way[:, 0]], axis=1) / np.hypot(*way.T)[:, None] * GUIDE_MM / 2.0
            ring = [(float(x), float(y)) for x, y in np.concatenate([middle - out, (middle + out)[::-1]])]
            found.append(mark(name, polygon(ring).times(to_print), ()))
    return tuple(found)


def _along(closed: Array, run: Array, at: Array) -> Array:
    """Return the points of a closed chain at distances along it."""
    at = at % run[-1]
    return np.stack([np.interp(at, run, closed[:, 0]), np.interp(at, run, closed[:, 1])], axis=1)


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
