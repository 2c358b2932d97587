"""Packs a picture for a document as PNG."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def picture_png(pixels: NDArray[Any]) -> bytes:
    """Return a PNG of sRGB pixels, shape (h, w, 3) or, with straight alpha, (h, w, 4); uint8, or floats 0..1."""
    import cv2

    codes = pixels if pixels.dtype == np.uint8 else np.rint(np.clip(pixels, 0.0, 1.0) * 255.0).astype(np.uint8)
    order = cv2.COLOR_RGBA2BGRA if codes.shape[-1] == 4 else cv2.COLOR_RGB2BGR
    done, packed = cv2.imencode(".png", cv2.cvtColor(codes, order), [cv2.IMWRITE_PNG_COMPRESSION, 1])
    if not done:
        raise RuntimeError("the PNG writer refused an ordinary picture")
    return bytes(packed)
