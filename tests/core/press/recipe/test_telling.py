"""Recipes and heaters in words."""

from __future__ import annotations

from dataclasses import replace

from wrapwright.core.press.recipe.heater import starter_of
from wrapwright.core.press.recipe.telling import heater_words, recipe_words
from wrapwright.core.press.recipe.values import RecipeWall
from wrapwright.data.recipes import recipes

STEEL, VACUUM = recipes()[:2]


def test_a_recipe_row_by_row() -> None:
    told = dict(recipe_words(VACUUM))
    assert told["set to"] == "180–200 °C (356–392 °F)"
    assert told["dwell"] == "4–7 min, from the door closing"
    assert told["wall"] == "0.5 mm steel, outer shell"
    assert told["turned"] == "half-way"
    assert told["cooled"].endswith("; 2 min before it is unwrapped")
    assert told["over-bake bound"] == "not known yet (accepted trials give it)"


def test_what_is_not_said_is_left_out() -> None:
    bare = replace(STEEL, wall=RecipeWall(), coating="", turn_at=(), cool="", cool_s=0)
    assert {"wall", "coating", "turned", "cooled"}.isdisjoint(dict(recipe_words(bare)))
    thirds = replace(STEEL, turn_at=(0.25, 0.75))
    assert dict(recipe_words(thirds))["turned"] == "after 25 %, 75 % of the dwell"


def test_a_heater_row_by_row() -> None:
    told = dict(heater_words(replace(starter_of("oven"), offset_k=-9.0, offset_half_k=2.0)))
    assert told["true temperature"] == "9 °C (16.2 °F) less than it is set to, give or take 2 °C (3.6 °F)"
    assert dict(heater_words(starter_of("mug-press")))["holds"] == "1 piece"
