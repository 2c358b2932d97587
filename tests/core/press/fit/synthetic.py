"""Logs of heat-ups made from known figures."""

from __future__ import annotations

from typing import Any

import numpy as np

from wrapwright.core.press.fit.curves import approach, wall_in_approach
from wrapwright.core.press.fit.values import Series
from wrapwright.core.press.heat.known import material_named
from wrapwright.core.press.values import Wall

STEEL = Wall(material_named("steel"), 0.5, 0.043)
ROOM = 25.0


def heat_up(
    tau_wall: float,
    tau_oven: float,
    level: float,
    *,
    air_start: float = ROOM,
    seconds: int = 0,
    noise: float = 0.5,
    seed: int = 0,
) -> tuple[Any, Any, Any]:
    """Return times, air and wall of a blank that goes in at room temperature; whole unless `seconds` ends it."""
    times = np.arange(0.0, seconds or round(8.0 * max(tau_wall, tau_oven)))
    random = np.random.default_rng(seed)
    air = approach(times, level, air_start, tau_oven)
    wall = wall_in_approach(times, (level, air_start, tau_oven), ROOM, tau_wall)
    return times, air + random.normal(0.0, noise, len(times)), wall + random.normal(0.0, noise, len(times))


def series(times: Any, air: Any = (), wall: Any = ()) -> Series:
    """Return a log of these columns."""
    return Series(tuple(times), tuple(air), tuple(wall))
