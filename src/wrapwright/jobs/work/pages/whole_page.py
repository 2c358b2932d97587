"""A whole page as pixels: the art with its marks and words, in the page's own colours."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path
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
    marks = _black(page.inked_marks(), page, ppi, frame.width_px)
    # A panel ends where the next one begins: what the art goes on with there is left white.
    kept = _black(page.bleed, page, ppi, frame.width_px) if page.panel else None
    made: dict[str, Any] = {**size, "ppi": ppi, "profile": colouring.page_profile.data}

    def painted(first: int, last: int) -> Bytes:
        strip = art.strip(first, last) if kept is None else _outside(art.strip(first, last), kept(first, last))
        return _over(strip, marks(first, last))

    with device_strips(colouring, painted) as strip_of:
        if kind == "png":
            done = packed(strip_of, **size, threads=bench.threads)
            return page_png(done.data, **made), done.pixels_sha256
        file = page_tiff(strip_of, **made)
        return file.data, file.pixels_sha256


def _over(art: Bytes, marks: Bytes) -> Bytes:
    """Return black marks laid over the art: they lie outside the trim, where the art is white or bleed."""
    out: Bytes = np.minimum(art, marks)
    return out


def _outside(art: Bytes, kept: Bytes) -> Bytes:
    """Return the art with white where `kept` is 255."""
    out: Bytes = np.maximum(art, kept)
    return out


def _black(path: Path, page: PlacedPage, ppi: int, width: int) -> StripOf:
    """Return strips of a filled shape on the page: 0 where it is, 255 elsewhere, shape (rows, width, 1)."""
    from wrapwright.outside.raster.edges import coverage, filled

    edges = filled(path, page_pixels((page.width_mm, page.height_mm), ppi))

    def strip(first: int, last: int) -> Bytes:
        share = coverage(edges, (first, last), (0, width))
        codes: Bytes = np.rint(255.0 * (1.0 - share)).astype(np.uint8)
        return codes[..., None]

    return strip
