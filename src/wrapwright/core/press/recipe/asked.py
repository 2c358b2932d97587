"""Temperatures and times of a heat as people type them; what may be meant otherwise is asked about, never taken."""

from __future__ import annotations

import math
import re

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.heat_words import celsius_words
from wrapwright.core.base.units import temperature_c, to_celsius, to_fahrenheit
from wrapwright.core.press.recipe.values import HOTTEST_C

_COOLEST_SET_C = 130.0  # nothing of the trade is set cooler: a figure below it may be meant in the other scale
_UNITS = {"s": 1.0, "sec": 1.0, "second": 1.0, "min": 60.0, "minute": 60.0, "h": 3600.0, "hour": 3600.0}
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_PART = re.compile(rf"({_NUMBER})\s*(hours?|h|minutes?|min|seconds?|secs?|s)(?![a-z])\.?")
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])(?:\s*min)?")
_POWER = re.compile(rf"([-+]?{_NUMBER})\s*(k)?(?:w|watts?)")
_BARE = re.compile(rf"[-+]?{_NUMBER}")
_ENDS = re.compile(r"\s*(?:–|—|\bto\b|(?<=[0-9a-z])\s*-)\s*", re.IGNORECASE)
_LONGEST_TEXT = 60
_LARGEST = 1e12  # also keeps out what no float can hold


def celsius_of(value: str | float, *, where: str = "") -> float:
    """Return what a heater is set to, or a limit, in degrees Celsius; a number is in Celsius, a text says its scale.

    Raises:
        WrapwrightError: unusable; no scale, or a figure that can only be meant in the other scale: both are asked
            about with both readings.
    """
    bare = _bare(value)
    if bare is not None and isinstance(value, str):
        raise _which_scale(bare, where)
    celsius = bare if bare is not None else temperature_c(value, where=where)
    if not math.isfinite(celsius):
        raise unusable("the temperature is no number.", remedy='Write "195 C" or "383 F".', where=where)
    typed_f = isinstance(value, str) and re.search(r"f(ahrenheit)?\s*$", value.strip().lower()) is not None
    other = to_fahrenheit(celsius) if typed_f else to_celsius(celsius)
    if celsius > HOTTEST_C:
        plausible = not typed_f and _COOLEST_SET_C <= other <= HOTTEST_C
        message = (
            f"{celsius_words(celsius)} is hotter than any heater of the trade: at most {celsius_words(HOTTEST_C)}."
        )
        raise unusable(message, remedy=_in_fahrenheit(celsius) if plausible else "Look at it again.", where=where)
    if typed_f and celsius < _COOLEST_SET_C <= other <= HOTTEST_C:
        message = f"{other:g} °F is {celsius:.0f} °C, too cold for any dye; {celsius_words(other)} would not be."
        raise unusable(message, remedy=f'Is Celsius meant? Then write "{other:g} C".', where=where)
    return celsius


def seconds_of(value: str | float, *, where: str = "") -> float:
    """Return a time in seconds from `420 s`, `7 min`, `7:30`, `4 min 30 s`, `1 h`; a number is in seconds.

    Raises:
        WrapwrightError: unusable; no unit (which is asked about), not a time, or negative.
    """
    bare = _bare(value)
    if bare is not None and isinstance(value, str):
        message = f"{bare:g} does not say minutes or seconds."
        raise unusable(message, remedy=f'Write "{bare:g} min" or "{bare:g} s".', where=where)
    seconds = bare if bare is not None else _read_time(str(value), where)
    if not math.isfinite(seconds) or seconds < 0:
        raise unusable(f"the time {seconds:g} s is below nought or no number.", remedy="Give it again.", where=where)
    return seconds


def watts_of(value: str | float, *, where: str = "") -> float:
    """Return a power in W from `1500 W`, `1.5 kW`, or a bare number, which is in W.

    Raises:
        WrapwrightError: unusable; not a power.
    """
    bare = _bare(value)
    if bare is not None:
        return bare
    found = _POWER.fullmatch(str(value).strip().lower()) if len(str(value)) <= _LONGEST_TEXT else None
    if found is None:
        raise unusable(f'"{str(value)[:40]}" is not a power.', remedy='Write "1500 W" or "1.5 kW".', where=where)
    return float(found[1].replace(",", ".")) * (1000.0 if found[2] else 1.0)


def celsius_range_of(text: str, *, where: str = "") -> tuple[float, float]:
    """Return both ends of `190-205 C`, `374 to 401 F`, or one figure as both ends; as `celsius_of` for the rest."""
    low, high = _ends(text)
    return celsius_of(low, where=where), celsius_of(high, where=where)


def seconds_range_of(text: str, *, where: str = "") -> tuple[float, float]:
    """Return both ends of `4-7 min`, `90 s to 2 min`, or one figure as both ends; as `seconds_of` for the rest."""
    low, high = _ends(text)
    return seconds_of(low, where=where), seconds_of(high, where=where)


def _ends(text: str) -> tuple[str, str]:
    """Return the two ends as texts, the first with the unit of the second where it has none of its own."""
    parts = [one for one in _ENDS.split(text.strip()) if one]
    if len(parts) != 2:
        return text, text
    low, high = parts
    unit = re.sub(r"^[-+]?[0-9.,:\s]+", "", high)
    return (f"{low} {unit}" if _BARE.fullmatch(low.strip()) and unit else low), high


def _read_time(text: str, where: str) -> float:
    plain = " ".join(text.lower().split())
    clock = _CLOCK.fullmatch(plain)
    if clock:
        return 60.0 * int(clock[1]) + int(clock[2])
    if plain.startswith("-") and len(plain) <= _LONGEST_TEXT:
        raise unusable(f'"{text}" is below nought.', remedy="Give it again.", where=where)
    parts = _PART.findall(plain) if len(plain) <= _LONGEST_TEXT else []
    if not parts or _PART.sub("", plain).replace("and", "").replace(",", "").strip():
        shown = text if len(text) <= 40 else text[:37] + "..."
        raise unusable(
            f'"{shown}" is not a time.', remedy='Write, for example, "7 min", "7:30" or "420 s".', where=where
        )
    return sum(float(number.replace(",", ".")) * _UNITS[unit.removesuffix("s") or "s"] for number, unit in parts)


def _bare(value: str | float) -> float | None:
    """Return the number that a value is without any unit, None where it says more."""
    if isinstance(value, bool):
        return None
    if isinstance(value, int | float):
        return float(value) if abs(value) <= _LARGEST else math.inf
    text = value.strip().rstrip("°º").strip()
    return float(text.replace(",", ".")) if len(text) <= _LONGEST_TEXT and _BARE.fullmatch(text) else None


def _which_scale(number: float, where: str) -> WrapwrightError:
    message = (
        f"{number:g} does not say C or F: {celsius_words(number)}, or {number:g} °F ({to_celsius(number):.0f} °C)?"
    )
    return unusable(message, remedy=f'Write "{number:g} C" or "{number:g} F".', where=where)


def _in_fahrenheit(celsius: float) -> str:
    return f'Is {celsius:g} °F ({to_celsius(celsius):.0f} °C) meant? Then write "{celsius:g} F".'
