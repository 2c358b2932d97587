"""CIELAB (CIE 15, ISO/CIE 11664-4) for D65 and, adapted as ICC profiles adapt, for D50."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import srgb

Array = NDArray[np.float64]

# ICC.1 clause 7.2.16: the profile connection space's illuminant.
WHITE_D50 = np.array([0.9642, 1.0, 0.8249])
# The linearised Bradford matrix, ICC.1 annex E.
BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])

_EDGE = 6.0 / 29.0


def adaptation(source: Array, target: Array) -> Array:
    """Return the 3x3 matrix (column vectors) that carries XYZ seen under white `source` to white `target`."""
    gains = (BRADFORD @ target) / (BRADFORD @ source)
    return np.asarray(np.linalg.inv(BRADFORD) @ np.diag(gains) @ BRADFORD)


TO_D50 = adaptation(srgb.WHITE_D65, WHITE_D50)
FROM_D50 = np.linalg.inv(TO_D50)


def from_xyz(xyz: NDArray[Any], white: Array = WHITE_D50) -> Array:
    """Return L*, a*, b* of XYZ, last axis 3, relative to `white`."""
    ratio = np.asarray(xyz, dtype=np.float64) / white
    root = np.where(ratio > _EDGE**3, np.cbrt(ratio), ratio / (3 * _EDGE**2) + 4.0 / 29.0)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=-1)


def to_xyz(lab: NDArray[Any], white: Array = WHITE_D50) -> Array:
    """Return XYZ of L*, a*, b*, last axis 3; the inverse of `from_xyz`."""
    lab = np.asarray(lab, dtype=np.float64)
    y = (lab[..., 0] + 16.0) / 116.0
    root = np.stack([y + lab[..., 1] / 500.0, y, y - lab[..., 2] / 200.0], axis=-1)
    return np.where(root > _EDGE, root**3, 3 * _EDGE**2 * (root - 4.0 / 29.0)) * white


def of_srgb(encoded: NDArray[Any]) -> Array:
    """Return Lab (D50, Bradford) of encoded sRGB 0..1, last axis 3: what an ICC profile of sRGB says."""
    return from_xyz(srgb.to_xyz(encoded) @ TO_D50.T)


def to_srgb(lab: NDArray[Any]) -> Array:
    """Return encoded sRGB (not cut to 0..1) of Lab (D50, Bradford), last axis 3."""
    return srgb.from_xyz(to_xyz(lab) @ FROM_D50.T)
