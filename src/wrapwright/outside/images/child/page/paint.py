"""A page drawn as pixels on nothing."""

from __future__ import annotations

import ctypes
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.core.base.errors import unusable

CLEAR, BLACK, WHITE = 0x00000000, 0xFF000000, 0xFFFFFFFF
_TRIAL = 600  # px: where the two ways are held against each other
_ALLOWED = 6  # codes; rounding alone gives one or two


def painted(page: Any, longest_px: int, ground: int = CLEAR) -> tuple[Any, int, int]:
    """Return (samples, width, height): RGBA of 8 bits, alpha unassociated, the longer side `longest_px`.

    Annotations and form fields are not drawn. `ground` is what the page is drawn on, 0xAARRGGBB.
    """
    across, along = pdfium.FPDF_GetPageWidthF(page), pdfium.FPDF_GetPageHeightF(page)
    scale = longest_px / max(across, along)
    width, height = max(1, round(across * scale)), max(1, round(along * scale))
    samples = (ctypes.c_ubyte * (width * height * 4))()
    bitmap = pdfium.FPDFBitmap_CreateEx(width, height, pdfium.FPDFBitmap_BGRA, samples, width * 4)
    if not bitmap:
        raise unusable(f"The page cannot be drawn at {width} x {height} pixels.")
    pdfium.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, ground)
    pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, pdfium.FPDF_REVERSE_BYTE_ORDER)
    pdfium.FPDFBitmap_Destroy(bitmap)
    return samples, width, height


def painted_clear(page: Any, longest_px: int) -> tuple[Any, int, int]:
    """Return the page on nothing as `painted` does, its translucent parts right.

    The library lays translucent upright rectangles over other translucent parts wrongly when it draws on nothing.
    Where that shows, opacity and colour are worked out from the page drawn on white and on black instead.
    """
    small = min(longest_px, _TRIAL)
    clear, on_white = (painted(page, small, ground) for ground in (CLEAR, WHITE))
    flat = _image(clear).flatten(background=[255, 255, 255])
    if (flat - _image(on_white).extract_band(0, n=3)).abs().max() <= _ALLOWED:
        return painted(page, longest_px)
    white, black = (painted(page, longest_px, ground) for ground in (WHITE, BLACK))
    _, width, height = white
    dark = _image(black).extract_band(0, n=3)
    # On white less on black is what shows through; colour is what is left on black, shared by the opacity.
    through = (_image(white).extract_band(0, n=3) - dark).bandmean()
    alpha = (255 - through).rint()
    colour = dark * 255.0 / (alpha == 0).ifthenelse(1, alpha)
    samples = colour.rint().bandjoin(alpha).cast("uchar").write_to_memory()
    return samples, width, height


def _image(drawn: tuple[Any, int, int]) -> Any:
    """Return samples as a picture to reckon with."""
    import pyvips

    samples, width, height = drawn
    return pyvips.Image.new_from_memory(samples, width, height, 4, "uchar").copy(interpretation="srgb")
