"""Plans, loads and heaters as plain tables that can be stored, and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace
from typing import Any

from wrapwright.core.press.run.values import HeatPlan
from wrapwright.core.press.values import Cover, Dose, Heater, Load, Material, Range, Wall

Table = Mapping[str, Any]
_MATERIAL_RANGES = ("density", "specific_heat", "conductivity")


def plan_table(plan: HeatPlan) -> dict[str, Any]:
    """Return a plan as a table."""
    return {**asdict(plan), "turn_at_s": list(plan.turn_at_s)}


def plan_of(table: Table) -> HeatPlan:
    """Return the plan of a table; keys of a later version are left out."""
    known = {key: table[key] for key in HeatPlan.__dataclass_fields__ if key in table}
    dose = known.get("dose")
    known["turn_at_s"] = tuple(known.get("turn_at_s", ()))
    known["dose"] = None if dose is None else Dose(**dose)
    return HeatPlan(**known)


def heater_table(heater: Heater) -> dict[str, Any]:
    """Return a heater's figures as a table."""
    return asdict(heater)


def heater_of(table: Table) -> Heater:
    """Return the heater of a table."""
    return Heater(**{**_known(Heater, table), "film": Range(**table["film"])})


def load_table(load: Load) -> dict[str, Any]:
    """Return a load as a table; its door's openings are events, not plan, and stay out."""
    found = asdict(replace(load, openings=()))
    found["covers"] = list(found["covers"])
    found["openings"] = []
    return found


def load_of(table: Table) -> Load:
    """Return the load of a table."""
    wall = table["wall"]
    stuff = wall["material"]
    material = Material(**{**_known(Material, stuff), **{key: Range(**stuff[key]) for key in _MATERIAL_RANGES}})
    covers = tuple(
        Cover(**{**_known(Cover, one), "conductivity": Range(**one["conductivity"])}) for one in table["covers"]
    )
    whole = {**_known(Load, table), "wall": Wall(**{**_known(Wall, wall), "material": material})}
    return Load(**{**whole, "covers": covers, "openings": ()})


def _known(kind: Any, table: Table) -> dict[str, Any]:
    return {key: table[key] for key in kind.__dataclass_fields__ if key in table}
