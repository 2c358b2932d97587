"""A picture made lighter, harder or more colourful, in CIELAB."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import lab
from wrapwright.core.design.elements import Adjust

Array = NDArray[np.float64]

MIDDLE = 50.0  # the lightness that a change of contrast leaves where it is


def adjusted(encoded: NDArray[Any], change: Adjust) -> Array:
    """Return encoded sRGB 0..1 after a change in CIELAB, last axis 3, cut to 0..1.

    A change of nothing returns the values as they are.
    """
    rgb = np.asarray(encoded, dtype=np.float64)
    if change == Adjust():
        return rgb
    return np.clip(lab.to_srgb(changed(lab.of_srgb(rgb), change)), 0.0, 1.0)


def changed(colour: NDArray[Any], change: Adjust) -> Array:
    """Return Lab (D50) after a change, last axis 3.

    lightness +p moves L* by p percent of its way to 100, -p by p percent of its way to 0;
    contrast multiplies L* - 50 by 1 + p/100; chroma multiplies a* and b* by 1 + p/100. Contrast comes first.
    """
    light = MIDDLE + (colour[..., 0] - MIDDLE) * (1.0 + change.contrast / 100.0)
    light = np.clip(light, 0.0, 100.0)
    share = change.lightness / 100.0
    light = light + (share * (100.0 - light) if share > 0 else share * light)
    tint = colour[..., 1:] * (1.0 + change.chroma / 100.0)
    return np.concatenate([light[..., None], tint], axis=-1)
