"""What is asked of a load, held against what can be meant: temperatures, times, pieces, walls."""

from __future__ import annotations

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.units import temperature_c, to_celsius
from wrapwright.core.press.load.telling import heat_words, minutes_words

LOWEST_C, HIGHEST_C = 100.0, 260.0  # what such a heater is set to; a figure beyond it is a slip
TRANSFER_F = (320.0, 450.0)  # what is set where people think in Fahrenheit
SHORTEST_DWELL_S, LONGEST_DWELL_S = 5.0, 7200.0
MOST_PIECES = 100
THIN_MM, THICK_MM = 0.1, 25.0
MOST_W, LEAST_W = 20_000.0, 100.0


def set_celsius(value: str | float, *, where: str = "") -> float:
    """Return what a heater is to be set to, degrees C; a number is taken as Celsius.

    Raises:
        WrapwrightError: unusable; outside 100-260 C, and asked about where only the other scale can be meant.
    """
    celsius = temperature_c(value, where=where) if isinstance(value, str) else float(value)
    if LOWEST_C <= celsius <= HIGHEST_C:
        return celsius
    raise _beyond(celsius, where)


def _beyond(celsius: float, where: str) -> WrapwrightError:
    limits = f"{heat_words(LOWEST_C)} to {heat_words(HIGHEST_C)}"
    low, high = TRANSFER_F
    if low <= celsius <= high:
        return unusable(
            f"{celsius:g} °C is hotter than any heater for this work is set ({limits}).",
            remedy=f"Was {celsius:g} °F meant? That is {to_celsius(celsius):.0f} °C: write {celsius:g} F.",
            where=where,
        )
    return unusable(f"{heat_words(celsius)} is not within {limits}.", remedy="Give it with C or F.", where=where)


def dwell_s(seconds: float, *, where: str = "") -> float:
    """Return a dwell, seconds.

    Raises:
        WrapwrightError: unusable; under 5 s or over 2 h.
    """
    if SHORTEST_DWELL_S <= seconds <= LONGEST_DWELL_S:
        return seconds
    limit = f"{SHORTEST_DWELL_S:.0f} s to {LONGEST_DWELL_S / 60:.0f} min"
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
