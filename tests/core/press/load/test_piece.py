"""One piece: its face against solid geometry, its wall and covers from the recipe."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.press.load.piece import USUAL_FACE_M2, covers_of, face_m2, middle_c, wall_of
from wrapwright.data.recipes import recipes

NAMED = {one.name: one for one in recipes()}


def test_the_face_of_a_cylinder_and_a_frustum():
    # cylinder r 40, h 120 mm: 2 pi r h + pi r^2; frustum: pi (r1 + r2) s + pi r1^2, s along the wall.
    girth = 2 * math.pi * 40
    assert face_m2(((0.0, girth), (120.0, girth))) * 1e6 == pytest.approx(2 * math.pi * 40 * 120 + math.pi * 1600)
    low, high = 2 * math.pi * 30, 2 * math.pi * 40
    assert face_m2(((0.0, low), (120.0, high))) * 1e6 == pytest.approx(math.pi * 70 * 120 + math.pi * 900)
    halves = ((0.0, low), (60.0, (low + high) / 2), (120.0, high))
    assert face_m2(halves) == pytest.approx(face_m2(((0.0, low), (120.0, high))))


def test_the_wall_is_the_recipe_s_where_nothing_is_said():
    wall = wall_of(NAMED["double-walled-oven"], 0.6)
    assert (wall.material.name, wall.thickness_mm, wall.double, wall.area_m2) == ("steel", 0.6, True, USUAL_FACE_M2)
    other = wall_of(NAMED["double-walled-oven"], 1.0, 0.03, material="glass", double=False)
    assert (other.material.name, other.double, other.area_m2) == ("glass", False, 0.03)


def test_a_sleeve_lies_over_the_paper():
    assert [one.name for one in covers_of(NAMED["steel-oven"])] == ["sleeve", "paper"]
    assert [one.name for one in covers_of(NAMED["ceramic-press"])] == ["paper"]


def test_the_middle_is_what_a_knob_can_be_set_to():
    for one in NAMED.values():
        low, high = one.celsius
        assert low <= middle_c(one) <= high
        assert middle_c(one) % 5 == 0
    assert middle_c(NAMED["steel-oven"]) == 200.0
