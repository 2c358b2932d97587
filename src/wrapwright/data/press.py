"""The shipped recipes and cautions, read from their files."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

SCHEMA = 1


@dataclass(frozen=True)
class Recipe:
    """A starting point for the heat: ranges, never a promise.

    Attributes:
        name, title: what jobs call it and what people read.
        ware: "steel", "ceramic", "aluminium", "glass", "double-walled" or "unknown".
        heater: "oven", "press" or "unknown".
        celsius, seconds: lowest and highest of the range.
        source: where the figures come from.
    """

    name: str
    title: str
    ware: str
    heater: str
    celsius: tuple[float, float]
    seconds: tuple[float, float]
    source: str


@dataclass(frozen=True)
class Caution:
    """One caution: the step where it applies, whom it concerns (empty: everyone), and how grave it is."""

    name: str
    step: str
    text: str
    ware: tuple[str, ...] = ()
    heater: tuple[str, ...] = ()
    grave: bool = False
    vessel: bool = False


def recipes(text: str | None = None) -> tuple[Recipe, ...]:
    """Return the recipes of a TOML text, by default the shipped ones, in file order.

    Raises:
        ValueError: another schema number, or a range that runs backwards.
    """
    found = []
    for row in _rows(text, "recipes.toml", "recipe"):
        low, high = (float(value) for value in row["celsius"])
        short, long = (float(value) for value in row["seconds"])
        if low > high or short > long:
            raise ValueError(f"recipe {row['name']}: a range must run from low to high.")
        found.append(
            Recipe(row["name"], row["title"], row["ware"], row["heater"], (low, high), (short, long), row["source"])
        )
    return tuple(found)


def cautions(text: str | None = None) -> tuple[Caution, ...]:
    """Return the cautions of a TOML text, by default the shipped ones, in file order.

    Raises:
        ValueError: another schema number.
    """
    return tuple(
        Caution(
            row["name"],
            row["step"],
            row["text"],
            tuple(row.get("ware", ())),
            tuple(row.get("heater", ())),
            bool(row.get("grave", False)),
            bool(row.get("vessel", False)),
        )
        for row in _rows(text, "cautions.toml", "caution")
    )


def cautions_for(step: str, ware: str, heater: str, *, flat: bool = False) -> tuple[Caution, ...]:
    """Return the shipped cautions of one step that concern this ware and heater; `flat` ware has no inside."""
    return tuple(
        one
        for one in cautions()
        if one.step == step
        and not (flat and one.vessel)
        and (not one.ware or ware in one.ware)
        and (not one.heater or heater in one.heater)
    )


def _rows(text: str | None, file: str, key: str) -> list[Mapping[str, Any]]:
    if text is None:
        text = files("wrapwright.data").joinpath(file).read_text(encoding="utf-8")
    table = tomllib.loads(text)
    if table.get("schema") != SCHEMA:
        raise ValueError(f"{file}: schema {table.get('schema')} is not the one this version reads ({SCHEMA}).")
    rows: list[Mapping[str, Any]] = table.get(key, [])
    return rows
