"""How the light falls: a window to the upper left, a softer one to the right, and a thin rim."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]

# Directions to the lights in the eye's frame (X right, Y away, Z up). Chosen by eye.
_KEY = np.array([-0.52, -0.72, 0.46]) / np.linalg.norm([-0.52, -0.72, 0.46])
_FILL = np.array([0.80, -0.55, 0.15]) / np.linalg.norm([0.80, -0.55, 0.15])
_AMBIENT, _KEY_SHARE, _FILL_SHARE, _RIM = 0.34, 0.61, 0.13, 0.16
_GLOSS, _GLOSS_POWER = 0.055, 42.0


def shading(normal: Floats, elevation: float) -> tuple[Floats, Floats]:
    """Return the factor on the surface's own light and the gloss added to it, both shape (n,), for unit normals (n, 3).

    The side that faces us comes out near 1, so that a colour there is the colour it has.
    """
    nx, ny, nz = normal[:, 0], normal[:, 1], normal[:, 2]
    key = _towards(normal, _KEY)
    fill = _towards(normal, _FILL)
    eye = np.clip(-ny * math.cos(elevation) + nz * math.sin(elevation), 0.0, 1.0)
    wrapped = np.clip((key + 0.25) / 1.25, 0.0, 1.0)
    factor = _AMBIENT + 0.05 * nz + _KEY_SHARE * wrapped + _FILL_SHARE * np.clip(fill, 0, 1)
    # Less light reaches what turns away, a thin rim catches the room behind.
    edge = 1.0 - eye
    factor = factor * (1.0 - 0.34 * edge**2.2) + _RIM * edge**6 * np.clip(np.abs(nx), 0, 1)
    half = _KEY + np.array([0.0, -math.cos(elevation), math.sin(elevation)])
    gloss = _GLOSS * np.clip(_towards(normal, half / np.linalg.norm(half)), 0, 1) ** _GLOSS_POWER
    return np.clip(factor, 0.0, 1.08).astype(np.float32), gloss.astype(np.float32)


def _towards(normal: Floats, direction: NDArray[np.float64]) -> Floats:
    """Return the cosine between normals and one direction."""
    way = direction.astype(np.float32)
    cosine: Floats = normal @ way
    return cosine
