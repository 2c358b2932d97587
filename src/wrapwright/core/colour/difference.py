"""How different two colours look: CIEDE2000."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def ciede2000(one: NDArray[Any], other: NDArray[Any]) -> Array:
    """Return the CIEDE2000 difference of Lab colours, last axis 3, which broadcast; kL = kC = kH = 1.

    Source: CIE 142:2001 with the hue rules of Sharma, Wu and Dalal, Color Research & Application 30(1), 2005.
    """
    l1, a1, b1 = np.moveaxis(np.asarray(one, dtype=np.float64), -1, 0)
    l2, a2, b2 = np.moveaxis(np.asarray(other, dtype=np.float64), -1, 0)
    grey = 0.5 * (1.0 - _bend((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2.0))
    a1, a2 = (1.0 + grey) * a1, (1.0 + grey) * a2
    c1, c2 = np.hypot(a1, b1), np.hypot(a2, b2)
    h1, h2 = np.degrees(np.arctan2(b1, a1)) % 360.0, np.degrees(np.arctan2(b2, a2)) % 360.0
    no_hue = c1 * c2 == 0.0
    turn = np.where(no_hue, 0.0, (h2 - h1 + 180.0) % 360.0 - 180.0)
    # A turn of exactly 180 degrees keeps the sign of h2 - h1; only its square and the product below use it.
    turn = np.where((h2 - h1 == 180.0) & ~no_hue, 180.0, turn)
    d_hue = 2.0 * np.sqrt(c1 * c2) * np.sin(np.radians(turn) / 2.0)
    chroma = (c1 + c2) / 2.0
    hue = _mean_hue(h1, h2, no_hue)
    weigh_l = _lightness_weight((l1 + l2) / 2.0)
    weigh_c = 1.0 + 0.045 * chroma
    weigh_h = 1.0 + 0.015 * chroma * _hue_factor(hue)
    lightness, colour, tint = (l2 - l1) / weigh_l, (c2 - c1) / weigh_c, d_hue / weigh_h
    blue = -np.sin(np.radians(60.0 * np.exp(-(((hue - 275.0) / 25.0) ** 2)))) * 2.0 * _bend(chroma)
    return np.asarray(np.sqrt(np.maximum(lightness**2 + colour**2 + tint**2 + blue * colour * tint, 0.0)))


def _bend(chroma: Array) -> Array:
    seventh = chroma**7
    return np.asarray(np.sqrt(seventh / (seventh + 25.0**7)))


def _lightness_weight(mean: Array) -> Array:
    off = (mean - 50.0) ** 2
    return np.asarray(1.0 + 0.015 * off / np.sqrt(20.0 + off))


def _mean_hue(h1: Array, h2: Array, no_hue: NDArray[np.bool_]) -> Array:
    total = h1 + h2
    apart = np.abs(h1 - h2) > 180.0
    mean = np.where(apart, np.where(total < 360.0, total + 360.0, total - 360.0), total) / 2.0
    return np.where(no_hue, total, mean)


def _hue_factor(hue: Array) -> Array:
    def cos(degrees: Array) -> Array:
        return np.asarray(np.cos(np.radians(degrees)))

    return (
        1.0
        - 0.17 * cos(hue - 30.0)
        + 0.24 * cos(2.0 * hue)
        + 0.32 * cos(3.0 * hue + 6.0)
        - 0.20 * cos(4.0 * hue - 63.0)
    )
