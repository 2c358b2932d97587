"""What is drawn on the contact sheet: the shared art as it looks on the piece, and what each row has of its own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb, rgb_of
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.frame import seen_frame
from wrapwright.core.design.layers import split
from wrapwright.core.names.values import Row
from wrapwright.jobs.names.proving.anew import Anew, RowArt
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import printed_look, renderer_of

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Box
    from wrapwright.outside.pdf.listed.seen import Look, SeenPicture, SeenPiece, SeenShared

SEEN_PPI = 110.0  # of the piece at its own size; the page shows it smaller
_QUALITY = 92


@dataclass
class ContactArt:
    """Draws rows as seen; never mirrored.

    Attributes:
        anew: sets what is a row's own.
        last: the row that was set last, and what it has of its own.
    """

    anew: Anew
    last: tuple[int, RowArt] | None = None

    def shared(self) -> SeenShared:
        """Return what all pieces share."""
        from wrapwright.outside.pdf.listed.seen import SeenShared

        base, stand = self.anew, self.anew.stand
        composed = replace(base.composed, draw_list=stand.draw_list)
        return SeenShared(
            trim=trim_outline(base.composed.wrapped.wrap),
            coating=coating_of(base.composed),
            picture=_picture(composed, stand.raster) if stand.raster else None,
            runs=stand.runs,
            look=look_of(base.composed),
        )

    def piece(self, row: Row) -> SeenPiece:
        """Return a row's piece.

        Raises:
            WrapwrightError: what its texts, codes or pictures cannot be made of.
        """
        from wrapwright.outside.pdf.listed.seen import SeenPiece

        own = self._own(row)
        if own.composed is None:
            return SeenPiece(own.runs)
        raster, vector = split(own.composed.draw_list)
        items = own.composed.draw_list.items
        outlines = tuple(item for item in (items[index] for index in vector) if isinstance(item, PlacedOutline))
        return SeenPiece((outlines,), _picture(own.composed, raster))

    def _own(self, row: Row) -> RowArt:
        if self.last is None or self.last[0] != row.number:
            self.last = (row.number, self.anew.art(row))
        return self.last[1]

    def close_up(self, row: Row) -> Box | None:
        """Return the box in flat mm round what a row writes first, None where it writes nothing."""
        own = self._own(row)
        items = [item for run in own.runs for item in run]
        first = min((item.element, item.copy) for item in items) if items else None
        boxes = [item.path.box() for item in items if (item.element, item.copy) == first]
        if not boxes:
            return None
        low, high = np.array(boxes)[:, :2].min(axis=0), np.array(boxes)[:, 2:].max(axis=0)
        return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))


def coating_of(composed: Composition) -> Rgb:
    """Return the bare surface, sRGB."""
    return rgb_of(composed.opened.job.blank.coating)


def look_of(composed: Composition) -> Look:
    """Return the function from a working colour to how it looks on the piece."""
    working = composed.colouring.working

    @lru_cache(maxsize=4096)
    def look(colour: Rgb) -> Rgb:
        codes = np.rint(np.clip(working.colours(np.array([colour])), 0.0, 1.0) * 255.0).astype(np.uint8)
        red, green, blue = (float(code) / 255.0 for code in _seen(composed, codes[None])[0, 0])
        return (red, green, blue)

    return look


def _seen(composed: Composition, codes: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return sRGB codes (h, w, 3) of working ones as they look printed, the coating showing through."""
    from wrapwright.core.colour.coating import on_coating

    # Each channel of the result hangs on the same channel of the print alone: 256 values say it all.
    ramp = np.repeat(np.arange(256)[:, None], 3, axis=1) / 255.0
    table = np.rint(on_coating(ramp, coating_of(composed)) * 255.0).astype(np.uint8)
    printed = printed_look(composed.colouring, codes)
    return np.stack([table[:, band][printed[..., band]] for band in range(3)], axis=-1)


def _picture(composed: Composition, items: tuple[int, ...]) -> SeenPicture:
    from wrapwright.outside.pages.picture import picture_jpeg
    from wrapwright.outside.pdf.listed.seen import SeenPicture

    box = trim_outline(composed.wrapped.wrap).box()
    frame = seen_frame(box, SEEN_PPI)
    colours = _seen(composed, renderer_of(composed, frame, items=items).whole())
    pitch = 25.4 / SEEN_PPI
    whole = (box[0], box[3] - frame.height_px * pitch, box[0] + frame.width_px * pitch, box[3])
    return SeenPicture(picture_jpeg(colours, _QUALITY), frame.width_px, frame.height_px, whole)
