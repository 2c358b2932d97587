"""Bent outlines against dense samples of their true image, point by point through `Placement.to_flat`."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.design.dense import both_ways, distance_to_line, sampled

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path, Subpath, joined, polygon
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import bent

LIMIT_MM = 0.010  # outlines are promised to ten micrometres
STEEP = FlatWrap(120.0, 330.0, 90.0)  # 134 degrees of sector: a cup far steeper than any on sale
SHALLOW = FlatWrap(226.6, 283.1, 160.25)
UPSIDE_DOWN = FlatWrap(300.0, 220.0, 110.0)


@pytest.mark.parametrize("wrap", [STEEP, SHALLOW, UPSIDE_DOWN])
@pytest.mark.parametrize("turn_deg", [0.0, 33.0, 90.0])
def test_straight_lines_become_curves_true_to_ten_micrometres(wrap, turn_deg):
    triangle = polygon([(-60.0, -25.0), (60.0, -25.0), (5.0, 35.0)])
    placement = Placement(wrap, 140.0, wrap.height_mm / 2, "level", turn_deg)
    assert both_ways(triangle, placement) <= LIMIT_MM
    if turn_deg == 0.0:
        low = bent(triangle, placement).subpaths[0].points
        _, up = wrap.from_flat(low[:, 0], low[:, 1])
        ends = np.isclose(up, wrap.height_mm / 2 - 25.0, atol=1e-9)
        assert ends.sum() >= 3  # the level side was split, and each split point lies on the level


@settings(derandomize=True, max_examples=15, deadline=None)
@given(st.integers(0, 2**31), st.sampled_from([STEEP, SHALLOW, UPSIDE_DOWN]), st.floats(2.0, 60.0))
def test_random_curves_stay_within_ten_micrometres(seed, wrap, size):
    random = np.random.default_rng(seed)
    chain = random.uniform(-size, size, (10, 2)) * (1.0, min(1.0, 0.4 * wrap.height_mm / size))
    placement = Placement(
        wrap, float(random.uniform(0, 360)), wrap.height_mm / 2, "level", float(random.uniform(0, 360))
    )
    assert both_ways(Path((Subpath(chain, closed=False),)), placement) <= LIMIT_MM


def test_the_limit_is_met_by_splitting_and_not_by_luck():
    line = Path((Subpath(np.array([[-90.0, 0], [-30, 0], [30, 0], [90, 0]]), closed=False),))
    placement = Placement(STEEP, 180.0, 45.0, "level")
    assert both_ways(line, placement) <= LIMIT_MM
    coarse = bent(line, placement, error_mm=10.0).subpaths[0].points
    assert len(coarse) < len(bent(line, placement).subpaths[0].points)
    assert distance_to_line(sampled(coarse, 100), placement.to_flat(sampled(line.subpaths[0].points, 400))) > LIMIT_MM


def test_an_implied_closing_edge_bends_too():
    open_ended = Path((Subpath(polygon([(-50.0, 0.0), (0.0, 30.0), (50.0, 0.0)]).subpaths[0].points[:7], closed=True),))
    placement = Placement(STEEP, 180.0, 45.0, "level")
    made = bent(open_ended, placement).subpaths[0].points
    assert np.allclose(made[0], made[-1])
    middle = placement.to_flat(np.array([[0.0, 0.0]]))
    assert distance_to_line(middle, sampled(made, 200)) <= LIMIT_MM


def test_rigid_lays_only_move_the_control_points():
    square = polygon([(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)])
    for placement in (
        Placement(SHALLOW, 200.0, 50.0, "true", 15.0),
        Placement(FlatWrap(200.0, 200.0, 90.0), 200.0, 50.0, "level", 15.0),
    ):
        made = bent(square, placement).subpaths[0].points
        assert made.shape == square.subpaths[0].points.shape
        assert np.allclose(made, placement.to_flat(square.subpaths[0].points), atol=1e-12)


def test_a_lap_is_the_seam_motion():
    star = joined([polygon([(-20.0, -9.0), (20.0, -9.0), (0.0, 14.0)]), polygon([(1.0, 1.0), (3.0, 1.0), (2.0, 4.0)])])
    here = bent(star, Placement(SHALLOW, 350.0, 80.0, "level"))
    there = bent(star, Placement(SHALLOW, 350.0, 80.0, "level", laps=-1))
    moved = here.times(np.linalg.inv(SHALLOW.carried_round(1.0)))
    for one, other in zip(there.subpaths, moved.subpaths, strict=True):
        assert np.allclose(one.points, other.points, atol=1e-9)
