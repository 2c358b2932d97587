"""Volumes, weights, pressures and heat quantities as makers' sheets state them, turned into one another."""

from __future__ import annotations

from wrapwright.core.base.errors import unusable

_INCH_M = 0.0254
_POUND_KG = 0.45359237  # avoirdupois, exact, 16 CFR 500.19
_GRAVITY = 9.80665
_BTU_J = 1055.05585262  # International Table
_FOOT_M = 12 * _INCH_M
_RANKINE_K = 1 / 1.8

# unit -> (what it measures, its size in the SI unit of that)
_MEASURES: dict[str, tuple[str, float]] = {
    "mL": ("volume", 1e-6),
    "L": ("volume", 1e-3),
    "fl oz": ("volume", 231 * _INCH_M**3 / 128),  # US: a gallon of 231 cubic inches has 128
    "imp fl oz": ("volume", 4.54609e-3 / 160),
    "g": ("weight", 1e-3),
    "kg": ("weight", 1.0),
    "oz": ("weight", _POUND_KG / 16),
    "lb": ("weight", _POUND_KG),
    "kPa": ("pressure", 1e3),
    "bar": ("pressure", 1e5),
    "psi": ("pressure", _POUND_KG * _GRAVITY / _INCH_M**2),
    "W/m2K": ("heat transfer", 1.0),
    "BTU/(h ft2 F)": ("heat transfer", _BTU_J / 3600 / _FOOT_M**2 / _RANKINE_K),
    "W/mK": ("conductivity", 1.0),
    "BTU in/(h ft2 F)": ("conductivity", _BTU_J * _INCH_M / 3600 / _FOOT_M**2 / _RANKINE_K),
    "J/kgK": ("specific heat", 1.0),
    "BTU/(lb F)": ("specific heat", _BTU_J / _POUND_KG / _RANKINE_K),
}


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Return `value` of `from_unit` in `to_unit`; both must measure the same thing.

    Raises:
        WrapwrightError: unusable; an unknown unit, or units of different things.
    """
    for unit in (from_unit, to_unit):
        if unit not in _MEASURES:
            raise unusable(f'the unit "{unit}" is not known.', remedy=f"Known are {', '.join(_MEASURES)}.")
    (what, size), (wanted, other) = _MEASURES[from_unit], _MEASURES[to_unit]
    if what != wanted:
        raise unusable(f"{from_unit} measures {what}, {to_unit} measures {wanted}.")
    return value * size / other
