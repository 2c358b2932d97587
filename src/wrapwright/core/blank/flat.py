"""The flat wrap: where a place on the wall lies on the flat paper, and back.

Frame of all flat coordinates in the project ("flat mm, as seen"): the outside of the wall, base down,
x to the viewer's right, y up. The origin lies on the band's lower edge, halfway round from the seam's
(or handle's) angle, so that x = 0 is the line opposite the seam. All lengths are those of the paper's
middle layer: one whole turn at a height is girth + pi t there.

`turn` is the angle in degrees from the seam's (or handle's) angle, growing to the viewer's right, 0..360.
`up` is the distance in mm along the wall from the band's lower edge.

Source of the formulas: development of a cone frustum (any handbook of descriptive geometry); written with
the sinc and half-angle forms so that the straight wall is the limit theta -> 0 without loss of digits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.places import whole_turn
from wrapwright.core.blank.plate import Plate

Array = NDArray[np.float64]


@dataclass(frozen=True)
class FlatWrap:
    """The flat shape of one band of a straight or tapered wall.

    Attributes:
        lower_mm: one whole turn at the band's lower edge, girth + pi t.
        upper_mm: the same at the band's upper edge.
        height_mm: height of the band along the wall.
        overlap_mm: width of the strip added beyond the right end; 0 with a handle.
        gap_mm: bare width at the handle, 0 without one; half of it is cut off each end.
        seam_deg: angle round the blank of the seam or of the handle's middle, 0 = front.
        from_turn, to_turn: where a panel of the wrap begins and ends; 0 and 360 on a wrap in one piece. A panel lies
            in the frame of its wrap, and its overlap is that of its own right end.
        plate: the outline of a flat blank, which nothing goes round: its width stands for the whole turn, its front
            lies in the middle, and it has no seam; None for a blank with a wall.
    """

    lower_mm: float
    upper_mm: float
    height_mm: float
    overlap_mm: float = 0.0
    gap_mm: float = 0.0
    seam_deg: float = 270.0
    from_turn: float = 0.0
    to_turn: float = 360.0
    plate: Plate | None = None

    @property
    def theta(self) -> float:
        """Sector angle in rad of one whole turn, signed: negative when the foot is wider than the rim."""
        return (self.upper_mm - self.lower_mm) / self.height_mm

    @property
    def is_sector(self) -> bool:
        """True for a tapered wrap."""
        return self.theta != 0.0

    @property
    def inverted(self) -> bool:
        """True when the foot is wider than the rim."""
        return self.theta < 0.0

    @cached_property
    def inner_radius_mm(self) -> float:
        """Radius of the shorter arc; infinite for a straight wall."""
        return min(self.lower_mm, self.upper_mm) / abs(self.theta) if self.is_sector else math.inf

    @cached_property
    def outer_radius_mm(self) -> float:
        """Radius of the longer arc; infinite for a straight wall."""
        return self.inner_radius_mm + self.height_mm if self.is_sector else math.inf

    def turn_length(self, up: float) -> float:
        """Return the length in mm of one whole turn at `up`."""
        return self.lower_mm + self.theta * up

    def turn_of(self, at_deg: float) -> float:
        """Return the turn in [0, 360) of an angle round the blank."""
        return whole_turn(at_deg - self.seam_deg)

    def turn_at(self, at_deg: float, across_mm: float) -> float:
        """Return the turn of a place: by its angle round the blank or, on a flat blank, by mm right of the middle."""
        if self.plate is None:
            return self.turn_of(at_deg)
        return 180.0 + 360.0 * across_mm / self.lower_mm

    def at_of(self, turn: float) -> float:
        """Return the angle round the blank in [0, 360) of a turn."""
        return whole_turn(turn + self.seam_deg)

    def tilt(self, turn: float) -> float:
        """Return the angle in rad by which the wall's upright at `turn` leans to the right of y."""
        return self.theta * (turn / 360.0 - 0.5)

    def to_flat(self, turn: Array, up: Array) -> tuple[Array, Array]:
        """Return flat x, y in mm of places on the wall. Arrays broadcast; any turn is allowed."""
        share = np.asarray(turn, dtype=np.float64) / 360.0 - 0.5
        up = np.asarray(up, dtype=np.float64)
        phi = self.theta * share
        # r sin(phi) with r = lower/theta + up, and r cos(phi) - lower/theta, free of the division by theta.
        x = self.lower_mm * share * np.sinc(phi / np.pi) + up * np.sin(phi)
        half = np.sin(phi / 2.0)
        y = up * np.cos(phi) - self.lower_mm * share * np.sinc(phi / (2.0 * np.pi)) * half
        return x, y

    def from_flat(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Return turn, up of flat points; the inverse of `to_flat` for points on the paper's side of the apex."""
        x = np.asarray(x, dtype=np.float64)
        y = np.asarray(y, dtype=np.float64)
        theta = self.theta
        if theta == 0.0:
            return 360.0 * (x / self.lower_mm + 0.5), y + 0.0 * x
        sign = 1.0 if theta > 0 else -1.0
        base = self.lower_mm / theta  # signed distance of the apex below the origin
        phi = np.arctan2(sign * x, sign * (base + y))
        # hypot - |base| written so that large radii keep their digits.
        radius = np.hypot(x, base + y)
        up = sign * (x * x + y * y + 2.0 * base * y) / (radius + abs(base))
        return 360.0 * (phi / theta + 0.5), up

    def carried_round(self, share: float) -> Array:
        """Return the rigid motion (3x3) of the flat plane by a share of a whole turn to the right, below 0 to the left.

        A rotation by that share of theta (clockwise) about the apex (0, -lower/theta); on a straight wall a shift. Art
        repeated by whole turns joins at the seam; the overlap shows the left end's art carried round once.
        """
        theta, way = self.theta * share, self.lower_mm * share
        cos, sin = math.cos(theta), math.sin(theta)
        sinc = 1.0 if theta == 0 else sin / theta
        half = 0.0 if theta == 0 else (1.0 - cos) / theta if abs(theta) > 1e-3 else theta / 2.0 - theta**3 / 24.0
        return np.array([[cos, sin, way * sinc], [-sin, cos, -way * half], [0.0, 0.0, 1.0]])

    @property
    def trim_width_mm(self) -> float:
        """Width as reported: straight = width, sector = the longer arc; overlap in, handle gap out."""
        ends = (self.from_turn == 0.0) + (self.to_turn == 360.0)
        share = (self.to_turn - self.from_turn) / 360.0
        return max(self.lower_mm, self.upper_mm) * share - self.gap_mm * ends / 2.0 + self.overlap_mm
