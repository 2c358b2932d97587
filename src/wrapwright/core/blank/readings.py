"""What was measured on a blank and what is asked of its wrap, as values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from wrapwright.core.blank.plate import Ring

How = Literal["girth", "diameter", "flat"]


@dataclass(frozen=True)
class Tape:
    """What was measured with. thickness_mm None = not known. `kind`: a class of U13 or another tool's name.

    Of a printed gauge: the set-up it was printed with and that set-up's scale then (None: never calibrated), the way
    it lay in the printer ("across", "along" or "": not known), and of how many pieces it was joined.
    """

    division_mm: float = 1.0
    thickness_mm: float | None = None
    kind: str = "class II"
    setup: str = ""
    scale: float | None = None
    lies: Literal["", "across", "along"] = ""
    pieces: int = 1


@dataclass(frozen=True)
class Handle:
    """A handle: the angle of its middle and the bare width it leaves on the wall, fillets included."""

    at_deg: float
    gap_mm: float


@dataclass(frozen=True)
class Keepout:
    """A box on the wall where nothing may print; up_mm is its centre from wall position 0.

    On a flat blank across_mm is its centre right of the middle, and at_deg means nothing.
    """

    at_deg: float
    up_mm: float
    width_mm: float
    height_mm: float
    why: str = ""
    across_mm: float = 0.0


@dataclass(frozen=True)
class Reading:
    """One reading: wall position in mm (None: the blank's only or unplaced one), the length read, and how."""

    position_mm: float | None
    length_mm: float
    how: How = "girth"
    where: str = ""  # the key it came from, for messages


@dataclass(frozen=True)
class PlateReadings:
    """A flat blank as measured: width and height, or a circle's diameter, or a drawn outline and one or both sides.

    Attributes:
        width_mm, height_mm: of its box.
        circle_mm: diameter.
        corner_mm: radius of a rectangle's corners.
        file: the drawing of the outline, as the job names it.
        ring: the outline's points in a unit of its own, y up; empty until the drawing is read.
        holes: how many holes the drawing shows inside the outline.
    """

    width_mm: float | None = None
    height_mm: float | None = None
    circle_mm: float | None = None
    corner_mm: float = 0.0
    file: str = ""
    ring: Ring = ()
    holes: int = 0


@dataclass(frozen=True)
class Blank:
    """A blank as measured.

    straight: one reading (position None) and wall_mm. tapered: bottom then top reading (positions None) and
    wall_mm (along the wall) or axial_mm (upright height). profile: readings with positions, wall = their span.
    flat: no readings, but a plate.
    coating is the bare coated surface's sRGB colour. coated is the wall's part that takes dye, None = all.
    """

    kind: Literal["straight", "tapered", "profile", "flat"]
    readings: tuple[Reading, ...]
    wall_mm: float | None = None
    axial_mm: float | None = None
    coating: str = "#ffffff"
    tape: Tape = field(default_factory=Tape)
    handle: Handle | None = None
    keepouts: tuple[Keepout, ...] = ()
    coated: tuple[float, float] | None = None
    name: str = ""
    plate: PlateReadings | None = None


@dataclass(frozen=True)
class WrapRequest:
    """What is asked of the wrap. None: band = the whole wall, seam = left (or the handle), overlap = auto.

    With `panels` it may be printed in several pieces; `joins_deg` says where they join, empty to have the joins placed.
    """

    band_from_mm: float | None = None
    band_height_mm: float | None = None
    seam_deg: float | None = None
    overlap_mm: float | None = None
    bleed_mm: float = 2.0
    safe_mm: float = 4.0
    rim: Literal["cut", "fold"] = "cut"
    base: Literal["cut", "fold"] = "cut"
    panels: bool = False
    joins_deg: tuple[float, ...] = ()
