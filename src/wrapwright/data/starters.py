"""The shipped shapes to start from, read from their file."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.resources import files
from typing import Any

SCHEMA = 1


@dataclass(frozen=True)
class Starter:
    """A shape to start from; its sizes are usual ones and stand in for a measuring.

    Attributes:
        key: what requests call it.
        name: what people read.
        words: what it is and what to measure on one's own.
        table, wrap: as a job file's [blank] and [wrap].
    """

    key: str
    name: str
    words: str
    table: Mapping[str, Any]
    wrap: Mapping[str, Any] = field(default_factory=dict)


def starters(text: str | None = None) -> tuple[Starter, ...]:
    """Return the shapes of a TOML text, by default the shipped ones, in file order.

    Raises:
        ValueError: another schema number, or a key given twice.
    """
    if text is None:
        text = files("wrapwright.data").joinpath("starters.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    if table.get("schema") != SCHEMA:
        raise ValueError(f"starters.toml: schema {table.get('schema')} is not the one this version reads ({SCHEMA}).")
    rows: list[Mapping[str, Any]] = table.get("starter", [])
    found = tuple(Starter(row["key"], row["name"], row["words"], row["blank"], row.get("wrap", {})) for row in rows)
    if len({one.key for one in found}) != len(found):
        raise ValueError("starters.toml: a key stands in it twice.")
    return found
