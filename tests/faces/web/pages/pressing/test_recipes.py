"""Recipes on their rulers, and the form for a new one, one like another, or a change."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from wrapwright.core.press.recipe.reading import recipe_row
from wrapwright.data.recipes import recipes
from wrapwright.faces.web.pages.pressing.recipes import lane, place_c, place_s
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.recipes import KeepRecipe, RetireRecipe, keep_recipe, retire_recipe
from wrapwright.outside.store.rows.press.recipes import use_recipe_row

STEEL = recipe_row(recipes()[0])


def keep(bench: Bench, own: int = 0, **change: Any) -> int:
    content = {**STEEL, "name": "20 <oz>", **change}
    return keep_recipe(KeepRecipe(content, own), bench, Watch()).recipe.id


def test_those_to_start_from_in_both_scales(client: Any) -> None:
    text = client.get("/press/recipes").text
    for one in recipes():
        assert one.title in text
    assert "190–205 °C" in text
    assert "374–401 °F" in text
    assert "None yet." in text
    assert "never above its maker" in text
    assert 'id="recipe-form"' not in text


def test_versions_and_a_retired_one(client: Any, bench: Bench) -> None:
    number = keep(bench)
    with bench.kept().writing() as connection:
        use_recipe_row(connection, number, 1)
    keep(bench, number, seconds=[300, 360])
    text = client.get("/press/recipes").text
    assert "20 &lt;oz&gt;" in text
    assert "· version 2" in text
    assert "Version 1, used" in text
    retire_recipe(RetireRecipe(number), bench, Watch())
    assert "Offer again" in client.get("/press/recipes").text


def test_the_form_says_what_becomes_of_the_version(client: Any, bench: Bench) -> None:
    number = keep(bench)
    text = client.get(f"/press/recipes?change={number}").text
    assert "not used yet: what you keep takes its place" in text
    found = dict(re.findall(r'<input id="([a-z_]+)"[^>]* value="([^"]*)"', text))
    assert (found["name"], found["celsius"], found["seconds"]) == ("20 &lt;oz&gt;", "190–205 °C", "4–7 min")
    with bench.kept().writing() as connection:
        use_recipe_row(connection, number, 1)
    assert "What you keep becomes version 2." in client.get(f"/press/recipes?change={number}").text
    like = dict(
        re.findall(r'<input id="([a-z_]+)"[^>]* value="([^"]*)"', client.get("/press/recipes?like=steel-oven").text)
    )
    assert (like["name"], like["title"], like["source"]) == ("", recipes()[0].title, "")
    assert client.get("/press/recipes?new=1").status_code == 200
    assert client.get("/press/recipes?change=99").status_code == 404
    assert client.get("/press/recipes?like=copper").status_code == 404


def test_the_form_holds_the_figures_that_its_words_round(client: Any, bench: Bench) -> None:
    limits = {"over_bake": 4.25, "over_bake_source": "own trials"}
    number = keep(bench, celsius="375-377 F", turn_at=[1 / 3], limits=limits)
    text = client.get(f"/press/recipes?change={number}").text
    assert "190.6–191.7 °C" in text
    (exact,) = re.findall(r'id="celsius"[^>]* data-exact="([^"]*)"', text)
    assert json.loads(exact) == pytest.approx([190.555555, 191.666666], abs=1e-6)
    assert f'<option value="{1 / 3}" selected>' in text
    assert 'data-over-bake="4.25"' in text


def test_the_rulers() -> None:
    assert [place_c(one) for one in (100, 160, 190, 220, 300)] == [0, 0, 50, 100, 100]
    assert [place_s(one) for one in (0, 30, 1800, 7200)] == [0, 0, 100, 100]
    assert place_s(120) - place_s(60) == pytest.approx(place_s(600) - place_s(300))  # by the logarithm
    one = lane(50.0, 50.0, stops_at=80.0)
    assert one == replace(one, at=50.0, width=0.9, stops_at=80.0)
