"""How a print looks on a coating: dye is transparent, so the coating shows through."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.colour import srgb

Array = NDArray[np.float64]


def on_coating(print_rgb: NDArray[Any], coating: Rgb) -> Array:
    """Return the encoded sRGB 0..1 of a print on a coating, last axis 3.

    print_rgb is the print relative to its media white (white = no ink), coating the bare surface, both encoded
    sRGB 0..1. The product of the two reflectances in each linear channel: an approximation, since three broad
    channels stand for the spectrum.
    """
    return srgb.encode(srgb.decode(print_rgb) * srgb.decode(np.asarray(coating)))
