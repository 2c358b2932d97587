"""What the rows of recipes, heaters and circuits give back: frozen, picklable values; times are UTC."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

Table = Mapping[str, Any]


@dataclass(frozen=True)
class RecipeRow:
    """One version of a recipe.

    Attributes:
        id: of the recipe, the same for all its versions.
        name: unique, whatever the case of its letters.
        version: 1 for the first.
        newest: the highest version there is.
        content: the recipe as a table.
        used: something was heated with this version; it never changes again.
        retired: no longer offered.
        added: when this version was added or, while unused, last changed.
    """

    id: int
    name: str
    version: int
    newest: int
    content: Table
    used: bool
    retired: bool
    added: datetime


@dataclass(frozen=True)
class HeaterRow:
    """A heater.

    Attributes:
        id: of the heater.
        name: unique, whatever the case of its letters.
        kind: oven, mug-press or flat-press.
        content: `given` as it was entered, `found` by calibrating.
        circuit: number of its circuit, 0 for none.
        busy: the heat that runs in it, 0 for none.
        retired: no longer offered.
        changed: when it last was.
    """

    id: int
    name: str
    kind: str
    content: Table
    circuit: int
    busy: int
    retired: bool
    changed: datetime


@dataclass(frozen=True)
class CircuitRow:
    """A circuit: its voltage and what its breaker carries."""

    id: int
    name: str
    volts: float
    amps: float
