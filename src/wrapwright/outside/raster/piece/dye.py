"""The print on the coating: dye is transparent, so each channel's light is print times coating."""

from __future__ import annotations

import math
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.frame import Frame

Floats = NDArray[np.float32]
_WIDEST = 4096


@dataclass(frozen=True, eq=False)
class FlatArt:
    """The flat wrap as seen: 8-bit pixels (h, w, 3 or 4; sRGB, alpha straight) and where they lie."""

    pixels: NDArray[np.uint8]
    frame: Frame


@dataclass(frozen=True, eq=False)
class Skin:
    """The band unrolled by turn and height, linear light, shape (rows, columns + 2, 3).

    Row 0 is the band's lower edge; column 1 is centred on turn 0 and the first and last columns repeat, so that a
    bilinear look-up closes at the seam.
    """

    light: Floats

    @property
    def columns(self) -> int:
        """How many columns make one turn."""
        return int(self.light.shape[1]) - 2


def linear(codes: Floats) -> Floats:
    """Return linear light of encoded sRGB 0..1 (IEC 61966-2-1)."""
    return np.where(codes <= 0.04045, codes / 12.92, ((np.maximum(codes, 0) + 0.055) / 1.055) ** 2.4).astype(np.float32)


def encoded(light: Floats) -> NDArray[np.uint8]:
    """Return 8-bit sRGB of linear light 0..1 (IEC 61966-2-1)."""
    light = np.clip(light, 0.0, 1.0)
    codes = np.where(light <= 0.0031308, light * 12.92, 1.055 * np.power(light, 1 / 2.4) - 0.055)
    return np.rint(codes * 255.0).astype(np.uint8)


def unrolled(art: FlatArt, wrap: FlatWrap, pixels_per_mm: float) -> Skin:
    """Return the band's print at about `pixels_per_mm`, ready for a look-up by turn and height."""
    light, to_flat = _light_of(art, pixels_per_mm)
    columns = int(np.clip(round(max(wrap.lower_mm, wrap.upper_mm) * pixels_per_mm), 64, _WIDEST))
    rows = int(np.clip(round(wrap.height_mm * pixels_per_mm) + 1, 2, _WIDEST))
    turn = np.asarray((np.arange(columns + 2) - 1.0) * (360.0 / columns), np.float64)
    up = np.linspace(0.0, wrap.height_mm, rows, dtype=np.float64)
    x, y = wrap.to_flat(turn[None, :] % 360.0, up[:, None])
    back = np.linalg.inv(to_flat)
    col = (back[0, 0] * x + back[0, 1] * y + back[0, 2] - 0.5).astype(np.float32)
    row = (back[1, 0] * x + back[1, 1] * y + back[1, 2] - 0.5).astype(np.float32)
    return Skin(np.asarray(cv2.remap(light, col, row, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE), np.float32))


def _light_of(art: FlatArt, pixels_per_mm: float) -> tuple[Floats, NDArray[np.float64]]:
    """Return the art's linear light over white paper, shrunk when much finer than needed, and its lattice."""
    table = linear(np.arange(256, dtype=np.float32) / np.float32(255))
    light: Floats = table[art.pixels[..., :3]]
    if art.pixels.shape[2] == 4:
        alpha = (art.pixels[..., 3:] / np.float32(255)).astype(np.float32)
        light = light * alpha + (1 - alpha)
    to_flat = art.frame.to_flat
    pitch = math.sqrt(abs(float(np.linalg.det(to_flat[:2, :2]))))
    factor = 1.0 / (pitch * pixels_per_mm)
    if factor <= 1.3:
        return light, to_flat
    height, width = light.shape[:2]
    size = (max(1, round(width / factor)), max(1, round(height / factor)))
    stretch = np.diag([width / size[0], height / size[1], 1.0])
    return np.asarray(cv2.resize(light, size, interpolation=cv2.INTER_AREA), np.float32), to_flat @ stretch


def look_up(skin: Skin, wrap: FlatWrap, turn: Floats, up: Floats) -> Floats:
    """Return the print's linear light, shape (n, 3), at turns (any) and heights above the band's lower edge."""
    col = (turn % 360.0) * np.float32(skin.columns / 360.0) + 1.0
    row = up * np.float32((skin.light.shape[0] - 1) / wrap.height_mm)
    # remap wants an image no wider than 32767: fold the list into rows.
    wide = 8192
    tall = -(-len(col) // wide)
    pad = tall * wide - len(col)
    col = np.pad(col, (0, pad)).reshape(tall, wide).astype(np.float32)
    row = np.pad(row, (0, pad)).reshape(tall, wide).astype(np.float32)
    found = cv2.remap(skin.light, col, row, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return np.asarray(found, np.float32).reshape(-1, 3)[: tall * wide - pad]
