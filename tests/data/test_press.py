"""The shipped recipes and cautions."""

from __future__ import annotations

import pytest

from wrapwright.data.press import cautions, cautions_for, recipes


def test_recipes_lie_in_the_published_range_of_vapour_transfer():
    # D1: press range 170-220 degC, "Textile terms definition", textileindonesia.com/kb/transfer-printing.
    for one in recipes():
        assert 170 <= one.celsius[0] <= one.celsius[1] <= 220, one.name
        assert 30 <= one.seconds[0] < one.seconds[1] <= 20 * 60, one.name


def test_every_recipe_says_that_it_has_no_source():
    assert len(recipes()) >= 4
    assert {one.source for one in recipes()} == {"common practice, no source"}
    assert len({one.name for one in recipes()}) == len(recipes())


def test_the_thick_wall_takes_longer_than_the_thin_one():
    # H17: at h = 25 W/m2K the time constant is 309 s for 4 mm ceramic and 80 s for 0.5 mm steel.
    named = {one.name: one for one in recipes()}
    assert named["ceramic-oven"].seconds[0] > 2 * named["steel-oven"].seconds[0]


def test_cautions_choose_by_ware_and_heater():
    def named(step, ware, heater):
        return {one.name for one in cautions_for(step, ware, heater)}

    assert "press" in named("heat", "ceramic", "press")
    assert "press" not in named("heat", "ceramic", "oven")
    assert "no-food" in named("heat", "steel", "oven")
    assert "vacuum" not in named("heat", "ceramic", "oven")
    assert "vacuum" in named("heat", "double-walled", "oven")
    assert "water" in named("finish", "glass", "oven")
    assert "closed-vessel" in named("heat", "aluminium", "press")


def test_a_double_wall_is_minded_whatever_the_ware_is_called():
    def named(**more):
        return {one.name for one in cautions_for("heat", "ceramic", "oven", **more)}

    assert named(double=True) == named() | {"vacuum"}
    assert named(double=True, flat=True) == named(flat=True)  # a plate has no inside


def test_with_nothing_known_every_caution_is_given():
    steps = {one.step for one in cautions()}
    given = [one for step in sorted(steps) for one in cautions_for(step, "unknown", "unknown")]
    assert sorted(one.name for one in given) == sorted(one.name for one in cautions())


def test_another_schema_or_a_backward_range_is_refused():
    with pytest.raises(ValueError, match="schema 2"):
        recipes("schema = 2")
    with pytest.raises(ValueError, match="schema None"):
        cautions("")
    row = 'schema = 1\n[[recipe]]\nname="a"\ntitle="A"\nware="steel"\nheater="oven"\nsource="s"\nseconds=[60, 90]\n'
    assert recipes(row + "celsius=[180, 190]")[0].celsius == (180.0, 190.0)
    with pytest.raises(ValueError, match="low to high"):
        recipes(row + "celsius=[200, 190]")
