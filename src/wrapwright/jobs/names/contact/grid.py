"""The grid of a contact sheet's page: how large the pieces are, how many a page holds, where each stands."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Box
    from wrapwright.outside.pdf.listed.seen import Drawn

_GAP = 5.0  # between columns, mm
_BETWEEN = 3.2  # between rows of cells
_PT = 0.3528
_CLOSE_GAP = 2.4  # between a piece and its close-up


@dataclass(frozen=True)
class Cells:
    """The cells of a page, all alike.

    Attributes:
        trim: box of the finished piece in flat mm.
        paper: the page, mm.
        columns, lines: of cells.
        wide, high: of a piece as drawn, mm.
        close_mm: height of the close-up below it with its gap, 0 for none.
        pitch: from one line of cells to the next.
        margin, head: of the page.
    """

    trim: Box
    paper: tuple[float, float]
    columns: int
    lines: int
    wide: float
    high: float
    close_mm: float
    pitch: float
    margin: float
    head: float

    @property
    def a_page(self) -> int:
        """How many pieces a page holds."""
        return self.columns * self.lines

    @property
    def scale(self) -> float:
        """Page mm for one flat mm."""
        return self.wide / (self.trim[2] - self.trim[0])

    def corner(self, place: int) -> tuple[float, float]:
        """Return the upper left corner of a cell, mm from the upper left of the page's content."""
        line, column = divmod(place, self.columns)
        return column * (self.wide + _GAP), self.head + line * self.pitch

    def whole(self, page: int, piece: int, place: int) -> Drawn:
        """Return a whole piece in its cell."""
        from wrapwright.outside.pdf.listed.seen import Drawn

        left, top = self._on_page(place)
        at = (left - self.scale * self.trim[0], top - self.high - self.scale * self.trim[1])
        return Drawn(page, piece, self.scale, at)

    def close(self, page: int, piece: int, place: int, box: Box) -> Drawn:
        """Return the part of a piece round a box (flat mm) below it: at true size, or as large as the cell holds."""
        from wrapwright.outside.pdf.listed.seen import Drawn

        left, top = self._on_page(place)
        high = self.close_mm - _CLOSE_GAP
        top -= self.high + _CLOSE_GAP
        scale = min(1.0, self.wide / (box[2] - box[0] + 2.0), high / (box[3] - box[1] + 0.5))
        middle = (left + self.wide / 2.0, top - high / 2.0)
        at = (middle[0] - scale * (box[0] + box[2]) / 2.0, middle[1] - scale * (box[1] + box[3]) / 2.0)
        return Drawn(page, piece, scale, at, (left, top - high, left + self.wide, top))

    def _on_page(self, place: int) -> tuple[float, float]:
        left, top = self.corner(place)
        return self.margin + left, self.paper[1] - self.margin - top


def cells_of(
    trim: Box, paper: tuple[float, float], room_mm2: float, *, size_pt: float, noted: bool, close: float
) -> Cells:
    """Return the cells of a page.

    Args:
        trim: box of the finished piece, flat mm.
        paper: the page, mm.
        room_mm2: about how large a piece is drawn; never larger than it is.
        size_pt: of the names below.
        noted: whether some captions have a line on what to look at.
        close: height of the close-ups, mm; 0 for none.
    """
    from wrapwright.outside.documents.names.contact import FOOT_MM, HEAD_MM, MARGIN_MM

    flat = (trim[2] - trim[0], trim[3] - trim[1])
    across = paper[0] - 2 * MARGIN_MM
    wanted = min(math.sqrt(room_mm2 * flat[0] / flat[1]), flat[0])
    columns = max(1, min(9, round((across + _GAP) / (wanted + _GAP))))
    wide = min((across - _GAP * (columns - 1)) / columns, flat[0])
    down = paper[1] - 2 * MARGIN_MM - FOOT_MM - HEAD_MM
    words = _PT * (1.3 * size_pt + 1.3 * max(5.6, size_pt - 1.4) * (2 if noted else 1))
    closed = close + _CLOSE_GAP if close else 0.0
    wide = min(wide, (down - words - closed) * flat[0] / flat[1])
    high = wide * flat[1] / flat[0]
    pitch = high + closed + 0.9 + words + _BETWEEN
    lines = max(1, int((down + _BETWEEN) / pitch))
    pitch = min((down + _BETWEEN) / lines, 1.2 * pitch)  # what is left stands between the lines
    return Cells(trim, paper, columns, lines, wide, high, closed, pitch, MARGIN_MM, HEAD_MM)
