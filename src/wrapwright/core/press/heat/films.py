"""Heat through surfaces: convection, radiation, and covers in series with them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from wrapwright.core.press.values import Cover

Floats = NDArray[np.float64]
STEFAN_BOLTZMANN = 5.670374419e-8  # W/m2K4, CODATA 2018
ZERO_C = 273.15
# How far from room to goal a surface is when its film is the one that an exponential, fitted to the whole heat-up of a
# wall, finds: measured on this model itself (see its tests), so that a film calibrated by a time constant holds.
ANCHOR = 0.44


def radiated(emissivity: ArrayLike, surface_c: ArrayLike, around_c: ArrayLike | None = None) -> Floats:
    """Return the heat flux that a grey surface radiates, W/m2; less what comes back from black surroundings if given.

    Stefan-Boltzmann: emissivity x sigma x (T^4 - T_around^4), in kelvin.
    """
    surface = np.asarray(surface_c, dtype=np.float64) + ZERO_C
    back = 0.0 if around_c is None else (np.asarray(around_c, dtype=np.float64) + ZERO_C) ** 4
    flux: Floats = np.asarray(emissivity, dtype=np.float64) * STEFAN_BOLTZMANN * (surface**4 - back)
    return flux


def radiation_film(emissivity: ArrayLike, surface_c: ArrayLike, around_c: ArrayLike) -> Floats:
    """Return the coefficient of radiation between a small grey surface and black surroundings, W/m2K.

    emissivity x sigma x (T1 + T2)(T1^2 + T2^2), in kelvin: the flux over the difference, exact at any difference.
    """
    one = np.asarray(surface_c, dtype=np.float64) + ZERO_C
    two = np.asarray(around_c, dtype=np.float64) + ZERO_C
    film: Floats = np.asarray(emissivity, dtype=np.float64) * STEFAN_BOLTZMANN * (one + two) * (one**2 + two**2)
    return film


def cover_resistance(covers: Sequence[Cover], place: ArrayLike = 0.0) -> Floats:
    """Return the resistance of layers on each other, m2K/W, of the shape of `place`.

    Args:
        covers: the layers.
        place: where each conductivity lies in its range: -1 low, 0 mid, 1 high.
    """
    at = np.clip(np.asarray(place, dtype=np.float64), -1.0, 1.0)
    total = np.zeros_like(at)
    for one in covers:
        spread = one.conductivity
        conductivity = spread.mid + np.where(at < 0, (spread.mid - spread.low) * at, (spread.high - spread.mid) * at)
        total = total + one.thickness_mm / 1000.0 / conductivity
    return total


def conductance(film: ArrayLike, covers: Sequence[Cover] = (), place: ArrayLike = 0.0) -> Floats:
    """Return what passes from the air to the coating, W/m2K: surface coefficient and covers in series."""
    through: Floats = 1.0 / (1.0 / np.asarray(film, dtype=np.float64) + cover_resistance(covers, place))
    return through


@dataclass(frozen=True)
class Face:
    """How heat reaches the coating in k cases.

    Attributes:
        film: (k,), surface coefficient, W/m2K, radiation included, as on average of a heat-up.
        resistance: (k,), of the covers, m2K/W.
        radiant: share of the film that is radiation; 0: the film stays as it is.
        goal_k: (k,), what the heater goes for, kelvin above the room.
        room_c: the room.
    """

    film: Floats
    resistance: Floats
    radiant: float = 0.0
    goal_k: Floats | float = 0.0
    room_c: float = 25.0

    def usual(self) -> Floats:
        """Return what passes on average of a heat-up, (k,), W/m2K."""
        passes: Floats = 1.0 / (1.0 / self.film + self.resistance)
        return passes

    def anchor(self) -> Floats:
        """Return how strong radiation is on average of a heat-up: what `passing` measures it against."""
        goal = np.asarray(self.goal_k, dtype=np.float64)
        return radiation_film(1.0, self.room_c + ANCHOR * goal, self.room_c + goal)


def passing(face: Face, usual: Floats, anchor: Floats, air_k: Floats, coating_k: Floats) -> Floats:
    """Return what passes from the air to the coating right now, (k,), W/m2K, radiation at these temperatures.

    The surface that radiation meets is that of the outermost cover; where it is, follows from the usual conductance.

    Args:
        face: how heat reaches the coating.
        usual: `face.usual()`.
        anchor: `face.anchor()`.
        air_k: of air and oven walls, kelvin above the room.
        coating_k: of the coating, likewise.
    """
    outer_k = air_k - (air_k - coating_k) * (usual / face.film)
    now = radiation_film(1.0, outer_k + face.room_c, air_k + face.room_c)
    film = face.film * (1.0 - face.radiant + face.radiant * now / anchor)
    passes: Floats = 1.0 / (1.0 / film + face.resistance)
    return passes
