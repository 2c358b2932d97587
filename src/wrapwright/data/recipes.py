"""Recipes: what a recipe holds, and the shipped ones, read from their file."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.resources import files
from typing import Any, Literal

SCHEMA = 1
COMMON = "common practice, no source"

Hold = Literal["sleeve", "tape", "clamp", "none"]


@dataclass(frozen=True)
class RecipeWall:
    """The wall that a recipe is for.

    Attributes:
        material: a material's name; "" for that of the ware.
        thickness_mm: of the wall, of a double one its outer shell; None when not known.
        double: vacuum ware.
    """

    material: str = ""
    thickness_mm: float | None = None
    double: bool = False


@dataclass(frozen=True)
class Limits:
    """What a recipe's heat must not go beyond; each figure with where it comes from.

    Attributes:
        coating_c, sleeve_c: what coating and sleeve stand, in degrees Celsius.
        maker_c: the maker's own limit; None: not known.
        over_bake: equivalent minutes at 195 degrees Celsius from which it blurs or yellows; None: not known yet.
        over_bake_s: the longest dwell in seconds, from the door closing; None: not known yet.
    """

    coating_c: float = 210.0
    coating_source: str = COMMON
    sleeve_c: float = 210.0
    sleeve_source: str = COMMON
    maker_c: float | None = None
    maker_source: str = ""
    over_bake: float | None = None
    over_bake_s: float | None = None
    over_bake_source: str = ""


@dataclass(frozen=True)
class Recipe:
    """A starting point for the heat: ranges, never a promise.

    Attributes:
        name, title: what jobs call it and what people read.
        ware: "steel", "double-walled", "aluminium", "ceramic", "glass" or "unknown".
        heater: "oven", "mug-press" or "flat-press".
        celsius: lowest and highest that the heater is set to.
        seconds: lowest and highest dwell, counted from when the door or the press is closed.
        source: where the figures come from: a maker's sheet, own trials, or common practice.
        wall: what it is for.
        coating, ink_paper, pressure: in words; "" for not said.
        preheat: whether the heater is hot before the pieces go in.
        hold: what holds the wrap to the wall.
        turn_at: when the piece is turned, as shares of the dwell.
        cool, cool_s: how it is cooled, and for how long before it is unwrapped.
        limits: what the heat must not go beyond.
        lidded: ware with a lid, which has to be off.
        version: from 1.
        id: number in the store, 0 for one of a file.
    """

    name: str
    title: str
    ware: str
    heater: str
    celsius: tuple[float, float]
    seconds: tuple[float, float]
    source: str
    wall: RecipeWall = field(default=RecipeWall())
    coating: str = ""
    ink_paper: str = ""
    pressure: str = ""
    preheat: bool = True
    hold: Hold = "tape"
    turn_at: tuple[float, ...] = ()
    cool: str = ""
    cool_s: float = 0.0
    limits: Limits = field(default=Limits())
    lidded: bool = False
    version: int = 1
    id: int = 0


def recipes(text: str | None = None) -> tuple[Recipe, ...]:
    """Return the recipes of a TOML text, by default the shipped ones, in file order.

    Raises:
        ValueError: another schema number, or a range that runs backwards.
    """
    if text is None:
        text = files("wrapwright.data").joinpath("recipes.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    if table.get("schema") != SCHEMA:
        raise ValueError(f"recipes.toml: schema {table.get('schema')} is not the one this version reads ({SCHEMA}).")
    return tuple(recipe_of(row) for row in table.get("recipe", []))


def recipe_of(row: Mapping[str, Any]) -> Recipe:
    """Return the recipe of a table as files and the store hold it.

    Raises:
        ValueError: a range that runs backwards.
    """
    low, high = (float(value) for value in row["celsius"])
    short, long = (float(value) for value in row["seconds"])
    if low > high or short > long:
        raise ValueError(f"recipe {row['name']}: a range must run from low to high.")
    kept = {key: value for key, value in row.items() if key not in ("celsius", "seconds", "wall", "limits", "turn_at")}
    return Recipe(
        **kept,
        celsius=(low, high),
        seconds=(short, long),
        wall=RecipeWall(**row.get("wall", {})),
        limits=Limits(**row.get("limits", {})),
        turn_at=tuple(float(value) for value in row.get("turn_at", ())),
    )


def family(heater: str) -> str:
    """Return "oven", "press" or "unknown" of a heater's kind: what cautions and tickets tell apart."""
    return "press" if heater.endswith("press") else heater
