"""What was measured on a blank and what is asked of its wrap, as values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

How = Literal["girth", "diameter", "flat"]


@dataclass(frozen=True)
class Tape:
    """What was measured with. thickness_mm None = not known. `kind`: a class of U13 or another tool's name."""

    division_mm: float = 1.0
    thickness_mm: float | None = None
    kind: str = "class II"


@dataclass(frozen=True)
class Handle:
    """A handle: the angle of its middle and the bare width it leaves on the wall, fillets included."""

    at_deg: float
    gap_mm: float


@dataclass(frozen=True)
class Keepout:
    """A box on the wall where nothing may print; up_mm is its centre from wall position 0."""

    at_deg: float
    up_mm: float
    width_mm: float
    height_mm: float
    why: str = ""


@dataclass(frozen=True)
class Reading:
    """One reading: wall position in mm (None: the blank's only or unplaced one), the length read, and how."""

    position_mm: float | None
    length_mm: float
    how: How = "girth"
    where: str = ""  # the key it came from, for messages


@dataclass(frozen=True)
class Blank:
    """A blank as measured.

    straight: one reading (position None) and wall_mm. tapered: bottom then top reading (positions None) and
    wall_mm (along the wall) or axial_mm (upright height). profile: readings with positions, wall = their span.
    coating is the bare coated surface's sRGB colour. coated is the wall's part that takes dye, None = all.
    """

    kind: Literal["straight", "tapered", "profile"]
    readings: tuple[Reading, ...]
    wall_mm: float | None = None
    axial_mm: float | None = None
    coating: str = "#ffffff"
    tape: Tape = field(default_factory=Tape)
    handle: Handle | None = None
    keepouts: tuple[Keepout, ...] = ()
    coated: tuple[float, float] | None = None
    name: str = ""


@dataclass(frozen=True)
class WrapRequest:
    """What is asked of the wrap. None: band = the whole wall, seam = left (or the handle), overlap = auto."""

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
