"""sRGB (IEC 61966-2-1): its curve and its matrix."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# IEC 61966-2-1, four digits as the standard prints them: linear RGB -> XYZ of D65, Y of white = 1.
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
FROM_XYZ = np.linalg.inv(TO_XYZ)
WHITE_D65 = TO_XYZ.sum(axis=1)


def decode(encoded: NDArray[Any]) -> Array:
    """Return linear light of encoded values; both 0..1, any shape. Values below 0 follow the curve's straight part."""
    value = np.asarray(encoded, dtype=np.float64)
    return np.where(value <= 0.04045, value / 12.92, ((np.maximum(value, 0.04045) + 0.055) / 1.055) ** 2.4)


def encode(linear: NDArray[Any]) -> Array:
    """Return encoded values of linear light; both 0..1, any shape; the inverse of `decode`."""
    value = np.asarray(linear, dtype=np.float64)
    return np.where(value <= 0.0031308, value * 12.92, 1.055 * np.maximum(value, 0.0031308) ** (1 / 2.4) - 0.055)


def to_xyz(encoded: NDArray[Any]) -> Array:
    """Return XYZ (D65, Y of white = 1) of encoded sRGB 0..1, last axis 3."""
    return np.asarray(decode(encoded) @ TO_XYZ.T)


def from_xyz(xyz: NDArray[Any]) -> Array:
    """Return encoded sRGB (not cut to 0..1) of XYZ (D65, Y of white = 1), last axis 3."""
    return encode(np.asarray(xyz, dtype=np.float64) @ FROM_XYZ.T)
