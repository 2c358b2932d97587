"""Where one copy of an element lies: its own millimetres to the flat paper and back."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Placement:
    """One copy of an element on the wrap.

    The element's own frame ("local mm"): a to the right, b up, origin at its centre, before its turn.

    Attributes:
        wrap: the flat wrap.
        turn: its centre's turn (degrees from the seam).
        up_mm: its centre above the band's lower edge, along the wall.
        lay: "true" keeps the shape rigid, its upright along the wall at its centre; "level" bends it so that
            horizontals follow the rim, widths being arcs at the centre's height.
        turn_deg: own turn, clockwise as seen.
        laps: whole turns added by the seam motion: -1, 0 or 1 (copies that show beyond the seam).
    """

    wrap: FlatWrap
    turn: float
    up_mm: float
    lay: str = "true"
    turn_deg: float = 0.0
    laps: int = 0

    def to_flat(self, local: Array) -> Array:
        """Return flat mm, shape (n, 2), of local mm, shape (n, 2)."""
        a, b = _turned(local[..., 0], local[..., 1], -self.turn_deg)
        turn = self.turn + 360.0 * self.laps
        if self.lay == "level":
            circle = self.wrap.turn_length(self.up_mm)
            x, y = self.wrap.to_flat(turn + 360.0 * a / circle, self.up_mm + b)
        else:
            x0, y0 = self.wrap.to_flat(np.asarray(turn), np.asarray(self.up_mm))
            lean = self.wrap.tilt(turn)
            x = x0 + a * math.cos(lean) + b * math.sin(lean)
            y = y0 - a * math.sin(lean) + b * math.cos(lean)
        return np.stack([x, y], axis=-1)

    def to_local(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Return local mm (a, b) of flat points; arrays keep their shape."""
        turn = self.turn + 360.0 * self.laps
        if self.lay == "level":
            at, up = self.wrap.from_flat(x, y)
            a = (at - turn) / 360.0 * self.wrap.turn_length(self.up_mm)
            b = up - self.up_mm
        else:
            x0, y0 = self.wrap.to_flat(np.asarray(turn), np.asarray(self.up_mm))
            lean = self.wrap.tilt(turn)
            dx, dy = x - x0, y - y0
            a = dx * math.cos(lean) - dy * math.sin(lean)
            b = dx * math.sin(lean) + dy * math.cos(lean)
        return _turned(a, b, self.turn_deg)


def _turned(a: Array, b: Array, degrees: float) -> tuple[Array, Array]:
    """Return the point turned anticlockwise by `degrees`."""
    if degrees == 0.0:
        return a, b
    angle = math.radians(degrees)
    cos, sin = math.cos(angle), math.sin(angle)
    return a * cos - b * sin, a * sin + b * cos
