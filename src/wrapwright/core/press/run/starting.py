"""What must hold before a heat starts: what is ticked, how hot, how long, how many."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.press.values import Heater

# Common practice, no source: what a maker's sheet would have to say to be believed against.
VACUUM_C = 205.0
SHORTEST_S, LONGEST_S = 10.0, 3600.0
MOST_PIECES = 200


@dataclass(frozen=True)
class Tick:
    """What a person confirms before a heat starts."""

    name: str
    text: str


EMPTY = Tick("open-empty-dry", "Every piece is open, empty and dry; lid and gasket are off.")


def ticks_of(*, lidded: bool, double: bool) -> tuple[Tick, ...]:
    """Return what must be ticked: a vessel that can be closed, or whose wall is a vessel itself, can burst."""
    return (EMPTY,) if lidded or double else ()


def missing_ticks(needed: Collection[Tick], ticked: Collection[str]) -> list[WrapwrightError]:
    """Return a problem for each tick that is missing."""
    return [
        unusable(
            f'Not ticked: "{one.text}" A closed or wet vessel can burst.',
            remedy="Look at every piece, then tick it.",
            where=one.name,
        )
        for one in needed
        if one.name not in ticked
    ]


def dwell_problem(dwell_s: float) -> list[WrapwrightError]:
    """Return the problem of a dwell that cannot be meant."""
    if math.isfinite(dwell_s) and SHORTEST_S <= dwell_s <= LONGEST_S:
        return []
    said = f"{dwell_s:g} s ({dwell_s / 60:.4g} min)" if math.isfinite(dwell_s) else "no number"
    message = f"A dwell of {said} cannot be meant: it runs from {SHORTEST_S:g} s to {LONGEST_S / 60:g} min."
    return [unusable(message, remedy="Give the dwell in seconds, as the recipe's range has it.", where="dwell_s")]


def vacuum_problem(heater: Heater, set_c: float, maker_c: float | None, *, double: bool) -> list[WrapwrightError]:
    """Return the problem of vacuum ware set hotter than its maker allows (none known: VACUUM_C).

    A heater known to run hot counts by what it really reaches.
    """
    limit = VACUUM_C if maker_c is None else maker_c
    true_c = set_c + max(0.0, heater.offset_k)
    if not double or true_c <= limit:
        return []
    whose = "its maker's limit" if maker_c is not None else "the limit where the maker's is not known"
    hot = f", where {heater.name} reaches {true_c:.0f} C" if true_c > set_c else ""
    message = (
        f"Double-walled vacuum ware set to {set_c:g} C ({fahrenheit(set_c):.0f} F){hot} is above {whose},"
        f" {limit:g} C ({fahrenheit(limit):.0f} F): it can burst."
    )
    return [unusable(message, remedy="Set the heater lower; the maker's limit comes first.", where="set_c")]


def pieces_problem(heater: Heater, count: int) -> list[WrapwrightError]:
    """Return the problem of no pieces, or more than the heater holds."""
    most = min(MOST_PIECES, heater.capacity)
    if 1 <= count <= most:
        return []
    message = f"{heater.name} holds {most} {'piece' if most == 1 else 'pieces'}; {count} were given."
    return [unusable(message, remedy=f"Give from 1 to {most} pieces.", where="pieces")]


def heat_problem(set_c: float) -> list[WrapwrightError]:
    """Return the problem of a temperature that no heater for this has: likelier Fahrenheit than Celsius."""
    if math.isfinite(set_c) and 20.0 <= set_c <= 260.0:
        return []
    asked = f" Is it {set_c:g} F, which is {(set_c - 32) / 1.8:.0f} C?" if 260.0 < set_c <= 500.0 else ""
    message = f"{set_c:g} C is no temperature to set here: it runs from 20 C to 260 C.{asked}"
    return [unusable(message, remedy="Give degrees Celsius.", where="set_c")]


def refused(message: str, remedy: str) -> WrapwrightError:
    """Return a refusal."""
    return WrapwrightError(Kind.REFUSED, message, remedy=remedy)


def fahrenheit(celsius: float) -> float:
    """Return a temperature in Fahrenheit."""
    return celsius * 1.8 + 32.0


def preheat_s(heater: Heater, set_c: float, room_c: float) -> float | None:
    """Return how long an empty heater takes to the temperature it is set to, in s; None where it never gets there.

    One heat capacity with a constant power and a loss in proportion to the temperature above the room:
    C dT/dt = P - L (T - room), so t = C/L ln(P / (P - L (set - room))).
    """
    rise = set_c - room_c
    if rise <= 0.0:
        return 0.0
    power, loss = heater.power_w, heater.loss_w_k
    if loss * rise >= power:
        return None
    if loss <= 0.0:
        return heater.own_j_k * rise / power
    return heater.own_j_k / loss * math.log(power / (power - loss * rise))
