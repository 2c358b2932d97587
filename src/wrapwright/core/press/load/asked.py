"""What is asked of a load, held against what can be meant: temperatures, times, pieces, walls."""

from __future__ import annotations

import re

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_words, seconds_words
from wrapwright.core.press.load.telling import minutes_words
from wrapwright.core.press.recipe.asked import celsius_of
from wrapwright.core.press.recipe.values import HOTTEST_C, LONGEST_S, SHORTEST_S

LOWEST_C = 100.0  # what such a heater is set to at least
MOST_PIECES = 100
THIN_MM, THICK_MM = 0.1, 25.0
MOST_W, LEAST_W = 20_000.0, 100.0
_WATTS = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(kw|w|watts?)?")


def set_celsius(value: str | float, *, where: str = "") -> float:
    """Return what a heater is to be set to, degrees C; a number is in Celsius, a text says its scale.

    Raises:
        WrapwrightError: unusable; outside 100-260 C, and asked about where only the other scale can be meant.
    """
    celsius = celsius_of(value, where=where)
    if celsius >= LOWEST_C:
        return celsius
    limits = f"{celsius_words(LOWEST_C)} to {celsius_words(HOTTEST_C)}"
    raise unusable(f"{celsius_words(celsius)} is not within {limits}.", remedy="Give it with C or F.", where=where)


def watts(value: str, *, where: str = "") -> float:
    """Return a power in W from `1500`, `1500 W` or `1.5 kW`.

    Raises:
        WrapwrightError: unusable; not a power, or not one of a heater.
    """
    found = _WATTS.fullmatch(" ".join(value.lower().split()))
    if found is None:
        raise unusable(f'"{value[:40]}" is not a power.', remedy='Write "1500 W" or "1.5 kW".', where=where)
    number = float(found[1].replace(",", "."))
    return power_w(number * (1000.0 if found[2] == "kw" else 1.0), where=where)


def dwell_s(seconds: float, *, where: str = "") -> float:
    """Return a dwell, seconds.

    Raises:
        WrapwrightError: unusable; outside what a recipe may have, 10 s to 1 h.
    """
    if SHORTEST_S.value <= seconds <= LONGEST_S.value:
        return seconds
    limit = f"{seconds_words(SHORTEST_S.value)} to {seconds_words(LONGEST_S.value)}"
    said = f"{seconds:g} s" if seconds < 60 else f"{seconds / 3600:g} h" if seconds >= 3600 else minutes_words(seconds)
    raise unusable(f"a dwell of {said} is not within {limit}.", remedy="Give it in minutes or seconds.", where=where)


def pieces(count: int, *, capacity: int = MOST_PIECES, where: str = "") -> int:
    """Return how many pieces go in together.

    Raises:
        WrapwrightError: unusable; none, or more than the heater holds.
    """
    if 1 <= count <= capacity:
        return count
    if count < 1:
        raise unusable(f"{count} pieces cannot be heated.", remedy="Give 1 or more.", where=where)
    held = "1 piece" if capacity == 1 else f"{capacity} pieces"
    raise unusable(
        f"{count} pieces are more than the heater holds ({held}).", remedy="Heat them in turns.", where=where
    )


def wall_mm(thickness: float, *, where: str = "") -> float:
    """Return a wall's thickness, mm.

    Raises:
        WrapwrightError: unusable; under 0.1 mm or over 25 mm.
    """
    if THIN_MM <= thickness <= THICK_MM:
        return thickness
    raise unusable(
        f"a wall of {thickness:g} mm is not within {THIN_MM:g} mm to {THICK_MM:g} mm.",
        remedy="Give the thickness of the wall itself; of double-walled ware that of its outer shell.",
        where=where,
    )


def power_w(watts: float, *, where: str = "") -> float:
    """Return a heater's rated power, W.

    Raises:
        WrapwrightError: unusable; under 100 W or over 20 kW.
    """
    if LEAST_W <= watts <= MOST_W:
        return watts
    raise unusable(
        f"a power of {watts:g} W is not within {LEAST_W:g} W to {MOST_W:g} W.",
        remedy="It stands on the rating plate.",
        where=where,
    )
