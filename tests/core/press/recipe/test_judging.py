"""What speaks against keeping a recipe."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from wrapwright.core.press.recipe.judging import problems_of
from wrapwright.core.press.recipe.values import Limits, Recipe, RecipeWall
from wrapwright.data.recipes import recipes

STEEL, VACUUM = recipes()[:2]


@pytest.mark.parametrize("recipe", recipes(), ids=lambda one: one.name)
def test_nothing_speaks_against_the_shipped_ones(recipe: Recipe) -> None:
    assert problems_of(recipe) == []


REFUSED: list[tuple[Recipe, dict[str, Any], str, str]] = [
    (STEEL, {"celsius": (205, 190)}, "celsius", "runs backwards"),
    (STEEL, {"celsius": (160, 190)}, "celsius", "160 °C (320 °F) is below 170 °C (338 °F)"),
    (STEEL, {"celsius": (190, 215)}, "celsius", "above the coating's limit, 210 °C (410 °F)"),
    (VACUUM, {"celsius": (190, 206)}, "celsius", "205 °C (401 °F) (common practice, no source)"),
    (STEEL, {"wall": RecipeWall(double=True), "celsius": (190, 206)}, "celsius", "vacuum ware"),
    (VACUUM, {"heater": "mug-press"}, "heater", "the outer shell dents"),
    (STEEL, {"seconds": (420, 240)}, "seconds", "runs backwards"),
    (STEEL, {"seconds": (0, 240)}, "seconds", "a dwell of 0 s"),
    (STEEL, {"seconds": (240, 36_000)}, "seconds", "a dwell of 10 h"),
    (STEEL, {"wall": RecipeWall(thickness_mm=0)}, "wall: thickness_mm", "0 mm"),
    (STEEL, {"wall": RecipeWall(thickness_mm=-1)}, "wall: thickness_mm", "-1 mm"),
    (STEEL, {"wall": RecipeWall("stell", 0.5)}, "wall: material", '"stell" is no known material'),
    (STEEL, {"cool_s": 100_000}, "cool_s", "a day"),
    (STEEL, {"turn_at": (0.5, 0.5)}, "turn_at", "later than the one before"),
    (STEEL, {"turn_at": (1.5,)}, "turn_at", "between 0 and 1"),
    (STEEL, {"limits": Limits(over_bake_s=400, over_bake_source="trials")}, "seconds", "over-bake bound, 6 min 40 s"),
    (STEEL, {"limits": Limits(over_bake=0, over_bake_source="trials")}, "limits: over_bake", "not above nought"),
    (STEEL, {"limits": Limits(maker_c=208)}, "limits: maker_source", "no source"),
    (STEEL, {"limits": Limits(coating_source="")}, "limits: coating_source", "no source"),
]


@pytest.mark.parametrize(("recipe", "change", "where", "said"), REFUSED)
def test_what_cannot_be_kept(recipe: Recipe, change: dict[str, Any], where: str, said: str) -> None:
    (found,) = problems_of(replace(recipe, **change))
    assert found.where == where
    assert said in found.message
    assert found.remedy
