"""The most copies of one part on one area, judged by shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.core.sheet.nest.shapes import all_within, circle, grid, lies, nearest, outline, rectangle, sector

from wrapwright.core.sheet.lay.values import Part, Shape
from wrapwright.core.sheet.nest.alike.blocks import best_block, best_sector_layout, room_for
from wrapwright.core.sheet.nest.values import Spot


def judged(shape: Shape, spots: tuple[Spot, ...], area: tuple[float, float], gutter: float) -> int:
    polygons = [lies(shape, spot) for spot in spots]
    assert all_within(polygons, *area)
    assert nearest(polygons) >= gutter - 1e-3
    return len(spots)


@settings(max_examples=14, deadline=None, derandomize=True)
@given(
    inner=some.floats(60.0, 700.0),
    deep=some.floats(40.0, 200.0),
    half=some.floats(4.0, 65.0),
    width=some.floats(150.0, 700.0),
    height=some.floats(150.0, 700.0),
    gutter=some.sampled_from([0.0, 1.0, 3.0, 8.0]),
)
def test_sectors_keep_their_distance_and_are_never_fewer_than_boxes(
    inner: float, deep: float, half: float, width: float, height: float, gutter: float
) -> None:
    shape, area = sector(inner, inner + deep, half), (width, height)
    found = judged(shape, best_sector_layout(shape, area, gutter, 1000), area, gutter)
    assert found >= grid(shape, area, gutter)


@settings(max_examples=8, deadline=None, derandomize=True)
@given(across=some.floats(20.0, 120.0), width=some.floats(100.0, 500.0), gutter=some.sampled_from([0.0, 2.5]))
def test_circles_are_never_fewer_than_a_grid_and_keep_their_distance(
    across: float, width: float, gutter: float
) -> None:
    area = (width, 300.0)
    found = judged(circle(across), best_sector_layout(circle(across), area, gutter, 1000), area, gutter)
    assert found >= grid(circle(across), area, gutter)


@pytest.mark.parametrize(
    ("radii", "area", "boxes", "least"),
    [
        ((321.4, 471.4, 16.8), (610.0, 900.0), 10, 11),
        ((150.0, 250.0, 35.0), (610.0, 900.0), 12, 16),
        ((120.0, 220.0, 60.0), (610.0, 900.0), 6, 9),
        ((150.0, 250.0, 35.0), (1500.0, 1500.0), 55, 72),
    ],
)
def test_sectors_reaching_into_each_other_are_more_than_boxes(
    radii: tuple[float, float, float], area: tuple[float, float], boxes: int, least: int
) -> None:
    shape = sector(*radii)
    assert grid(shape, area, 3.0) == boxes
    assert judged(shape, best_sector_layout(shape, area, 3.0, 1000), area, 3.0) >= least


def test_hexagons_of_circles_beat_squares_where_there_are_enough() -> None:
    """Circles 20 across in 178.3 x 158.3: 8 x 7 in squares; ten columns of 7, 17.33 mm apart, in hexagons."""
    area = (178.3, 158.3)
    assert grid(circle(20.0), area, 0.0) == 56
    assert judged(circle(20.0), best_sector_layout(circle(20.0), area, 0.0, 1000), area, 0.0) >= 70


def test_circles_spread_out_to_let_their_neighbours_in() -> None:
    """10 across in 50 x 28: ten in squares, nine in hexagons; 14 when every second column is one in the gap of two."""
    area = (50.0, 28.0)
    assert judged(circle(10.0), best_sector_layout(circle(10.0), area, 0.0, 1000), area, 0.0) >= 14


def test_rectangles_fill_what_is_left_beside_a_block_with_turned_ones() -> None:
    """30 x 20 in 50 x 60: three rows of upright ones use 30 x 60, two turned ones 20 x 60."""
    shape = rectangle(30.0, 20.0)
    assert judged(shape, best_sector_layout(shape, (50.0, 60.0), 0.0, 99), (50.0, 60.0), 0.0) == 5
    assert len(best_sector_layout(shape, (50.0, 60.0), 0.0, 99, turns=(0, 180))) == 3


def test_only_the_turns_allowed_are_used() -> None:
    shape = sector(150.0, 250.0, 35.0)
    for turns in ((0,), (90,), (0, 180), (90, 270)):
        spots = best_sector_layout(shape, (900.0, 900.0), 3.0, 1000, turns=turns)
        assert {spot.turn_deg for spot in spots} == set(turns)


def test_few_copies_lie_together_in_a_narrow_strip() -> None:
    block = best_block(Part(circle(50.0), 3), (300.0, 400.0), 2.0, 3)
    assert block.count == 3
    assert block.used_mm == (300.0, 50.0) or math.isclose(block.used_mm[0], 50.0)


def test_outlines_with_a_hollow_are_judged_too() -> None:
    bracket = outline((0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (15.0, 15.0), (15.0, 60.0), (0.0, 60.0))
    area = (300.0, 200.0)
    found = judged(bracket, best_sector_layout(bracket, area, 2.0, 1000), area, 2.0)
    assert found > grid(bracket, area, 2.0)


def test_room_is_said_by_area_and_nothing_fits_a_small_one() -> None:
    assert room_for(Part(rectangle(10.0, 10.0)), (100.0, 100.0)) >= 100
    assert best_sector_layout(sector(300.0, 430.0, 20.0), (100.0, 100.0), 0.0, 5) == ()
