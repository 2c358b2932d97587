"""Borders against closed forms, and `inside_trim` against a polygon library."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import cut_turn, end_turns
from wrapwright.core.design.borders import (
    bleed_outline,
    flattened,
    inside_trim,
    safe_outline,
    touches,
    trim_outline,
)
from wrapwright.core.design.path import rectangle

# G5 of the table of check values: diameters 72 / 90 mm, axial height 160: slant 160.25293, angle 20.218 degrees.
G5 = FlatWrap(226.1947, 282.7433, 160.25293)
STRAIGHT = FlatWrap(235.0, 235.0, 102.0, overlap_mm=6.0)
MUG = FlatWrap(255.0, 255.0, 90.0, gap_mm=24.0, seam_deg=180.0)
TAPERED_MUG = FlatWrap(220.0, 260.0, 95.0, gap_mm=24.0, seam_deg=180.0)
CUP = FlatWrap(226.0, 283.0, 160.0, overlap_mm=6.5)
WIDE = FlatWrap(120.0, 420.0, 80.0, overlap_mm=5.0)  # 215 degrees of sector
UPSIDE_DOWN = FlatWrap(300.0, 220.0, 110.0, overlap_mm=5.0)
ALL = [G5, STRAIGHT, MUG, TAPERED_MUG, CUP, WIDE, UPSIDE_DOWN]


def polygon_of(path) -> shapely.Polygon:
    return shapely.Polygon(flattened(path.subpaths[0], 200))


def test_straight_trim_is_the_rectangle_with_the_overlap_at_its_right():
    assert trim_outline(STRAIGHT).box() == pytest.approx((-117.5, 0.0, 123.5, 102.0))
    assert trim_outline(MUG).box() == pytest.approx((-127.5 + 12, 0.0, 127.5 - 12, 90.0))


def test_sector_has_the_area_and_height_of_the_closed_form():
    trim = polygon_of(trim_outline(G5))
    assert trim.area == pytest.approx((226.1947 + 282.7433) / 2 * 160.25293, rel=1e-5)  # G10: pi (R + r) s
    left, bottom, right, top = trim.bounds
    assert right - left == pytest.approx(281.2787, abs=1e-3)  # G5: outer chord
    assert top - bottom == pytest.approx(170.2043, abs=1e-3)  # G5: bounding box


@pytest.mark.parametrize("wrap", ALL)
def test_rim_and_base_are_true_arcs_within_a_micrometre(wrap):
    edge = flattened(bleed_outline(wrap, 2.0).subpaths[0], 64)
    _, up = wrap.from_flat(edge[:, 0], edge[:, 1])
    low, high = edge[np.abs(up + 2.0) < 0.5], edge[np.abs(up - wrap.height_mm - 2.0) < 0.5]
    for points, level in ((low, -2.0), (high, wrap.height_mm + 2.0)):
        _, there = wrap.from_flat(points[:, 0], points[:, 1])
        on_arc = there[np.abs(there - level) < 0.01]
        assert len(on_arc) > 60
        assert np.abs(on_arc - level).max() <= 0.001


@pytest.mark.parametrize("wrap", [CUP, TAPERED_MUG, UPSIDE_DOWN])
def test_ends_are_strips_of_constant_width(wrap):
    for up in (0.0, wrap.height_mm / 3, wrap.height_mm):
        for turn, offset in zip(end_turns(wrap, up), (wrap.gap_mm / 2, wrap.overlap_mm - wrap.gap_mm / 2), strict=True):
            line = 0.0 if turn < 180.0 else 360.0
            x, y = wrap.to_flat(np.array([line, line, turn]), np.array([-50.0, 150.0, up]))
            run = np.array([x[1] - x[0], y[1] - y[0]]) / math.hypot(x[1] - x[0], y[1] - y[0])
            off = (x[2] - x[0]) * run[1] - (y[2] - y[0]) * run[0]
            assert off == pytest.approx(offset, abs=1e-9)


def test_a_cut_farther_out_than_the_apex_is_away_turns_a_quarter_of_the_sheet():
    # Radius at the lower edge 4 mm, the cut 5 mm beside the line: asin has no value, the bleed outline still one.
    cone = FlatWrap(4.0, 54.0, 50.0, overlap_mm=5.0)
    assert cone.theta == 1.0
    assert cut_turn(cone, 5.0, 0.0) == pytest.approx(360.0 * (math.pi / 2.0) / cone.theta)
    assert np.isfinite(bleed_outline(cone, 2.0).box()).all()


def test_cut_turn_goes_over_into_the_straight_wall():
    nearly = FlatWrap(235.0, 235.0 + 1e-7, 100.0)
    assert cut_turn(nearly, 12.0, 50.0) == pytest.approx(cut_turn(FlatWrap(235.0, 235.0, 100.0), 12.0, 50.0), rel=1e-8)


@pytest.mark.parametrize("wrap", ALL)
@pytest.mark.parametrize("bleed", [0.0, 2.0])
def test_inside_trim_agrees_with_a_polygon_library(wrap, bleed):
    polygon = polygon_of(bleed_outline(wrap, bleed))
    left, bottom, right, top = polygon.bounds
    random = np.random.default_rng(7)
    x = random.uniform(left - 20, right + 20, 4000)
    y = random.uniform(bottom - 20, top + 20, 4000)
    points = shapely.points(x, y)
    clear = shapely.distance(polygon.exterior, points) > 0.01
    ours = inside_trim(wrap, x, y, bleed)
    theirs = shapely.contains(polygon, points)
    assert (ours == theirs)[clear].all()
    assert 200 < theirs.sum() < 3900


def test_safe_part_keeps_off_rim_base_seam_and_handle():
    assert safe_outline(STRAIGHT, 4.0).box() == pytest.approx((-113.5, 4.0, 113.5, 98.0))
    assert safe_outline(MUG, 4.0).box() == pytest.approx((-111.5, 4.0, 111.5, 86.0))
    assert safe_outline(MUG, 45.0).subpaths == ()
    for wrap in (CUP, TAPERED_MUG, UPSIDE_DOWN):
        inner, outer = polygon_of(safe_outline(wrap, 4.0)), polygon_of(trim_outline(wrap))
        assert outer.contains(inner)
        assert inner.exterior.distance(outer.exterior) == pytest.approx(4.0, abs=0.01)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.sampled_from([STRAIGHT, MUG, CUP, WIDE]), st.floats(-220, 220), st.floats(-60, 200), st.floats(0.5, 150))
def test_touching_agrees_with_a_polygon_library(wrap, x, y, size):
    box = rectangle(x, y, x + size, y + size / 3)
    shared = polygon_of(bleed_outline(wrap, 2.0)).intersection(shapely.box(x, y, x + size, y + size / 3)).area
    if shared > 0.05 or shared == 0.0:
        assert touches(wrap, box, 2.0) == (shared > 0.0)


def test_a_shape_that_covers_the_whole_wrap_touches_and_a_neighbour_at_its_edge_does_not():
    assert touches(STRAIGHT, rectangle(-500, -500, 500, 500), 2.0)
    assert not touches(STRAIGHT, rectangle(123.5, 0.0, 150.0, 50.0), 2.0)
    assert not touches(STRAIGHT, rectangle(-150.0, 0.0, -117.5, 50.0), 2.0)
