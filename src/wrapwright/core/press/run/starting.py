"""What must hold before a heat starts: what is ticked, how hot, how long, how many."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.press.values import Heater

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


def pieces_problem(heater: Heater, count: int) -> list[WrapwrightError]:
    """Return the problem of no pieces, or more than the heater holds."""
    most = min(MOST_PIECES, heater.capacity)
    if 1 <= count <= most:
        return []
    message = f"{heater.name} holds {most} {'piece' if most == 1 else 'pieces'}; {count} were given."
    return [unusable(message, remedy=f"Give from 1 to {most} pieces.", where="pieces")]


def refused(message: str, remedy: str) -> WrapwrightError:
    """Return a refusal."""
    return WrapwrightError(Kind.REFUSED, message, remedy=remedy)


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
