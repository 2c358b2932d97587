"""The shipped facts about what blanks are made of."""

from __future__ import annotations

import tomllib
from importlib.resources import files

SCHEMA = 1


def expansions() -> dict[str, float]:
    """Return the linear expansion per kelvin of each ware.

    Raises:
        ValueError: another schema number.
    """
    table = tomllib.loads(files("wrapwright.data").joinpath("materials.toml").read_text(encoding="utf-8"))
    if table.get("schema") != SCHEMA:
        raise ValueError(f"materials.toml: schema {table.get('schema')} is not the one this version reads ({SCHEMA}).")
    return {row["ware"]: float(row["expansion_per_k"]) for row in table["material"]}
