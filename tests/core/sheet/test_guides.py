"""The dashed arcs: where they lie, on which wraps, and that nothing stands on them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.fitting import gave_way
from wrapwright.core.sheet.guides import guide_arcs, guides_mm
from wrapwright.core.sheet.placed import Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import overlap

LETTER = SheetRequest()
A3 = SheetRequest(paper="A3", width_mm=297.0, height_mm=420.0)
STEEP = FlatWrap(190.0, 300.0, 90.0, 6.0)
GENTLE = FlatWrap(235.0, 250.0, 100.0, 6.0)
INVERTED = FlatWrap(250.0, 205.0, 100.0, 6.0)


def page_of(wrap, sheet=A3, bleed=2.0):
    return arrange(wrap, bleed_mm=bleed, sheet=sheet, slips=[Slip("Any", 1, 2, "Ada")], set_label=set_label).pages[0]


def heights(page, wrap, points):
    """How high along the wall the corners of a shape on the page lie."""
    flat = points[::3] @ np.linalg.inv(page.to_page)[:2, :2].T + np.linalg.inv(page.to_page)[:2, 2]
    return wrap.from_flat(flat[:, 0], flat[:, 1])[1]


def is_dash(page, wrap, points, clear=3.0):
    """Whether a shape lies wholly in the ring of the arcs."""
    up = heights(page, wrap, points)
    over = np.maximum(up - wrap.height_mm, -up)
    return bool(over.min() >= clear - 1e-6 and over.max() <= clear + 0.15 + 1e-6)


def box(points):
    return (*points.min(axis=0), *points.max(axis=0))


@pytest.mark.parametrize("wrap", [STEEP, GENTLE, INVERTED])
@pytest.mark.parametrize(("bleed", "clear"), [(0.0, 3.0), (2.0, 3.0), (4.0, 5.0)])
def test_dashes_of_3_mm_follow_rim_and_base_at_the_distance_named(wrap, bleed, clear):
    page = page_of(wrap, bleed=bleed)
    assert f"guide arcs {clear:g} mm" in page.marks
    assert guides_mm(page.marks) == clear
    found = [sub.points for sub in page.lines.subpaths if is_dash(page, wrap, sub.points, clear)]
    for side in (True, False):
        row = [points for points in found if bool(heights(page, wrap, points).mean() > 10.0) is side]
        length = wrap.turn_length(wrap.height_mm + clear if side else -clear) + wrap.overlap_mm
        # A dash and a gap take 6 mm; those by the corner marks and by words stay away.
        assert 0.5 * length / 6.0 - 1 < len(row) <= length / 6.0 + 1
        for points in row:
            assert 3.0 <= np.hypot(*np.ptp(points, axis=0)) <= 3.25


def test_the_arcs_radii_are_those_of_the_cone():
    """A frustum unrolls to arcs about one centre (descriptive geometry): R = girth / theta."""
    theta = 110.0 / 90.0
    rows = guide_arcs(STEEP, np.eye(3), 3.0)
    apex = np.array([0.0, -190.0 / theta])
    for row, radius in zip(rows, (300.0 / theta + 3.0, 190.0 / theta - 3.0), strict=True):
        points = np.concatenate([sub.points[::3] for one in row for sub in one.lines.subpaths])
        away = np.hypot(*(points - apex).T)
        assert away.min() == pytest.approx(min(radius, radius + math.copysign(0.15, radius - 200.0)), abs=1e-6)
        assert away.max() == pytest.approx(max(radius, radius + math.copysign(0.15, radius - 200.0)), abs=1e-6)


def test_a_straight_wrap_has_none_and_nor_has_a_tip_of_a_cone():
    assert not [name for name in page_of(FlatWrap(235.0, 235.0, 100.0, 6.0)).marks if name.startswith("guide")]
    assert guide_arcs(FlatWrap(20.0, 300.0, 150.0), np.eye(3), 3.0) == ()


@pytest.mark.parametrize(("wrap", "sheet"), [(STEEP, A3), (GENTLE, LETTER), (INVERTED, LETTER), (GENTLE, A3)])
def test_no_word_and_no_other_line_stands_on_a_dash(wrap, sheet):
    page = page_of(wrap, sheet)
    found = [sub.points for sub in page.lines.subpaths if is_dash(page, wrap, sub.points)]
    others = [sub.points for sub in page.lines.subpaths if not is_dash(page, wrap, sub.points)]
    assert len(found) > 20
    assert len(others) >= 8  # the corner marks
    there = [label.path.box() for label in page.labels] + [box(points) for points in others]
    for points in found:
        assert not any(overlap(box(points), other, 0.5) for other in there)


def test_they_give_way_with_the_corner_marks():
    page = page_of(FlatWrap(236.0, 240.0, 205.0, 6.0), LETTER)
    assert "corner marks" not in page.marks
    assert guides_mm(page.marks) == 0.0


def test_corner_marks_beside_the_piece_stay_when_those_above_find_no_room():
    page = page_of(FlatWrap(240.0, 240.0, 207.0, 6.0), LETTER)
    assert page.bleed_mm == 0.0
    assert "some corner marks" in page.marks
    left, bottom, right, top = page.trim_box
    ticks = [sub.points for sub in page.lines.subpaths if np.ptp(sub.points, axis=0).max() < 4.5]
    beside = [one for one in ticks if one[:, 0].max() <= left - 2.9 or one[:, 0].min() >= right + 2.9]
    assert len(beside) >= 3  # the label may stand where the fourth would
    assert all(one[:, 1].min() >= bottom - 0.2 and one[:, 1].max() <= top + 0.2 for one in beside)
    assert "all the corner marks" in " ".join(gave_way(page.marks, bleed_cut_mm=0.0))
