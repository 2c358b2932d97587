"""Recipes: the workshop's own, those of its folder, and those to start from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from wrapwright.core.base.units import stated, to_fahrenheit
from wrapwright.core.press.recipe.meant import Meant, meant_celsius, meant_seconds
from wrapwright.core.press.recipe.reading import recipe_row
from wrapwright.core.press.recipe.telling import recipe_words
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Table
from wrapwright.jobs.press.kept.recipes import (
    KeepRecipe,
    ListRecipes,
    RecipeKept,
    RestoreRecipe,
    Retired,
    RetireRecipe,
    ShowRecipe,
    keep_recipe,
    list_recipes,
    recipe_versions,
    restore_recipe,
    retire_recipe,
    show_recipe,
)

router = APIRouter(tags=["recipes"])


class RecipeTold(BaseModel):
    """A recipe: where it is kept, how it stands, its table as it is read back, and in words row by row."""

    id: int
    name: str
    version: int
    newest: int
    place: Literal["workshop", "folder", "shipped"]
    used: bool
    retired: bool
    added: datetime | None
    content: Mapping[str, Any]
    fahrenheit: tuple[float, float]
    words: list[tuple[str, str]]


class RecipeBody(Body):
    """A recipe's table; temperatures and times as numbers (C, s) or as texts with their units."""

    content: Table
    version: Annotated[int, Field(ge=0, le=LARGEST)] = 0
    added: datetime | None = None


@router.get("/press/recipes")
def recipes(bench: BenchAsked, *, retired: bool = False) -> list[RecipeTold]:
    """Return the recipes, the workshop's own first; with `retired` those too that are no longer offered."""
    return [told_recipe(one) for one in list_recipes(ListRecipes(retired), bench, QUIET)]


@router.post("/press/recipes", status_code=201)
def new_recipe(body: RecipeBody, bench: BenchAsked) -> RecipeTold:
    """Return the recipe kept."""
    return told_recipe(keep_recipe(KeepRecipe(body.content), bench, QUIET))


@router.get("/press/recipes/{number}")
def recipe(number: Id, bench: BenchAsked) -> RecipeTold:
    """Return the newest version of a recipe of the workshop."""
    return told_recipe(show_recipe(ShowRecipe(number), bench, QUIET))


@router.get("/press/recipes/{number}/versions")
def versions(number: Id, bench: BenchAsked) -> list[RecipeTold]:
    """Return every version of a recipe of the workshop, the newest first."""
    return [told_recipe(one) for one in recipe_versions(ShowRecipe(number), bench, QUIET)]


@router.put("/press/recipes/{number}")
def other_recipe(number: Id, body: RecipeBody, bench: BenchAsked) -> RecipeTold:
    """Return the recipe as changed; 409 when it was changed since the version that the change was made from."""
    seen = (body.version, body.added) if body.version and body.added else None
    return told_recipe(keep_recipe(KeepRecipe(body.content, number, seen), bench, QUIET))


@router.post("/press/recipes/{number}/retire")
def no_recipe(number: Id, bench: BenchAsked) -> Retired:
    """Offer a recipe no longer; what nothing ever used is removed."""
    return retire_recipe(RetireRecipe(number), bench, QUIET)


@router.post("/press/recipes/{number}/restore")
def restored_recipe(number: Id, bench: BenchAsked) -> RecipeTold:
    """Return the recipe, which is offered again."""
    return told_recipe(restore_recipe(RestoreRecipe(number), bench, QUIET))


@router.get("/press/reading")
def reading(
    kind: Literal["temperature", "time"], text: Annotated[str, Query(max_length=200)], *, single: bool = False
) -> Meant:
    """Return what a typed temperature or time is read as, or what it can be meant as; `single`: no range."""
    return (meant_celsius if kind == "temperature" else meant_seconds)(text, single=single)


def told_recipe(kept: RecipeKept) -> RecipeTold:
    """Return a recipe as the browser is told it."""
    one = kept.recipe
    low, high = (stated(to_fahrenheit(end)) for end in one.celsius)
    return RecipeTold(
        id=one.id,
        name=one.name,
        version=one.version,
        newest=kept.newest,
        place=kept.place,
        used=kept.used,
        retired=kept.retired,
        added=kept.added,
        content=recipe_row(one),
        fahrenheit=(low, high),
        words=list(recipe_words(one)),
    )
