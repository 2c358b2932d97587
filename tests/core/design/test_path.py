"""Winding numbers against a polygon library."""

from __future__ import annotations

import numpy as np
import shapely

from wrapwright.core.design.path import windings

STAR = np.array([(0.0, 3.0), (1.8, -2.4), (-2.9, 0.9), (2.9, 0.9), (-1.8, -2.4)])  # wound twice round its middle


def test_which_points_lie_inside_agrees_with_shapely() -> None:
    draw = np.random.default_rng(5)
    angles = np.sort(draw.uniform(0.0, 2.0 * np.pi, 17))
    reach = draw.uniform(1.0, 5.0, 17)
    corners = np.stack([reach * np.cos(angles), reach * np.sin(angles)], axis=1)
    points = draw.uniform(-5.0, 5.0, (2000, 2))
    theirs = shapely.contains_xy(shapely.Polygon(corners), points[:, 0], points[:, 1])
    assert np.array_equal(windings(points, corners) == 1, theirs)
    assert np.array_equal(windings(points, corners[::-1]) == -1, theirs)
    assert 200 < theirs.sum() < 1800


def test_a_star_winds_twice_round_its_middle_and_corners_on_the_ray_count_once() -> None:
    assert abs(windings(np.array([[0.0, 0.0]]), STAR)[0]) == 2
    assert abs(windings(np.array([[0.0, 2.0]]), STAR)[0]) == 1
    square = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
    assert windings(np.array([[0.5, 0.5], [-0.5, 0.0], [-0.5, 1.0], [1.5, 0.5]]), square).tolist() == [1, 0, 0, 0]
