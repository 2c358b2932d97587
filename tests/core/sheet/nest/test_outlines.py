"""The room of a part at a turn: it holds trim, half the gutter, bleed and label, and little more."""

from __future__ import annotations

import math

import pytest
import shapely
from tests.core.sheet.nest.shapes import all_within, circle, exactly, lies, nearest, outline, rectangle, sector

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.lay.shapes import shape_of
from wrapwright.core.sheet.lay.values import Part, Shape
from wrapwright.core.sheet.nest.alike.blocks import best_sector_layout
from wrapwright.core.sheet.nest.outlines import Lying, boxed, lying_at, lyings
from wrapwright.core.sheet.nest.values import Spot

BRACKET = outline((0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (15.0, 15.0), (15.0, 60.0), (0.0, 60.0))


def room(lying: Lying) -> shapely.Polygon:
    return shapely.Polygon(lying.room)


@pytest.mark.parametrize("shape", [sector(150.0, 250.0, 35.0), circle(80.0), rectangle(70.0, 40.0), BRACKET])
@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_room_holds_the_trim_with_half_the_gutter_at_every_turn(shape: Shape, turn: int) -> None:
    wanted = lies(shape, Spot(0.0, 0.0, turn)).buffer(1.5, quad_segs=64)
    found = lying_at(Part(shape), 3.0, turn)
    assert room(found).buffer(1e-6).contains(wanted)
    spare = room(found).area - wanted.area
    assert spare < 4.0 if shape.kind == "rectangle" else spare < 0.08 * wanted.length
    assert found.ink == pytest.approx((0.0, 0.0, *found.size))


def test_a_turn_at_which_a_part_looks_the_same_is_left_out() -> None:
    assert len(lyings(Part(circle(50.0)), 2.0)) == 1
    assert [one.turn for one in lyings(Part(rectangle(70.0, 40.0)), 2.0)] == [0, 90]
    assert [one.turn for one in lyings(Part(rectangle(40.0, 40.0), turns=(90, 0)), 2.0)] == [90]
    assert len(lyings(Part(sector(150.0, 250.0, 35.0)), 2.0)) == 4
    assert len(lyings(Part(rectangle(70.0, 40.0), clear_mm=(1.0, 8.0, 1.0, 1.0)), 2.0)) == 4
    assert len(lyings(Part(circle(50.0), label_mm=(0.0, 0.0, 5.0, 5.0)), 2.0)) == 4


@pytest.mark.parametrize("sideways", [0.0, 3.0 * math.sin(math.radians(35.0))])
def test_bleed_reaches_along_a_sectors_radii_and_not_beyond_its_ends(sideways: float) -> None:
    """Sideways it is said as nothing, or as how far the box round the bleed stands out at the arcs' ends."""
    part = Part(sector(150.0, 250.0, 35.0), bleed_mm=(sideways, 3.0, sideways, 3.0))
    found = lying_at(part, 2.0, 0)
    longer = sector(147.0, 253.0, 35.0)
    shift = (longer.width_mm - part.shape.width_mm) / 2.0
    down = 150.0 * math.cos(math.radians(35.0)) - 147.0 * math.cos(math.radians(35.0))
    bleed = shapely.affinity.translate(exactly(longer), -shift, -down)
    assert room(found).buffer(1e-3).contains(bleed)
    assert found.ink == pytest.approx(bleed.bounds, abs=0.021)  # chords of the ring
    ends = exactly(part.shape).buffer(1.0, quad_segs=32)
    assert room(found).difference(bleed.union(ends).buffer(0.06)).area < 1e-6


def test_a_label_beside_an_outline_belongs_to_its_room_with_what_lies_between() -> None:
    part = Part(circle(60.0), label_mm=(10.0, -12.0, 40.0, -6.0))
    found = lying_at(part, 2.0, 0)
    assert room(found).contains(shapely.box(10.0, -12.0, 40.0, -6.0).buffer(-1e-6))
    assert room(found).contains(shapely.Point(25.0, -3.0))
    assert found.ink == pytest.approx((0.0, -12.0, 60.0, 60.0))
    assert lying_at(part, 2.0, 90).ink == pytest.approx((0.0, 0.0, 72.0, 60.0))
    assert lying_at(part, 2.0, 90).size == (60.0, 60.0)


def test_a_strip_for_a_label_is_kept_along_the_whole_side() -> None:
    """Beyond 2 mm of bleed and 1.5 of half the gutter, 6 mm for a label at the top; all but half the gutter is ink."""
    part = Part(BRACKET, clear_mm=(3.5, 3.5, 3.5, 9.5), bleed_mm=(2.0, 2.0, 2.0, 2.0))
    found = lying_at(part, 3.0, 0)
    assert room(found).contains(shapely.box(0.5, 60.5, 59.5, 69.4))
    assert found.bounds[3] == pytest.approx(69.5, abs=0.03)
    assert found.ink[:3] == pytest.approx((-2.0, -2.0, 62.0), abs=0.01)


def test_boxes_have_their_clear_room_and_no_less_than_half_the_gutter() -> None:
    part = Part(circle(50.0), clear_mm=(1.0, 7.0, 1.0, 1.0), turns=(0, 180))
    upright, upside_down = boxed(part, 4.0)
    assert upright.bounds == pytest.approx((-2.0, -7.0, 52.0, 52.0))
    assert upright.ink == pytest.approx((0.0, -5.0, 50.0, 50.0))
    assert upside_down.bounds == pytest.approx((-2.0, -2.0, 52.0, 57.0))
    assert upright.overhang == pytest.approx(2.0)


@pytest.mark.parametrize(("lower", "upper"), [(220.0, 270.0), (270.0, 220.0)])
@pytest.mark.parametrize(("overlap", "gap"), [(6.0, 0.0), (0.0, 24.0)])
def test_wraps_whose_ends_are_cut_beside_their_lines_keep_the_gutter(
    lower: float, upper: float, overlap: float, gap: float
) -> None:
    shape = shape_of(FlatWrap(lower, upper, 120.0, overlap_mm=overlap, gap_mm=gap))
    area = (480.0, 480.0)
    spots = best_sector_layout(shape, area, 3.0, 100)
    drawn = Shape("outline", shape.width_mm, shape.height_mm, ring=shape.ring)
    polygons = [lies(drawn, spot) for spot in spots]
    assert all_within(polygons, *area)
    assert 3.0 - 1e-6 <= nearest(polygons) < 3.2
    boxes = max(
        math.floor(483.0 / (wide + 3.0)) * math.floor(483.0 / (high + 3.0))
        for wide, high in ((shape.width_mm, shape.height_mm), (shape.height_mm, shape.width_mm))
    )
    assert len(spots) >= boxes
