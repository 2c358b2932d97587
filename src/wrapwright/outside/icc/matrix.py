"""RGB spaces made of one curve and a matrix, computed in floating point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import lab, srgb
from wrapwright.core.colour.tone import Tone, srgb_tone, tone_of
from wrapwright.outside.icc import tags

Array = NDArray[np.float64]

# A space whose colours differ from sRGB's by no more than this, in 8-bit codes, is taken for sRGB.
SAME_CODES = 1.0


@dataclass(frozen=True, eq=False)
class MatrixSpace:
    """An RGB space.

    Attributes:
        tones: the curve of each channel.
        to_xyz: linear RGB -> XYZ of the connection space (D50), column vectors.
    """

    tones: tuple[Tone, Tone, Tone]
    to_xyz: Array

    @property
    def one_curve(self) -> bool:
        """Return whether its three channels share one curve."""
        first = self.tones[0].light
        return all(np.abs(tone.light - first).max() < 1e-5 for tone in self.tones[1:])

    def extent(self) -> float:
        """Return the area of its primaries' triangle in the CIE 1976 u'v' diagram."""
        x, y, z = self.to_xyz
        total = x + 15.0 * y + 3.0 * z
        u, v = 4.0 * x / total, 9.0 * y / total
        return float(abs((u[1] - u[0]) * (v[2] - v[0]) - (u[2] - u[0]) * (v[1] - v[0])) / 2.0)

    def linear(self, pixels: NDArray[np.uint8] | NDArray[np.uint16]) -> NDArray[np.float32]:
        """Return linear light, float32, of 8-bit or 16-bit codes, last axis 3."""
        return np.stack([tone.decode(pixels[..., at]) for at, tone in enumerate(self.tones)], axis=-1)


@lru_cache(maxsize=1)
def srgb_space() -> MatrixSpace:
    """Return sRGB, adapted to D50."""
    tone = srgb_tone()
    return MatrixSpace((tone, tone, tone), lab.TO_D50 @ srgb.TO_XYZ)


@lru_cache(maxsize=8)
def matrix_space(data: bytes) -> MatrixSpace | None:
    """Return the space a profile describes, or None when it is not of three curves and a matrix alone."""
    head, found = tags.header(data), tags.tags(data)
    names = ("rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC")
    if head.space != "RGB " or head.connection != "XYZ " or "A2B0" in found or any(name not in found for name in names):
        return None
    curves = [tags.curve(found[name]) for name in names[3:]]
    matrix = np.stack([tags.xyz(found[name]) for name in names[:3]], axis=1)
    if abs(float(np.linalg.det(matrix))) < 1e-4:
        return None
    tones: dict[bytes, Tone] = {}
    for name, one in zip(names[3:], curves, strict=True):
        if one is None:
            return None
        tones.setdefault(found[name], tone_of(one))
    red, green, blue = (tones[found[name]] for name in names[3:])
    return MatrixSpace((red, green, blue), matrix)


@lru_cache(maxsize=8)
def gray_tone(data: bytes) -> Tone | None:
    """Return the curve of a gray profile, or None when it has none that can be read."""
    if tags.header(data).space != "GRAY":
        return None
    one = tags.curve(tags.tags(data).get("kTRC", b""))
    return None if one is None else tone_of(one)


def alike(one: MatrixSpace, other: MatrixSpace) -> bool:
    """Return whether no colour of a 9-step grid differs by more than SAME_CODES between the two spaces."""
    if one is other:
        return True
    steps = np.linspace(0, 255, 9).astype(np.uint8)
    grid = np.stack(np.meshgrid(steps, steps, steps, indexing="ij"), axis=-1).reshape(-1, 3)
    there = carried(one.linear(grid), one, other) / 257.0
    return bool(np.abs(there - grid).max() <= SAME_CODES)


def carried(linear: NDArray[np.float32], source: MatrixSpace, target: MatrixSpace) -> NDArray[np.uint16]:
    """Return 16-bit codes of `target` of linear light of `source`, last axis 3; colours outside are cut."""
    matrix = np.linalg.inv(target.to_xyz) @ source.to_xyz
    light = linear @ matrix.T.astype(np.float32)
    return np.stack([tone.encode(light[..., at]) for at, tone in enumerate(target.tones)], axis=-1)
