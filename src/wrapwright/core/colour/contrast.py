"""Whether lettering stands out from what lies behind it: the contrast ratio of WCAG 2."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import srgb

Array = NDArray[np.float64]

# WCAG 2.2, "relative luminance": the sRGB matrix's row of Y.
_SHARES = np.array([0.2126, 0.7152, 0.0722])


def luminance(encoded: NDArray[Any]) -> Array:
    """Return the relative luminance (white = 1) of encoded sRGB 0..1, last axis 3."""
    return np.asarray(srgb.decode(encoded) @ _SHARES)


def ratio(one: NDArray[Any], other: NDArray[Any]) -> Array:
    """Return the contrast ratio, 1..21, of encoded sRGB colours 0..1, last axis 3, which broadcast. Never rounded."""
    first, second = luminance(one), luminance(other)
    return np.asarray((np.maximum(first, second) + 0.05) / (np.minimum(first, second) + 0.05))
