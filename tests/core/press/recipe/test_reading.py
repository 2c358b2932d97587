"""A recipe's table read, with everything that is wrong with it, and written again."""

from __future__ import annotations

import json
from typing import Any

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.press.recipe.reading import read_recipe, recipe_row
from wrapwright.core.press.recipe.values import Recipe
from wrapwright.data.recipes import recipes

STEEL = recipe_row(recipes()[0])


@pytest.mark.parametrize("recipe", recipes(), ids=lambda one: one.name)
def test_what_is_written_is_read_again(recipe: Recipe) -> None:
    assert read_recipe(json.loads(json.dumps(recipe_row(recipe)))) == recipe


def test_figures_as_people_write_them() -> None:
    written = {"celsius": "374-401 F", "seconds": "4-7 min", "cool_s": "2 min", "ware": " Steel "}
    limits = {"maker_c": "410 F", "maker_source": "maker's sheet"}
    found = read_recipe({**STEEL, **written, "limits": limits})
    assert (found.celsius, found.seconds, found.cool_s, found.ware) == ((190.0, 205.0), (240.0, 420.0), 120.0, "steel")
    assert found.limits.maker_c == pytest.approx(210)
    assert read_recipe({**STEEL, "celsius": ["190 C", "401 F"]}).celsius == pytest.approx((190, 205))


def test_all_that_is_missing_is_told_together() -> None:
    with pytest.raises(SeveralProblemsError) as found:
        read_recipe({"name": "", "colour": 1})
    told = {one.where: one for one in found.value.problems}
    assert set(told) == {"colour", "name", "title", "ware", "heater", "celsius", "seconds", "source"}
    assert told["colour"].remedy == 'Is "cool" meant?'


REFUSED: list[tuple[dict[str, Any], str, str]] = [
    ({"celsius": [383, 401]}, "celsius", "383 °F (195 °C)"),
    ({"celsius": "190"}, "celsius", "does not say C or F"),
    ({"celsius": [205]}, "celsius", "two figures"),
    ({"celsius": [True, False]}, "celsius", "no figure"),
    ({"seconds": "7"}, "seconds", "does not say minutes or seconds"),
    ({"seconds": [-60, 60]}, "seconds", "below nought"),
    ({"ware": "steal"}, "ware", 'Is "steel" meant?'),
    ({"heater": "kiln"}, "heater", "none of the known words"),
    ({"hold": 5}, "hold", "none of the known words"),
    ({"preheat": "yes"}, "preheat", "neither true nor false"),
    ({"title": "x" * 121}, "title", "121 characters"),
    ({"title": 5}, "title", "not a text"),
    ({"wall": "0.5 mm"}, "wall", "no table"),
    ({"wall": {"thicknes_mm": 1}}, "wall: thicknes_mm", 'Is "thickness_mm" meant?'),
    ({"wall": {"thickness_mm": "thin"}}, "wall: thickness_mm", "no number"),
    ({"limits": {"maker_c": 383}}, "limits: maker_c", "383 °F (195 °C)"),
    ({"turn_at": 0.5}, "turn_at", "list of shares"),
]


@pytest.mark.parametrize(("change", "where", "said"), REFUSED)
def test_what_cannot_be_meant(change: dict[str, Any], where: str, said: str) -> None:
    with pytest.raises(WrapwrightError) as found:
        read_recipe({**STEEL, **change})
    assert found.value.where == where
    assert said in f"{found.value.message} {found.value.remedy}"
