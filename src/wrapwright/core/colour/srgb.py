"""sRGB (IEC 61966-2-1): its curve, its matrix, and colours as people write them."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable

Array = NDArray[np.float64]
Rgb = tuple[float, float, float]

# IEC 61966-2-1, four digits as the standard prints them: linear RGB -> XYZ of D65, Y of white = 1.
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
FROM_XYZ = np.linalg.inv(TO_XYZ)
WHITE_D65 = TO_XYZ.sum(axis=1)

_HEX = re.compile(r"#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})")


def decode(encoded: NDArray[Any]) -> Array:
    """Return linear light of encoded values; both 0..1, any shape. Values below 0 follow the curve's straight part."""
    value = np.asarray(encoded, dtype=np.float64)
    return np.where(value <= 0.04045, value / 12.92, ((np.maximum(value, 0.04045) + 0.055) / 1.055) ** 2.4)


def encode(linear: NDArray[Any]) -> Array:
    """Return encoded values of linear light; both 0..1, any shape; the inverse of `decode`."""
    value = np.asarray(linear, dtype=np.float64)
    return np.where(value <= 0.0031308, value * 12.92, 1.055 * np.maximum(value, 0.0031308) ** (1 / 2.4) - 0.055)


def parse_hex(text: str, *, where: str = "") -> Rgb:
    """Return the encoded colour 0..1 of "#rrggbb" or "#rgb".

    Raises:
        WrapwrightError: unusable, when the text is neither.
    """
    match = _HEX.fullmatch(text.strip())
    if match is None:
        raise unusable(
            f'"{text}" is not a colour.', remedy='Write it as "#rrggbb", for example "#0e3a5a".', where=where
        )
    digits = match.group(1)
    if len(digits) == 3:
        digits = "".join(digit * 2 for digit in digits)
    red, green, blue = (int(digits[at : at + 2], 16) / 255.0 for at in (0, 2, 4))
    return (red, green, blue)


def as_hex(colour: Rgb) -> str:
    """Return "#rrggbb" of an encoded colour 0..1, rounded to the nearest code."""
    return "#" + "".join(f"{min(255, max(0, int(value * 255 + 0.5))):02x}" for value in colour)


def to_xyz(encoded: NDArray[Any]) -> Array:
    """Return XYZ (D65, Y of white = 1) of encoded sRGB 0..1, last axis 3."""
    return np.asarray(decode(encoded) @ TO_XYZ.T)


def from_xyz(xyz: NDArray[Any]) -> Array:
    """Return encoded sRGB (not cut to 0..1) of XYZ (D65, Y of white = 1), last axis 3."""
    return encode(np.asarray(xyz, dtype=np.float64) @ FROM_XYZ.T)
