"""What is told of a load: how long it wants for n pieces, and what a small change does to it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from wrapwright.core.press.values import Curve, Dose, Window

LONGEST_S = 3600.0  # a dwell beyond an hour is not recommended; the reckoning ends there
BEYOND_S = math.inf  # an end of a span that lies past LONGEST_S
NEAR_K = 5.0  # a coating is at temperature when it is within so much of what the heater really holds
STEP_K = 5.0  # what "5 degrees" of a sensitivity are
DOOR_S = 20.0
MINUTE_S = 60.0


@dataclass(frozen=True)
class HeatAsked:
    """What a job says of its heat besides the recipe's name; None and "" for what it does not say.

    Attributes:
        heater: its name, or its kind.
        set_c: what it is set to.
        pieces: heated together.
        wall_mm: thickness of the wall, of a double one its outer shell.
        material: what it is made of.
        double: vacuum ware.
    """

    heater: str = ""
    set_c: float | None = None
    pieces: int | None = None
    wall_mm: float | None = None
    material: str = ""
    double: bool | None = None


@dataclass(frozen=True)
class Span:
    """A time with its doubt, seconds: the middle case, and a band that nine of ten cases lie in.

    An end past LONGEST_S is BEYOND_S.
    """

    low: float
    mid: float
    high: float


@dataclass(frozen=True)
class Aim:
    """The dose that is wanted, equivalent minutes at the reference temperature.

    Attributes:
        low, mid, high: it should not be less, what is aimed at, it should not be more.
        source: "trials" where the bounds are those of accepted trials, "recipe" where they are what the recipe's own
            range gives.
        window: the bounds as they are known; None where they are not known yet.
        made_by: the coating's curve that gave `mid`, up to its end, so that another activation energy is counted on
            both sides; None where none is known.
    """

    low: float
    mid: float
    high: float
    source: Literal["trials", "recipe"] = "recipe"
    window: Window = field(default_factory=Window)
    made_by: Curve | None = None


@dataclass(frozen=True)
class Recommended:
    """How long so many pieces want.

    Attributes:
        pieces: together in the heater.
        dwell_s: until the aim's middle is reached, with the doubt of heater, film, wall and energy.
        range_s: until the aim's low and its high are reached, all in the middle case.
        to_temperature_s: until the coating is within NEAR_K of what the heater really holds; BEYOND_S when never.
        dose: after `dwell_s.mid`; all nought when that lies past LONGEST_S.
    """

    pieces: int
    dwell_s: Span
    range_s: tuple[float, float]
    to_temperature_s: float
    dose: Dose


Change = Literal["hotter", "cooler", "longer", "shorter", "more", "fewer", "door"]


@dataclass(frozen=True)
class Shift:
    """What one change does, in the middle case.

    Attributes:
        change: hotter, cooler (by 5 K), longer, shorter (by 1 min), more, fewer (by 1 piece), door (open for 20 s).
        dose: equivalent minutes then, over the same dwell but for longer and shorter.
        share: that dose over the one without the change.
        dwell_s: how long it then takes to the unchanged dose; BEYOND_S past LONGEST_S.
    """

    change: Change
    dose: float
    share: float
    dwell_s: float
