"""The trim of a wrap as it is laid on sheets, against the closed forms of a ring's sector and shapely's areas."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.core.sheet.lay.shapes import shape_of


def test_a_straight_wrap_is_a_rectangle_as_wide_as_its_turn_and_overlap() -> None:
    shape = shape_of(FlatWrap(235.0, 235.0, 102.0, overlap_mm=6.0))
    assert (shape.kind, shape.ring) == ("rectangle", ())
    assert (shape.width_mm, shape.height_mm) == pytest.approx((241.0, 102.0))


@pytest.mark.parametrize(("lower", "upper"), [(200.0, 280.0), (280.0, 200.0)])
def test_a_taper_without_overlap_is_the_sector_of_the_closed_forms(lower: float, upper: float) -> None:
    """Box 2 R sin a by R - r cos a, area a (R^2 - r^2): plane geometry of a ring's sector."""
    shape = shape_of(FlatWrap(lower, upper, 150.0))
    half = math.radians(shape.half_deg)
    assert half == pytest.approx(80.0 / 150.0 / 2.0)
    assert shape.width_mm == pytest.approx(2 * shape.outer_mm * math.sin(half), abs=1e-3)
    assert shape.height_mm == pytest.approx(shape.outer_mm - shape.inner_mm * math.cos(half), abs=1e-3)
    assert shape.centre_below is (upper > lower)
    assert shape.lean_mm == pytest.approx(0.0, abs=1e-9)
    ring = Polygon(shape.ring)
    assert ring.exterior.is_ccw
    assert ring.area == pytest.approx(half * (shape.outer_mm**2 - shape.inner_mm**2), rel=2e-4)
    assert ring.bounds == pytest.approx((0.0, 0.0, shape.width_mm, shape.height_mm), abs=0.021)


@pytest.mark.parametrize(("overlap", "gap"), [(6.0, 0.0), (0.0, 24.0)])
def test_the_sector_round_a_cut_taper_holds_its_ring_and_touches_it(overlap: float, gap: float) -> None:
    wrap = FlatWrap(200.0, 280.0, 150.0, overlap_mm=overlap, gap_mm=gap)
    shape = shape_of(wrap)
    axis = shape.width_mm / 2.0 + shape.lean_mm
    # The outer arc's highest point is the box's top: the centre lies the outer radius below it.
    points = np.array(shape.ring) - [axis, shape.height_mm - shape.outer_mm]
    angles = np.degrees(np.arctan2(points[:, 0], points[:, 1]))
    assert np.abs(angles).max() == pytest.approx(shape.half_deg, abs=1e-3)
    radii = np.hypot(points[:, 0], points[:, 1])
    assert radii.max() == pytest.approx(shape.outer_mm, abs=1e-3)
    # A ring's chords sink below the inner arc by at most their error.
    assert radii.min() == pytest.approx(shape.inner_mm, abs=0.021)


def test_the_overlap_of_a_taper_stands_at_the_left_as_printed() -> None:
    """As seen the overlap lies beyond the right end; the paper shows everything mirrored."""
    plain = shape_of(FlatWrap(200.0, 280.0, 150.0))
    lapped = shape_of(FlatWrap(200.0, 280.0, 150.0, overlap_mm=6.0))
    assert lapped.lean_mm > 1.0
    right = lapped.width_mm / 2.0 - lapped.lean_mm
    assert right == pytest.approx(plain.width_mm / 2.0, abs=1e-6)


def test_the_ring_follows_the_arc_within_two_hundredths() -> None:
    shape = shape_of(FlatWrap(240.0, 290.0, 165.0))
    centre = Point(shape.width_mm / 2.0, shape.height_mm - shape.outer_mm)
    ring = Polygon(shape.ring)
    arc = centre.buffer(shape.outer_mm, quad_segs=4000)
    assert ring.difference(arc.buffer(0.001)).area == pytest.approx(0.0, abs=1e-6)
    middle = [Point(shape.width_mm / 2.0, shape.height_mm - depth) for depth in (0.021, -0.001)]
    assert [ring.contains(one) for one in middle] == [True, False]


@pytest.mark.parametrize(
    ("plate", "kind"),
    [
        (Plate("rectangle"), "rectangle"),
        (Plate("rectangle", 5.0), "outline"),
        (Plate("circle"), "circle"),
        (Plate("outline", ring=((-20, 0), (20, 0), (20, 40), (-20, 25))), "outline"),
    ],
    ids=["sharp", "rounded", "circle", "drawn"],
)
def test_a_flat_blank_is_what_its_outline_is_mirrored(plate: Plate, kind: str) -> None:
    shape = shape_of(FlatWrap(40.0, 40.0, 40.0, seam_deg=180.0, plate=plate))
    assert (shape.kind, shape.width_mm, shape.height_mm) == (kind, pytest.approx(40.0), pytest.approx(40.0))
    if kind == "rectangle":
        assert shape.ring == ()
        return
    ring = Polygon(shape.ring)
    assert ring.exterior.is_ccw
    assert ring.bounds == pytest.approx((0.0, 0.0, 40.0, 40.0), abs=0.021)
    area = {"circle": math.pi * 400, "outline": 1600 - (4 - math.pi) * 25 if plate.corner_mm else 40 * 32.5}[kind]
    assert ring.area == pytest.approx(area, rel=2e-3)  # chords lie inside by up to 0.02 mm
    if plate.ring:  # its high corner, at the right as seen, is at the left of the paper
        assert (0.0, 40.0) in {(round(x, 6), round(y, 6)) for x, y in shape.ring}
