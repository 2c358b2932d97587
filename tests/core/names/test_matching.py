"""Two outlines are the same as far as a step of the grid, and no further."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.design.path import Path, Subpath, line_points, polygon
from wrapwright.core.names.matching import STRAIGHT_MM, WITHIN_MM, Off, Outline, difference, moved, outline_of

SQUARE = polygon([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
STEP_MM = 0.015 * 25.4 / 72.0  # of the grid that outlines are written on


def changed(outline: Outline, curve: int, point: int, by: tuple[float, float]) -> Outline:
    curves = outline.curves.copy()
    curves[curve, point] += by
    return Outline(curves, outline.lines)


def test_the_tolerance_is_one_step_and_a_little_for_the_places_rounding() -> None:
    assert STEP_MM < WITHIN_MM < 1.05 * STEP_MM


@pytest.mark.parametrize("point", [0, 1, 2, 3])
def test_each_point_counts(point: int) -> None:
    wanted = outline_of(SQUARE)
    assert difference(changed(wanted, 2, point, (STEP_MM, 0.0)), wanted) is None
    off = difference(changed(wanted, 2, point, (0.006, 0.0)), wanted)
    assert off is not None
    assert (off.curves, off.of) == (1, 4)
    assert off.far_mm == pytest.approx(0.006)


def test_a_line_stands_for_a_curve_that_is_as_straight_and_for_no_other() -> None:
    wanted = outline_of(SQUARE)
    lines = Outline(wanted.curves, np.ones(4, dtype=np.bool_))
    assert difference(lines, changed(wanted, 0, 1, (0.0, 0.9 * STRAIGHT_MM))) is None
    assert difference(lines, changed(wanted, 0, 1, (0.0, 1.1 * STRAIGHT_MM))) is not None
    assert difference(lines, changed(wanted, 0, 1, (-4.0, 0.0))) is not None  # beyond the line's end


def test_an_edge_that_closes_a_chain_is_one_of_its_curves() -> None:
    open_chain = Path((Subpath(line_points(np.array([(0.0, 0.0), (5.0, 0.0), (5.0, 5.0)]))),))
    found = outline_of(open_chain)
    assert len(found.curves) == 3
    assert found.curves[-1, 3].tolist() == [0.0, 0.0]


def test_curves_that_go_nowhere_on_the_grid_may_be_gone_and_others_may_not() -> None:
    corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 0.004), (10.0, 10.0)]
    assert difference(outline_of(polygon([corners[0], corners[1], corners[3]])), outline_of(polygon(corners))) is None
    assert difference(outline_of(SQUARE), outline_of(polygon(corners[:2] + corners[3:]))) == Off(1, 3, None)


def test_an_outline_is_moved_by_a_matrix() -> None:
    turned = moved(outline_of(SQUARE), np.array([[0.0, -1.0, 3.0], [1.0, 0.0, 4.0], [0.0, 0.0, 1.0]]))
    assert turned.curves[0, 3].tolist() == [3.0, 14.0]
