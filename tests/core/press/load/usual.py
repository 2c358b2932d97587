"""Loads and heaters whose answers are known: an ideal oven that holds its temperature, a hot wire that only ramps."""

from __future__ import annotations

from wrapwright.core.press.values import Heater, Load, Material, Range, Wall


def exact(value: float) -> Range:
    return Range(value, value, value)


# 304 stainless, ASM data sheet: 8000 kg/m3, 500 J/kgK, 16.2 W/mK; 0.5 mm in a film of 25 W/m2K: 80 s.
STEEL = Material("steel", "Stainless steel", exact(8000), exact(500), exact(16.2), 0.16, 17.3e-6, "ASM")
# ceramic 2300, 840, 1.3 (tables in `ht`); 4 mm in 25 W/m2K: 309.12 s, Biot number 0.077: one temperature.
CERAMIC = Material("ceramic", "Ceramic", exact(2300), exact(840), exact(1.3), 0.92, 6e-6, "ht")
LEADS = Material("leads", "Leads at once", exact(8000), exact(500), exact(1e6), 0.16, 17.3e-6, "invented")


def ideal_oven(**more: object) -> Heater:
    """Return an oven that stands at what it is set to whatever goes in, known to the last kelvin."""
    given = {"power_w": 1e9, "loss_w_k": 0.0, "own_j_k": 1e12, "band_k": 0.0, "door_w_k": 0.0, "film": exact(25.0)}
    return Heater("oven", "ideal", **(given | {"offset_half_k": 0.0, "capacity": 4} | more))  # type: ignore[arg-type]


def small_oven(**more: object) -> Heater:
    """Return an oven that has to work for its pieces."""
    given = {"power_w": 700.0, "loss_w_k": 2.0, "own_j_k": 2000.0, "band_k": 4.0, "door_w_k": 20.0}
    return Heater("oven", "small", **(given | {"film": Range(20, 30, 48), "capacity": 6} | more))  # type: ignore[arg-type]


def load(material: Material = STEEL, thickness_mm: float = 0.5, **more: object) -> Load:
    given = {"set_c": 200.0, "door_s": 0.0}
    return Load(Wall(material, thickness_mm, 0.04, doubt=0.0), **(given | more))  # type: ignore[arg-type]
