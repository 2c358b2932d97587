"""Where the eye is: far away, a little above the piece, turned to one side of it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from wrapwright.outside.raster.piece.solid import Solid

ELEVATION_DEG = 11.0


@dataclass(frozen=True)
class Camera:
    """A far eye (parallel rays) looking down by `elevation`.

    In the eye's frame X runs to its right, Y away from it (level) and Z up; the piece's axis is X = Y = 0. A point
    lands at column centre_x + scale X and row centre_y - scale (Z cos + Y sin), continuous pixels, row 0 on top.

    Attributes:
        width_px, height_px: size of the picture.
        scale: pixels per mm.
        centre_x, centre_y: where the axis meets Z = 0.
        elevation: angle in rad by which the eye looks down.
    """

    width_px: int
    height_px: int
    scale: float
    centre_x: float
    centre_y: float
    elevation: float = math.radians(ELEVATION_DEG)

    def project(self, x: float, y: float, z: float) -> tuple[float, float]:
        """Return the column and row of a point of the eye's frame, in continuous pixels."""
        rise = z * math.cos(self.elevation) + y * math.sin(self.elevation)
        return self.centre_x + self.scale * x, self.centre_y - self.scale * rise

    def times(self, factor: int) -> Camera:
        """Return the same view with `factor` times the pixels each way."""
        return replace(
            self,
            width_px=self.width_px * factor,
            height_px=self.height_px * factor,
            scale=self.scale * factor,
            centre_x=self.centre_x * factor,
            centre_y=self.centre_y * factor,
        )


def camera_for(solid: Solid, size_px: tuple[int, int], *, reach_mm: float = 0.0) -> Camera:
    """Return the camera that fits the piece into the picture from every side, at one scale.

    `reach_mm` is how far a handle stands out from the axis, 0 without one.
    """
    width, height = size_px
    sin, cos = math.sin(math.radians(ELEVATION_DEG)), math.cos(math.radians(ELEVATION_DEG))
    side = max(solid.radius, reach_mm)
    top = float(solid.z.max()) * cos + float(solid.r[-1]) * sin
    low = float(solid.z[0]) * cos - float(solid.r[0]) * sin
    # A margin for the soft shadow at the foot and a little air.
    margin = 0.05 * (top - low)
    scale = min(width / (2.0 * (side + margin)), height / (top - low + 2.2 * margin))
    middle = 0.5 * (top + low) - 0.1 * margin
    return Camera(width, height, scale, width / 2.0, height / 2.0 + scale * middle)
