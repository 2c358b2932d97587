"""One piece as heat sees it: heat capacities in a row, from the heated face to the back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.heat.films import Face
from wrapwright.core.press.values import Wall

Floats = NDArray[np.float64]
LUMPED_UP_TO = 0.1  # Biot number up to which one temperature stands for the wall; Incropera, Fundamentals, 5.2
LAYERS = 15  # within 0.001 of the exact series for Biot numbers up to 2; see tests


@dataclass(frozen=True)
class Body:
    """One piece in k cases: `layers` heat capacities in a row.

    Attributes:
        layers: how many; 1: the wall has one temperature.
        stored_j_k: (k, layers), heat capacity of each.
        face_w_k: (k,), from air or element to the first.
        between_w_k: (k,), from each to the next.
        back_w_k: (k,), behind the last.
        area_m2: of the heated face.
        face: how heat reaches it.
        back_to_room: whether what passes the back goes to the room; else it comes from the air.
    """

    layers: int
    stored_j_k: Floats
    face_w_k: Floats
    between_w_k: Floats
    back_w_k: Floats
    area_m2: float
    face: Face
    back_to_room: bool = False


def biot(conductance: Floats, thickness_m: Floats, conductivity: float) -> Floats:
    """Return the Biot number of a wall heated from one side: h d / k."""
    return conductance * thickness_m / conductivity


def shares(layers: int) -> Floats:
    """Return the part of the wall that each layer stands for: half as much at both faces, where it lies at the rim."""
    if layers == 1:
        return np.ones(1)
    parts = np.full(layers, 1.0 / (layers - 1))
    parts[[0, -1]] /= 2.0
    return parts


def layers_for(wall: Wall, passes: float, factor: float = 1.0) -> int:
    """Return how many layers a wall wants: 1 while its Biot number is at most LUMPED_UP_TO, thick as it may be.

    Args:
        wall: as given; its own doubt is counted in.
        passes: the most that passes from the air to the coating, W/m2K.
        factor: of the wall's thickness, the largest of any case.
    """
    thick = wall.thickness_mm / 1000.0 * max(1.0 + wall.doubt, factor)
    number = float(biot(np.array([passes]), np.array([thick]), wall.material.conductivity.mid)[0])
    return LAYERS if number > LUMPED_UP_TO else 1


def body(
    wall: Wall, face: Face, factor: Floats, back: Floats, *, back_to_room: bool = False, layers: int = LAYERS
) -> Body:
    """Return the piece in every case.

    Base and handle (`other_j_k`) are spread over the layers: an estimate, since they warm a little later.

    Args:
        wall: of the piece.
        face: how heat reaches the coating.
        factor: (k,), of the wall's thickness.
        back: (k,), W/m2K behind the wall.
        back_to_room: whether what passes there goes to the room.
        layers: of the wall; 1: it has one temperature.
    """
    thickness = wall.thickness_mm / 1000.0 * factor
    conductivity = wall.material.conductivity.mid
    passes = face.usual()
    whole = wall.material.density.mid * wall.material.specific_heat.mid * thickness * wall.area_m2 + wall.other_j_k
    between = conductivity * wall.area_m2 * max(layers - 1, 1) / thickness
    return Body(
        layers,
        whole[:, None] * shares(layers)[None, :],
        passes * wall.area_m2,
        between,
        back * wall.area_m2,
        wall.area_m2,
        face,
        back_to_room,
    )
