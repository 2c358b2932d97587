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


def picture_jpeg(pixels: NDArray[np.uint8], quality: int) -> bytes:
    """Return a JPEG of sRGB pixels, uint8 of shape (h, w, 3), colour as fine as lightness; `quality` 1 to 100."""
    import cv2

    how = [
        *(cv2.IMWRITE_JPEG_QUALITY, quality),
        *(cv2.IMWRITE_JPEG_SAMPLING_FACTOR, cv2.IMWRITE_JPEG_SAMPLING_FACTOR_444),
    ]
    done, packed = cv2.imencode(".jpg", cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR), how)
    if not done:
        raise RuntimeError("the JPEG writer refused an ordinary picture")
    return bytes(packed)
