"""A page drawn as pixels on nothing."""

from __future__ import annotations

import ctypes
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.core.base.errors import unusable


def painted(page: Any, longest_px: int) -> tuple[Any, int, int]:
    """Return (samples, width, height): RGBA of 8 bits, alpha unassociated, the longer side `longest_px`.

    Annotations and form fields are not drawn.
    """
    across, along = pdfium.FPDF_GetPageWidthF(page), pdfium.FPDF_GetPageHeightF(page)
    scale = longest_px / max(across, along)
    width, height = max(1, round(across * scale)), max(1, round(along * scale))
    samples = (ctypes.c_ubyte * (width * height * 4))()
    bitmap = pdfium.FPDFBitmap_CreateEx(width, height, pdfium.FPDFBitmap_BGRA, samples, width * 4)
    if not bitmap:
        raise unusable(f"The page cannot be drawn at {width} x {height} pixels.")
    pdfium.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, 0)
    pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, pdfium.FPDF_REVERSE_BYTE_ORDER)
    pdfium.FPDFBitmap_Destroy(bitmap)
    return samples, width, height
