"""What a dwell aims at: trials before the recipe, each bound at its careful end."""

from __future__ import annotations

import math

import pytest
from tests.core.press.load.usual import ideal_oven, load

from wrapwright.core.press.load.aim import aim_of, recipe_aim
from wrapwright.core.press.load.values import Aim
from wrapwright.core.press.values import Window

RECIPE = Aim(1.0, 2.0, 4.0)


def test_a_recipe_s_range_is_worth_what_the_closed_form_says():
    aim = recipe_aim(ideal_oven(), load(), (300.0, 900.0))
    # seconds at 195 C of a wall of 80 s in 200 C after 300, 600 and 900 s: 107.207, 495.765, 910.627
    assert [aim.low * 60, aim.mid * 60, aim.high * 60] == pytest.approx([107.207, 495.765, 910.627], rel=2e-4)
    assert aim.source == "recipe"
    assert aim.made_by is not None
    assert (aim.made_by.times_s[-1], len(aim.made_by.times_s)) == (600.0, len(aim.made_by.mid_c))
    assert aim.made_by.mid_c[-1] == pytest.approx(200.0 - 175.0 * math.exp(-600 / 80), abs=0.05)


def test_with_nothing_known_it_is_the_recipe_s():
    assert aim_of(Window(), RECIPE) is RECIPE


def test_between_both_bounds_each_at_its_careful_end():
    aim = aim_of(Window((1.5, 2.0), (8.0, 10.0)), RECIPE)
    assert (aim.low, aim.mid, aim.high, aim.source) == (2.0, 4.0, 8.0, "trials")


def test_bounds_that_meet_leave_an_order():
    aim = aim_of(Window((3.0, 6.0), (4.0, 9.0)), RECIPE)
    assert aim.low <= aim.mid <= aim.high
    assert aim.mid == pytest.approx(math.sqrt(24.0))


@pytest.mark.parametrize(
    ("window", "expected"),
    [
        (Window(low=(2.0, 3.0)), (3.0, 3.6, 4.0)),
        (Window(low=(0.5, 0.8)), (0.8, 2.0, 4.0)),
        (Window(high=(1.8, 2.5)), (1.0, 1.5, 1.8)),
        (Window(high=(9.0, 12.0)), (1.0, 2.0, 9.0)),
    ],
)
def test_one_bound_moves_what_the_recipe_says(window, expected):
    aim = aim_of(window, RECIPE)
    assert (aim.low, aim.mid, aim.high) == pytest.approx(expected)
    assert aim.source == "trials"
