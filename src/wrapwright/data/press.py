"""The shipped recipes and cautions, read from their files."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from wrapwright.data.recipes import Recipe, family, recipes

__all__ = ["Caution", "Recipe", "cautions", "cautions_for", "recipes"]

SCHEMA = 1


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


def cautions_for(step: str, ware: str, heater: str, *, flat: bool = False, double: bool = False) -> tuple[Caution, ...]:
    """Return the shipped cautions of one step that concern this ware and heater; `flat` ware has no inside.

    `heater` is its kind, "press" for any press, or "unknown"; what is `double` counts as double-walled ware besides,
    whatever its recipe is for.
    """
    kind = family(heater)
    wares = {ware, "double-walled"} if double else {ware}
    return tuple(
        one
        for one in cautions()
        if one.step == step
        and not (flat and one.vessel)
        and (not one.ware or not wares.isdisjoint(one.ware))
        and (not one.heater or kind in one.heater)
    )


def _rows(text: str | None, file: str, key: str) -> list[Mapping[str, Any]]:
    if text is None:
        text = files("wrapwright.data").joinpath(file).read_text(encoding="utf-8")
    table = tomllib.loads(text)
    if table.get("schema") != SCHEMA:
        raise ValueError(f"{file}: schema {table.get('schema')} is not the one this version reads ({SCHEMA}).")
    rows: list[Mapping[str, Any]] = table.get(key, [])
    return rows
