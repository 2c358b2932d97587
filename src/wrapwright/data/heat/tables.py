"""The shipped facts about heat, row by row as their files hold them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from importlib.resources import files
from typing import Any, Literal

SCHEMAS = {"material": 2, "cover": 1, "heater": 1}

Key = Literal["material", "cover", "heater"]
Row = Mapping[str, Any]


def rows(key: Key, text: str | None = None) -> tuple[Row, ...]:
    """Return the rows of a TOML text, by default of the shipped file, in file order.

    Raises:
        ValueError: another schema number.
    """
    file = f"{key}s.toml"
    if text is None:
        text = files("wrapwright.data.heat").joinpath(file).read_text(encoding="utf-8")
    table = tomllib.loads(text)
    if table.get("schema") != SCHEMAS[key]:
        raise ValueError(f"{file}: schema {table.get('schema')} is not the one this version reads ({SCHEMAS[key]}).")
    return tuple(table[key])


def expansions() -> dict[str, float]:
    """Return the linear expansion per kelvin of each material and each ware, by their names.

    Raises:
        ValueError: another schema number.
    """
    return {ware: float(row["expansion_per_k"]) for row in rows("material") for ware in (row["name"], *row["wares"])}
