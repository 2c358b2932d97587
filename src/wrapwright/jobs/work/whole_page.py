"""A whole page as pixels: the art with its marks and words, in the page's own colours."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.mirror import page_frame, page_pixels
from wrapwright.core.sheet.placed import PlacedPage
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import StripOf, device_strips, renderer_of

Bytes = NDArray[np.uint8]


def whole_page(composed: Composition, page: PlacedPage, kind: str, bench: Bench) -> tuple[bytes, str]:
    """Return the file of one page, "png" or "tiff", and the SHA-256 of its pixels."""
    from wrapwright.outside.pages.png import page_png
    from wrapwright.outside.pages.tiff import page_tiff
    from wrapwright.outside.pdf.flate import packed

    ppi, colouring = composed.opened.job.sheet.ppi, composed.colouring
    size: dict[str, Any] = {"channels": colouring.channels}
    frame = page_frame(page.to_page, (page.width_mm, page.height_mm), ppi)
    size |= {"width": frame.width_px, "height": frame.height_px}
    art = renderer_of(composed, frame, bleed_mm=page.bleed_mm)
    marks = _marks(page, ppi, frame.width_px)
    made: dict[str, Any] = {**size, "ppi": ppi, "profile": colouring.page_profile.data}
    with device_strips(colouring, lambda first, last: _over(art.strip(first, last), marks(first, last))) as strip_of:
        if kind == "png":
            done = packed(strip_of, **size, threads=bench.threads)
            return page_png(done.data, **made), done.pixels_sha256
        file = page_tiff(strip_of, **made)
        return file.data, file.pixels_sha256


def _over(art: Bytes, marks: Bytes) -> Bytes:
    """Return black marks laid over the art: they lie outside the trim, where the art is white or bleed."""
    out: Bytes = np.minimum(art, marks)
    return out


def _marks(page: PlacedPage, ppi: int, width: int) -> StripOf:
    """Return strips of the page's marks and words: 0 where they are, 255 elsewhere, shape (rows, width, 1)."""
    from wrapwright.outside.raster.edges import coverage, filled

    edges = filled(page.inked_marks(), page_pixels((page.width_mm, page.height_mm), ppi))

    def strip(first: int, last: int) -> Bytes:
        share = coverage(edges, (first, last), (0, width))
        codes: Bytes = np.rint(255.0 * (1.0 - share)).astype(np.uint8)
        return codes[..., None]

    return strip
