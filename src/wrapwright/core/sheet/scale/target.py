"""The target's geometry: two lines each way, as far apart as the printer reaches, whole millimetres between them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.units import mm_words
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.scale.entries import SHORTEST_MM

LINE_MM = 0.12  # thick enough for every printer's dots, fine enough to set a rule on
ROLL_MM = 300.0  # of a roll: as long as a common steel rule


@dataclass(frozen=True)
class Target:
    """Where the lines lie on the page, in page mm from the lower left corner, nothing corrected.

    Attributes:
        paper: what the page is.
        width_mm, height_mm: of the page.
        left_mm, right_mm: middles of the upright lines; their distance is what is asked across.
        bottom_mm, top_mm: middles of the level lines; their distance is what is asked along.
    """

    paper: str
    width_mm: float
    height_mm: float
    left_mm: float
    right_mm: float
    bottom_mm: float
    top_mm: float

    @property
    def asked_mm(self) -> tuple[float, float]:
        """Nominal distances across (the head's travel) and along (the feed)."""
        return (self.right_mm - self.left_mm, self.top_mm - self.bottom_mm)


def target_on(sheet: SheetRequest) -> Target:
    """Return the target for a paper and its margins.

    The lines lie in the middle of what the printer reaches, the largest whole number of millimetres apart for which
    they are printed whole. Of a roll 300 mm and the margins are used.

    Raises:
        WrapwrightError: unusable; less than 40 mm can be printed one way.
    """
    top, right, bottom, left = sheet.margins_mm
    height = sheet.height_mm if sheet.height_mm is not None else ROLL_MM + LINE_MM + top + bottom
    across = _line_ends(sheet.width_mm, left, right, "across")
    along = _line_ends(height, bottom, top, "along")
    return Target(sheet.paper, sheet.width_mm, height, *across, *along)


def _line_ends(length: float, low: float, high: float, way: str) -> tuple[float, float]:
    room = length - low - high
    apart = math.floor(room - LINE_MM + 1e-9)
    if apart < SHORTEST_MM:
        raise unusable(
            f"only {mm_words(max(room, 0.0))} can be printed {way}; a scale is told from {SHORTEST_MM:g} mm or more.",
            remedy="Take a larger paper, or smaller margins.",
            where="sheet: margins",
        )
    first = low + (room - apart) / 2.0
    return first, first + apart
