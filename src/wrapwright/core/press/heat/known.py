"""The shipped materials, covers and heaters as values, and a wall from what can be weighed."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

from wrapwright.core.base.errors import unusable
from wrapwright.core.press.values import Cover, Heater, HeaterKind, Material, Range, Wall
from wrapwright.data.heat.tables import rows


@cache
def materials() -> tuple[Material, ...]:
    """Return the shipped materials, in file order."""
    return tuple(
        Material(
            row["name"],
            row["title"],
            _range(row["density"]),
            _range(row["specific_heat"]),
            _range(row["conductivity"]),
            float(row["emissivity"]),
            float(row["expansion_per_k"]),
            row["source"],
        )
        for row in rows("material")
    )


def material_named(name: str) -> Material:
    """Return the material of that name, or the one that ware of that name is made of.

    Raises:
        WrapwrightError: unusable, with the names there are.
    """
    wanted = name.strip().casefold()
    wares = {ware: row["name"] for row in rows("material") for ware in row["wares"]}
    for one in materials():
        if one.name == wares.get(wanted, wanted):
            return one
    listed = ", ".join(one.name for one in materials())
    raise unusable(f'there is no material "{name}"; there are {listed}.', where="material")


@cache
def covers() -> tuple[Cover, ...]:
    """Return the shipped covers, in file order."""
    return tuple(Cover(row["name"], float(row["thickness_mm"]), _range(row["conductivity"])) for row in rows("cover"))


def cover_named(name: str) -> Cover:
    """Return the cover of that name.

    Raises:
        WrapwrightError: unusable, with the names there are.
    """
    for one in covers():
        if one.name == name.strip().casefold():
            return one
    raise unusable(f'there is no cover "{name}"; there are {", ".join(one.name for one in covers())}.', where="cover")


@cache
def starter_heaters() -> tuple[Heater, ...]:
    """Return the heaters to start from, in file order: estimates, named as such in their source."""
    return tuple(
        Heater(
            row["kind"],
            row["title"],
            float(row["power_w"]),
            float(row["loss_w_k"]),
            float(row["own_j_k"]),
            float(row["band_k"]),
            float(row["door_w_k"]),
            _range(row["film"]),
            capacity=int(row["capacity"]),
            source=row["source"],
            radiant=float(row["radiant"]),
        )
        for row in rows("heater")
    )


def starter_heater(kind: HeaterKind) -> Heater:
    """Return the heater of a kind to start from: an estimate."""
    return next(one for one in starter_heaters() if one.kind == kind)


def wall_by_weight(material: Material, mass_kg: float, area_m2: float, *, double: bool = False) -> Wall:
    """Return a wall of the thickness that a piece's weight says: mass / (density x face).

    Base and handle are weighed with it, so that it comes out a little thick; of double-walled ware give the weight of
    the outer shell, about half. An estimate either way.

    Raises:
        WrapwrightError: unusable: a weight or a face that is not over 0.
    """
    if not (math.isfinite(mass_kg) and mass_kg > 0):
        raise unusable(f"a piece of {mass_kg * 1000:g} g cannot be: weigh it, and give more than 0 g.", where="wall")
    if not (math.isfinite(area_m2) and area_m2 > 0):
        raise unusable(f"a heated face of {area_m2:g} m2 cannot be: give girth times height, over 0.", where="wall")
    return Wall(material, mass_kg / (material.density.mid * area_m2) * 1000.0, area_m2, double)


def _range(row: Any) -> Range:
    low, mid, high = (float(value) for value in row)
    return Range(low, mid, high)
