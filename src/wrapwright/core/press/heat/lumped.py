"""Walls thin enough for one temperature: in closed form, and stepped where radiation makes it bend."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.press.heat.films import radiation_film
from wrapwright.core.press.values import Wall

Floats = NDArray[np.float64]


def time_constant_s(film: float, density: float, specific_heat: float, length_m: float) -> float:
    """Return density x specific heat x length / film, in s; the length is volume over heated face.

    Of a wall heated on one side that is its thickness, of a sphere a sixth of its diameter.

    Raises:
        WrapwrightError: unusable: a figure that is not over 0.
    """
    given = {"surface coefficient": film, "density": density, "specific heat": specific_heat, "length": length_m}
    for what, figure in given.items():
        if not (math.isfinite(figure) and figure > 0):
            raise unusable(f"a {what} of {figure:g} has no time constant: it must be over 0.")
    return density * specific_heat * length_m / film


def wall_constant_s(wall: Wall, passes: float) -> float:
    """Return the time constant of a wall heated on one side, base and handle included, in s.

    Args:
        wall: of one piece.
        passes: from the air to the coating, W/m2K.
    """
    material = wall.material
    bare = time_constant_s(passes, material.density.mid, material.specific_heat.mid, wall.thickness_mm / 1000.0)
    return bare + wall.other_j_k / (passes * wall.area_m2)


def lumped_c(times_s: ArrayLike, start_c: ArrayLike, air_c: ArrayLike, constant_s: ArrayLike) -> Floats:
    """Return the temperatures in steady air, degrees C: air - (air - start) exp(-t / constant)."""
    air, start = np.asarray(air_c, dtype=np.float64), np.asarray(start_c, dtype=np.float64)
    gone = np.exp(-np.asarray(times_s, dtype=np.float64) / np.asarray(constant_s, dtype=np.float64))
    temps: Floats = air - (air - start) * gone
    return temps


def lumped_seconds(start_c: float, air_c: float, goal_c: float, constant_s: float) -> float:
    """Return when a temperature is reached in steady air: constant x ln((air - start) / (air - goal)).

    Raises:
        WrapwrightError: unusable: a goal that does not lie between start and air.
    """
    if start_c == air_c or not 0 < (air_c - goal_c) / (air_c - start_c) <= 1:
        raise unusable(
            f"from {start_c:g} degrees C in air at {air_c:g} the temperature {goal_c:g} is never reached: "
            "it must lie between the two."
        )
    return constant_s * math.log((air_c - start_c) / (air_c - goal_c))


def radiating_c(
    times_s: Floats,
    start_c: ArrayLike,
    *,
    gas_c: ArrayLike,
    around_c: ArrayLike,
    film: ArrayLike,
    emissivity: ArrayLike,
    held_j_m2k: ArrayLike,
) -> Floats:
    """Return (..., m) temperatures, degrees C, of something thin between gas and surroundings that it radiates to.

    held dT/dt = film (gas - T) + emissivity sigma (around^4 - T^4), by Runge and Kutta's fourth order, with steps of
    at most a twentieth of the shortest time constant. In an oven and, with gas and surroundings at the room's
    temperature, while a piece cools.

    Args:
        times_s: (m,), growing from 0.
        start_c: at the first moment; this and what follows may be arrays of cases that broadcast.
        gas_c: of the air.
        around_c: of what is radiated to: oven walls, the room.
        film: of convection alone, W/m2K.
        emissivity: of the surface.
        held_j_m2k: heat capacity behind a square metre of surface: density x specific heat x thickness.
    """
    given = np.broadcast_arrays(
        *(np.asarray(one, dtype=np.float64) for one in (start_c, gas_c, around_c, film, emissivity, held_j_m2k))
    )
    temp, gas, around, convection, grey, held = given
    hottest = np.maximum(np.maximum(gas, around), temp)
    quickest = float(np.max((convection + radiation_film(grey, hottest, hottest)) / held))

    def slope(celsius: Floats) -> Floats:
        radiation = radiation_film(grey, celsius, around)
        gains: Floats = (convection * (gas - celsius) + radiation * (around - celsius)) / held
        return gains

    found = np.empty((*temp.shape, len(times_s)))
    found[..., 0] = temp
    for number, span in enumerate(np.diff(times_s), start=1):
        inner = max(1, math.ceil(span * quickest * 20.0))
        step = span / inner
        for _ in range(inner):
            one = slope(temp)
            two = slope(temp + step / 2 * one)
            three = slope(temp + step / 2 * two)
            temp = temp + step / 6 * (one + 2 * two + 2 * three + slope(temp + step * three))
        found[..., number] = temp
    return found
