from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.path import Path, Subpath, rectangle
from wrapwright.core.sheet.room import Room, corners, distance, exact_box, overlap, sampled


def test_the_box_of_a_sector_is_the_published_one():
    # Frustum 72 / 90 mm across, 160 mm high: closed form, outer chord 281.2787, box 281.2787 x 170.2043 mm.
    slant = math.hypot(160.0, 9.0)
    outline = trim_outline(FlatWrap(math.pi * 72, math.pi * 90, slant))
    left, bottom, right, top = exact_box(outline)
    assert right - left == pytest.approx(281.2787, abs=1e-3)
    assert top - bottom == pytest.approx(170.2043, abs=1e-3)


def test_the_box_is_of_the_curve_and_not_of_its_control_points():
    # Highest point of this cubic: 3/4 of the control points' height (de Casteljau at the middle).
    arch = Path((Subpath(np.array([[0.0, 0.0], [0.0, 4.0], [6.0, 4.0], [6.0, 0.0]])),))
    assert exact_box(arch) == pytest.approx((0.0, 0.0, 6.0, 3.0))


@pytest.mark.parametrize("wrap", [FlatWrap(235, 235, 90, 6), FlatWrap(210, 250, 140, 5), FlatWrap(250, 200, 9, 0, 24)])
def test_a_wrap_has_four_corners(wrap):
    assert len(corners(trim_outline(wrap))) == 4


def test_distance_is_to_the_nearest_edge_and_nought_inside():
    chains = sampled(rectangle(0, 0, 10, 10))
    assert distance(np.array([[13.0, 14.0]]), chains) == pytest.approx(5.0)
    assert distance(np.array([[5.0, 5.0]]), chains) == 0.0


def test_a_mark_slides_into_the_bow_of_a_sector_and_past_what_stands_there():
    chains = sampled(trim_outline(FlatWrap(200, 290, 60)))
    box = exact_box(trim_outline(FlatWrap(200, 290, 60)))
    room = Room(chains, 3.0, (400, 400), [box])
    first = room.settle((30, 4), "below", 0.5)
    assert first[1] > box[1] + 5  # inside the sector's own box: no more paper is needed
    assert distance(np.array([[x, first[3]] for x in np.linspace(first[0], first[2], 40)]), chains) >= 3.0 - 1e-3
    room.taken.append(first)
    second = room.settle((30, 4), "below", 0.5)
    assert second[3] == pytest.approx(first[1] - 2.0)
    assert not overlap(first, second, 1.99)
