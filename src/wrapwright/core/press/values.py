"""What heat is reckoned with: materials, walls, covers, heaters, loads. Values that everything about heat shares.

SI units but for temperatures, in degrees Celsius, and wall and paper thickness, in mm. A range is what tables and
practice spread over, and the figure that is used when only one can be.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

HeaterKind = Literal["oven", "mug-press", "flat-press"]
Ware = Literal["steel", "double-walled", "aluminium", "ceramic", "glass", "unknown"]

ROOM_C = 25.0
REFERENCE_C = 195.0  # what the equivalent minutes of a dose are counted at
UNCALIBRATED_K = 15.0  # half-width of an oven's doubt before it has been looked at


@dataclass(frozen=True)
class Range:
    """A figure with what it may spread over; low <= mid <= high.

    Raises:
        ValueError: out of order.
    """

    low: float
    mid: float
    high: float

    def __post_init__(self) -> None:
        """Hold the order."""
        if not self.low <= self.mid <= self.high:
            raise ValueError(f"a range must run from low over mid to high, not {self.low}, {self.mid}, {self.high}.")


@dataclass(frozen=True)
class Material:
    """What a wall is made of.

    Attributes:
        name: "steel", "aluminium", "ceramic" ...: what recipes and blanks call it.
        title: what people read.
        density: kg/m3.
        specific_heat: J/kgK.
        conductivity: W/mK.
        emissivity: of the bare surface, 0 to 1.
        expansion_per_k: linear, for the wrap's growth.
        source: of the figures.
    """

    name: str
    title: str
    density: Range
    specific_heat: Range
    conductivity: Range
    emissivity: float
    expansion_per_k: float
    source: str


@dataclass(frozen=True)
class Cover:
    """What lies between the heat and the coating, layer on layer: paper, sleeve.

    Attributes:
        name: "paper", "sleeve" ...
        thickness_mm: of the layer.
        conductivity: W/mK.
    """

    name: str
    thickness_mm: float
    conductivity: Range


@dataclass(frozen=True)
class Wall:
    """The wall of one blank as heat sees it.

    Attributes:
        material: what it is made of.
        thickness_mm: of the wall, or of the outer shell alone where it is double.
        area_m2: the heated outer face of one piece, wall and base.
        double: the outer shell of vacuum ware: its back is nearly adiabatic.
        doubt: half-width of the thickness, as a share of it.
        other_j_k: what else of the piece is heated with the wall (base, handle), in J/K; 0 when not known.
    """

    material: Material
    thickness_mm: float
    area_m2: float
    double: bool = False
    doubt: float = 0.10
    other_j_k: float = 0.0


@dataclass(frozen=True)
class Heater:
    """An oven or a press.

    Attributes:
        kind: oven, mug-press or flat-press.
        name: what the workshop calls it.
        power_w: rated electrical power, what the heater gives while it is on.
        loss_w_k: lost to the room per kelvin above it, door closed.
        own_j_k: heat that its air, liner and racks (a press: its element) take up per kelvin.
        band_k: the thermostat switches on this far below and off this far above where it is set, in all.
        door_w_k: lost to the room besides while the door is open, per kelvin.
        film: surface coefficient in the oven, W/m2K, radiation included; in a press: of the contact.
        offset_k: true temperature less what is set; found by calibrating, 0 before.
        offset_half_k: half-width of that figure.
        capacity: pieces that it holds.
        source: of the figures: what was entered, calibrated, or an estimate.
        radiant: share of the film that is radiation and follows the temperatures; 0: the film stays as it is.
    """

    kind: HeaterKind
    name: str
    power_w: float
    loss_w_k: float
    own_j_k: float
    band_k: float
    door_w_k: float
    film: Range
    offset_k: float = 0.0
    offset_half_k: float = UNCALIBRATED_K
    capacity: int = 1
    source: str = "estimate"
    radiant: float = 0.0


@dataclass(frozen=True)
class Opening:
    """A door that stands open: from when, counted from when the pieces went in, and how long, in seconds."""

    at_s: float
    for_s: float


@dataclass(frozen=True)
class Load:
    """What goes into a heater together: pieces alike, under the same covers.

    Attributes:
        wall: of one piece.
        pieces: how many; at least 1.
        covers: from the heat inwards; empty for bare ware.
        set_c: what the heater is set to.
        room_c: round the heater; the pieces start there too.
        preheated: whether the heater is at temperature when the pieces go in.
        openings: the door, while they are in. Putting them in is not one of them: `door_s` is that.
        door_s: how long the door stands open while they are put in.
    """

    wall: Wall
    pieces: int = 1
    covers: tuple[Cover, ...] = ()
    set_c: float = REFERENCE_C
    room_c: float = ROOM_C
    preheated: bool = True
    openings: tuple[Opening, ...] = ()
    door_s: float = 10.0


@dataclass(frozen=True)
class Window:
    """Where a dose does its work, in equivalent minutes at REFERENCE_C; None: not known yet.

    Attributes:
        low: the transfer is complete from here on, as (low end, high end) of what is known of that bound.
        high: it blurs or yellows from here on, likewise.
        source: of the bounds: accepted trials, or what else.
    """

    low: tuple[float, float] | None = None
    high: tuple[float, float] | None = None
    source: str = ""


@dataclass(frozen=True)
class Dose:
    """Equivalent minutes at REFERENCE_C: the middle, and a band that nine of ten cases lie in."""

    low: float
    mid: float
    high: float


@dataclass(frozen=True)
class Curve:
    """A temperature over time with its band; times in s from when the pieces went in, temperatures in degrees C."""

    times_s: tuple[float, ...]
    mid_c: tuple[float, ...]
    low_c: tuple[float, ...] = field(default=())
    high_c: tuple[float, ...] = field(default=())
