"""Pages as pixels for a screen: painted in bands that are kept, so that tile after tile comes quickly."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.mirror import page_frame, page_pixels, seen_through
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.painting import printed_look, renderer_of

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import PlacedPage
    from wrapwright.jobs.live.values import Box
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.raster.edges import Edges
    from wrapwright.outside.raster.renderer import Renderer

Bytes = NDArray[np.uint8]

BAND = 256  # rows painted together
MOST_PX = 12_000_000  # pixels of one answer


@dataclass(frozen=True, eq=False)
class PagePart:
    """A part of a page at a scale.

    Attributes:
        page: the page.
        ppi: pixels per inch.
        through: looked at through the paper, without marks.
        box: left, top, width, height in mm from the upper left corner, None for all of it.
    """

    page: PlacedPage
    ppi: float
    through: bool
    box: Box | None


@dataclass(frozen=True, eq=False)
class _Painter:
    art: Renderer
    marks: Edges | None


def page_pixels_of(composed: Composition, part: PagePart, bench: Bench) -> Bytes:
    """Return sRGB, uint8 (rows, columns, 3), of the part, widened to whole pixels of the page.

    The pixels are those of the page drawn whole: the part is cut out of it.

    Raises:
        WrapwrightError: unusable; a box beside the page, or more pixels than one answer may have.
    """
    painter = _painter(composed, part, bench)
    left, top, right, bottom = _columns_rows(part, painter.art.width, painter.art.height)
    bands = [
        _band(composed, part, painter, band, bench)[max(0, top - band * BAND) : bottom - band * BAND, left:right]
        for band in range(top // BAND, (bottom - 1) // BAND + 1)
    ]
    return np.concatenate(bands)


def _columns_rows(part: PagePart, width: int, height: int) -> tuple[int, int, int, int]:
    pitch = 25.4 / part.ppi
    left, top, right, bottom = 0, 0, width, height
    if part.box is not None:
        x, y, wide, high = part.box
        left, top = max(0, math.floor(x / pitch + 1e-6)), max(0, math.floor(y / pitch + 1e-6))
        right, bottom = (
            min(width, math.ceil((x + wide) / pitch - 1e-6)),
            min(height, math.ceil((y + high) / pitch - 1e-6)),
        )
    if left >= right or top >= bottom:
        raise unusable("the part that is asked for lies beside the page.", remedy="Ask for a part of it.", where="box")
    if (right - left) * (bottom - top) > MOST_PX:
        message = f"the part has {(right - left) * (bottom - top)} pixels; the limit is {MOST_PX}."
        raise unusable(message, remedy="Ask for fewer pixels per inch, or for tiles.", where="box")
    return left, top, right, bottom


def _painter(composed: Composition, part: PagePart, bench: Bench) -> _Painter:
    """Return what paints the page at this scale, kept for the next tile."""
    key = (composed, part.page.piece, part.ppi, part.through)
    found: _Painter = bench.recent.painters.get(key, lambda: _prepared(composed, part))
    return found


def _prepared(composed: Composition, part: PagePart) -> _Painter:
    from wrapwright.outside.raster.edges import filled

    page, size = part.page, (part.page.width_mm, part.page.height_mm)
    to_page = seen_through(page.to_page, page.width_mm) if part.through else page.to_page
    art = renderer_of(composed, page_frame(to_page, size, part.ppi), bleed_mm=page.bleed_mm)
    marks = None if part.through else filled(page.inked_marks(), page_pixels(size, part.ppi))
    return _Painter(art, marks)


def _band(composed: Composition, part: PagePart, painter: _Painter, band: int, bench: Bench) -> Bytes:
    key = (composed, part.page.piece, part.ppi, part.through, band)
    found: Bytes = bench.recent.bands.get(key, lambda: _painted(composed, painter, band), lambda made: made.nbytes)
    return found


def _painted(composed: Composition, painter: _Painter, band: int) -> Bytes:
    from wrapwright.outside.raster.edges import coverage

    top, bottom = band * BAND, min(painter.art.height, (band + 1) * BAND)
    art = printed_look(composed.colouring, painter.art.strip(top, bottom))
    if painter.marks is None:
        return art
    share = coverage(painter.marks, (top, bottom), (0, painter.art.width))
    out: Bytes = np.minimum(art, np.rint(255.0 * (1.0 - share)).astype(np.uint8)[..., None])
    return out
