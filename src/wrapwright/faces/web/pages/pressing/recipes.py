"""Recipes: the workshop's own and those to start from, on rulers of temperature and time; and their form."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.heat_words import (
    celsius_range_words,
    celsius_words,
    scales_words,
    seconds_range_words,
    seconds_words,
)
from wrapwright.core.press.recipe.values import DYE_TRANSFER, Limits, Recipe
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.recipes import RecipeKept

router = APIRouter()

Like = Annotated[str, Query(max_length=80)]

# The rulers: temperatures evenly, times by their logarithm, since a dwell of one minute or of fifteen is common.
COOLEST_C, HOTTEST_C = 160.0, 220.0
SHORTEST_S, LONGEST_S = 30.0, 1800.0
TEMPERATURES = (170, 180, 190, 200, 210)
MINUTES = (1, 2, 5, 10, 20)
NARROWEST = 0.9  # percent of a ruler; one figure alone is still seen
CAUTIONS = ("test-piece", "makers-first", "vacuum", "closed-vessel", "no-food")
LONGEST = "Longest dwell before it blurs or yellows"
TURNS = {
    "": "not turned",
    "0.5": "once, half-way",
    "0.333,0.667": "after each third",
    "0.25,0.5,0.75": "after each quarter",
}


@dataclass(frozen=True)
class Lane:
    """A range on a ruler: where it begins and how wide it is, in percent; and from where on it is stopped."""

    at: float
    width: float
    stops_at: float = 100.0


@dataclass(frozen=True)
class RecipeShown:
    """A recipe as a row of the list.

    Attributes:
        kept: the record.
        celsius, fahrenheit, dwell: its ranges in words.
        heat, time: them on the rulers.
        rows: everything it says.
        earlier: its earlier versions, the newest first: which, heat and dwell in words.
    """

    kept: RecipeKept
    celsius: str
    fahrenheit: str
    dwell: str
    heat: Lane
    time: Lane
    rows: tuple[tuple[str, str], ...]
    earlier: tuple[tuple[str, str, str], ...]


@router.get("/press/recipes")
def recipes(request: Request, change: Whole = 0, like: Like = "", new: Whole = 0) -> HTMLResponse:
    """Return the recipes, with the form for a new one, for one like another, or for the one to change."""
    from wrapwright.data.heat.tables import rows
    from wrapwright.jobs.press.kept.recipes import ListRecipes, ShowRecipe, list_recipes, show_recipe

    bench: Bench = request.app.state.bench
    changing = show_recipe(ShowRecipe(id=change), bench, Watch()) if change else None
    base = show_recipe(ShowRecipe(name=like), bench, Watch()) if like and not change else None
    start = changing or base
    shown = [recipe_shown(one, bench) for one in list_recipes(ListRecipes(retired=True), bench, Watch())]
    return page(
        request,
        "recipes.html",
        step="press",
        groups=_groups(shown),
        axes=axes(),
        form=form_of(start.recipe if start else None, own=changing is not None),
        changing=changing,
        like=base,
        open=bool(start or new),
        materials=[(row["name"], row["title"]) for row in rows("material") if row["name"] != "polyester"],
        turns=TURNS,
        dye=(celsius_words(DYE_TRANSFER.value), DYE_TRANSFER.source),
        cautions={one.name: one.text for one in cautions() if one.name in CAUTIONS},
    )


def recipe_shown(kept: RecipeKept, bench: Bench) -> RecipeShown:
    """Return a recipe as its row shows it."""
    from wrapwright.core.press.recipe.stops import upper_bounds
    from wrapwright.core.press.recipe.telling import recipe_words
    from wrapwright.jobs.press.kept.recipes import ShowRecipe, recipe_versions

    one = kept.recipe
    stop = upper_bounds(one)[0].celsius
    heat = lane(*map(place_c, one.celsius), stops_at=place_c(stop))
    bound = one.limits.over_bake_s
    time = lane(*map(place_s, one.seconds), stops_at=100.0 if bound is None else place_s(bound))
    versions = recipe_versions(ShowRecipe(one.id), bench, Watch())[1:] if kept.newest > 1 else ()
    earlier = tuple(
        (
            f"Version {old.recipe.version}{', used' if old.used else ''}",
            celsius_range_words(old.recipe.celsius),
            seconds_range_words(old.recipe.seconds),
        )
        for old in versions
    )
    celsius, fahrenheit = scales_words(one.celsius)
    return RecipeShown(
        kept, celsius, fahrenheit, seconds_range_words(one.seconds), heat, time, recipe_words(one), earlier
    )


@cache
def axes() -> dict[str, list[tuple[float, str, str]]]:
    """Return the marks of both rulers: place in percent, what stands above, what below."""
    heat = [(place_c(one), f"{one}", f"{1.8 * one + 32:.0f}") for one in TEMPERATURES]
    time = [(place_s(60 * one), f"{one}", "") for one in MINUTES]
    return {"heat": heat, "time": time, "cold": [(0.0, f"{place_c(DYE_TRANSFER.value):.2f}", "")]}


def place_c(celsius: float) -> float:
    """Return where a temperature lies on its ruler, in percent, never off it."""
    return 100 * min(1.0, max(0.0, (celsius - COOLEST_C) / (HOTTEST_C - COOLEST_C)))


def place_s(seconds: float) -> float:
    """Return where a time lies on its ruler, in percent, never off it."""
    share = math.log(max(seconds, SHORTEST_S) / SHORTEST_S) / math.log(LONGEST_S / SHORTEST_S)
    return 100 * min(1.0, share)


def lane(begin: float, end: float, *, stops_at: float) -> Lane:
    """Return a range on a ruler, wide enough to be seen."""
    return Lane(round(begin, 2), round(max(end - begin, NARROWEST), 2), round(stops_at, 2))


def form_of(recipe: Recipe | None, *, own: bool) -> dict[str, Any]:
    """Return what the fields of the form show; of a recipe of another's no name.

    `exact` are the figures themselves: words round them, and what is not typed anew must stay what it was.
    """
    if recipe is None:
        limits = Limits()
        empty: dict[str, Any] = dict.fromkeys(
            ("name", "title", "source", "coating", "ink_paper", "pressure", "cool"), ""
        )
        kinds = {"ware": "steel", "heater": "oven", "hold": "sleeve", "preheat": True, "lidded": False, "turn_at": ""}
        figures = {"celsius": "", "seconds": "", "cool_s": "", "material": "", "thickness_mm": None, "double": False}
        exact = dict.fromkeys(("celsius", "seconds", "cool_s"))
        return {**empty, **kinds, **figures, "limits": _limits(limits), "exact": exact, "over_bake": None}
    plain = ("title", "ware", "heater", "hold", "preheat", "lidded", "coating", "ink_paper", "pressure", "cool")
    return {
        **{key: getattr(recipe, key) for key in plain},
        "name": recipe.name if own else "",
        "source": recipe.source if own else "",
        "celsius": scales_words(recipe.celsius)[0],
        "seconds": seconds_range_words(recipe.seconds),
        "cool_s": seconds_words(recipe.cool_s) if recipe.cool_s else "",
        "material": recipe.wall.material,
        "thickness_mm": recipe.wall.thickness_mm,
        "double": recipe.wall.double,
        "turn_at": ",".join(str(one) for one in recipe.turn_at),
        "limits": _limits(recipe.limits),
        "over_bake": recipe.limits.over_bake,
        "exact": {key: getattr(recipe, key) for key in ("celsius", "seconds", "cool_s")},
    }


def _limits(limits: Limits) -> list[dict[str, Any]]:
    """Return the rows of the limits: key, words, kind of figure, what stands in it, the figure itself, its source."""

    def heat(value: float | None) -> str:
        return "" if value is None else f"{value:.4g} °C"

    over = "" if limits.over_bake_s is None else seconds_words(limits.over_bake_s)
    coating, sleeve, maker = limits.coating_c, limits.sleeve_c, limits.maker_c
    rows = (
        ("coating", "What the coating stands", "temperature", heat(coating), coating, limits.coating_source),
        ("sleeve", "What the sleeve stands", "temperature", heat(sleeve), sleeve, limits.sleeve_source),
        ("maker", "The maker's own limit", "temperature", heat(maker), maker, limits.maker_source),
        ("over_bake", LONGEST, "time", over, limits.over_bake_s, limits.over_bake_source),
    )
    return [dict(zip(("key", "words", "kind", "value", "exact", "source"), row, strict=True)) for row in rows]


def _groups(shown: Sequence[RecipeShown]) -> list[tuple[str, str, list[RecipeShown]]]:
    """Return the parts of the list: key, heading, rows."""
    own = [one for one in shown if one.kept.place == "workshop"]
    parts = [
        ("own", "Yours", [one for one in own if not one.kept.retired]),
        ("folder", "In your folder", [one for one in shown if one.kept.place == "folder"]),
        ("shipped", "To start from", [one for one in shown if one.kept.place == "shipped"]),
        ("retired", "Retired", [one for one in own if one.kept.retired]),
    ]
    return [part for part in parts if part[2] or part[0] == "own"]
