"""A frame: which flat millimetres the pixels of a raster look at."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, eq=False)
class Frame:
    """A raster of pixels laid over the flat plane.

    Attributes:
        width_px, height_px: size of the raster; row 0 is its top row.
        to_flat: 3x3 affine matrix of column vectors, continuous pixel coordinates (x right, y DOWN, the
            centre of the first pixel is 0.5, 0.5) -> flat mm as seen. Only core/sheet/mirror.py makes one
            that mirrors.
    """

    width_px: int
    height_px: int
    to_flat: NDArray[np.float64]


def seen_frame(box: tuple[float, float, float, float], ppi: float) -> Frame:
    """Return the unmirrored frame over a box (left, bottom, right, top in flat mm) at `ppi` pixels per inch.

    The raster is the box rounded up to whole pixels; its upper left corner is the box's.
    """
    left, bottom, right, top = box
    pitch = 25.4 / ppi
    width = max(1, int(np.ceil((right - left) / pitch - 1e-6)))
    height = max(1, int(np.ceil((top - bottom) / pitch - 1e-6)))
    return Frame(width, height, np.array([[pitch, 0.0, left], [0.0, -pitch, top], [0.0, 0.0, 1.0]]))
