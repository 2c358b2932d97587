"""The tone curve of a working space as tables: encoded codes to linear light and back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import srgb

STEPS = 65536


@dataclass(frozen=True, eq=False)
class Tone:
    """A tone curve both ways.

    Attributes:
        light: float32 (65536,): linear light 0..1 of each 16-bit encoded code.
        code: uint16 (65537,): encoded 16-bit code of linear light v at index round(65536 sqrt(v)); the root
            spreads the shadows so that no code is lost there.
    """

    light: NDArray[np.float32]
    code: NDArray[np.uint16]

    def decode(self, codes: NDArray[Any]) -> NDArray[np.float32]:
        """Return linear light of 8-bit or 16-bit codes, any shape."""
        if codes.dtype == np.uint8:
            return np.asarray(self.light[:: STEPS // 255][codes])
        return np.asarray(self.light[codes])

    def encode(self, linear: NDArray[Any]) -> NDArray[np.uint16]:
        """Return 16-bit codes of linear light, any shape, cut to 0..1; within one 16-bit code of the curve."""
        root = np.sqrt(np.clip(linear, 0.0, 1.0).astype(np.float32, copy=False))
        return np.asarray(self.code[(root * np.float32(STEPS) + np.float32(0.5)).astype(np.uint32)])


def tone_of(curve: Callable[[NDArray[np.float64]], NDArray[np.float64]]) -> Tone:
    """Return the tables of a rising curve from encoded 0..1 to linear 0..1."""
    codes = np.arange(STEPS) / (STEPS - 1)
    light = np.maximum.accumulate(np.clip(curve(codes), 0.0, 1.0))
    at = (np.arange(STEPS + 1) / STEPS) ** 2
    return Tone(light.astype(np.float32), np.rint(np.interp(at, light, codes) * (STEPS - 1)).astype(np.uint16))


@cache
def srgb_tone() -> Tone:
    """Return the tables of sRGB's curve."""
    return tone_of(srgb.decode)
