"""Pixels with alpha from the renderer's own pictures, and flat pictures as other frames show them."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.jobs.live.views.frames import Canvas

Bytes = NDArray[np.uint8]


def with_alpha(on_white: Bytes, on_black: Bytes, seen: Bytes | None = None) -> Bytes:
    """Return sRGB with straight alpha, uint8 (h, w, 4), of one picture drawn over white and over black (h, w, 3).

    A screen blends encoded codes, the renderer linear light. So alpha and colour are chosen for what a screen does:
    over white it shows the renderer's picture within a code; over black too where the three channels need one alpha.
    `seen` is what the picture over white is to look like when that is another one (a printer's colours).
    """
    white = on_white.astype(np.float32) / np.float32(255)
    black = on_black.astype(np.float32) / np.float32(255)
    shown = white if seen is None else seen.astype(np.float32) / np.float32(255)
    share = 1.0 - (white - black).mean(axis=-1)
    # Less alpha than this and white would shine through more than the picture over white shows.
    share = np.maximum(share, 1.0 - shown.min(axis=-1))
    alpha = np.ceil(np.clip(share, 0.0, 1.0) * 255.0 - 1e-3)
    part = (alpha / 255.0)[..., None].astype(np.float32)
    colour = np.divide(shown - (1.0 - part), part, out=np.zeros_like(shown), where=part > 0.0)
    out = np.empty((*alpha.shape, 4), dtype=np.uint8)
    out[..., :3] = np.rint(np.clip(colour, 0.0, 1.0) * 255.0)
    out[..., 3] = alpha
    return out


def over_white(pixels: Bytes) -> Bytes:
    """Return what a screen shows of pixels with straight alpha, (h, w, 4), over white."""
    part = pixels[..., 3:].astype(np.float32) / np.float32(255)
    return np.asarray(np.rint(pixels[..., :3] * part + 255.0 * (1.0 - part)), dtype=np.uint8)


def looked_up(pixels: Bytes, u: NDArray[Any], v: NDArray[Any]) -> Bytes:
    """Return pixels with straight alpha at places u, v (the first pixel's centre is 0.5, 0.5); nothing lies outside."""
    import cv2

    part = pixels[..., 3:].astype(np.float32)
    heavy = np.concatenate([pixels[..., :3].astype(np.float32) * part / np.float32(255), part], axis=-1)
    places = (u.astype(np.float32) - np.float32(0.5), v.astype(np.float32) - np.float32(0.5))
    found = np.asarray(cv2.remap(heavy, *places, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT))
    share = found[..., 3:]
    colour = np.divide(found[..., :3] * np.float32(255), share, out=np.zeros_like(found[..., :3]), where=share > 0.0)
    return np.asarray(np.rint(np.clip(np.concatenate([colour, share], axis=-1), 0.0, 255.0)), dtype=np.uint8)


def flat_places(canvas: Canvas, corner: tuple[float, float], pitch: float, size: tuple[int, int]) -> tuple[Any, Any]:
    """Return the flat x, y (h, w) under the centres of a raster in a canvas frame.

    `corner` is its upper left corner (y up), `pitch` mm a pixel, `size` columns and rows.
    """
    wide, high = size
    x = corner[0] + (np.arange(wide) + 0.5) * pitch
    y = corner[1] - (np.arange(high) + 0.5) * pitch
    return canvas.to_flat(*np.meshgrid(x, y))
