"""What is asked of the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal


@dataclass(frozen=True)
class SheetRequest:
    """The paper and the printer's figures.

    Attributes:
        paper: its name as written ("Letter", "A4", "330.2 x 482.6 mm", "roll 610 mm").
        width_mm, height_mm: portrait size; for a roll height_mm is None.
        margins_mm: top, right, bottom, left of the portrait page that the printer cannot reach.
        ppi: pixels per inch of the raster part, 100..1440.
        thickness_mm: paper thickness t.
        grain: "long", "short" or "unknown".
        scale_across, scale_along: measured / asked length, across = the head's travel (the paper's short side as fed
            portrait: its x axis), along = the feed.
        calibrated: whether the scale was given (else the rule never-calibrated speaks).
        scale_error: what the two scales may be out by, as shares; None: not known.
        scale_day: when they were measured, or None.
        setup: name of the set-up that these figures are of, or "".
    """

    paper: str = "Letter"
    width_mm: float = 215.9
    height_mm: float | None = 279.4
    margins_mm: tuple[float, float, float, float] = (4.0, 4.0, 4.0, 4.0)
    ppi: int = 300
    thickness_mm: float = 0.12
    grain: Literal["long", "short", "unknown"] = "unknown"
    scale_across: float = 1.0
    scale_along: float = 1.0
    calibrated: bool = False
    scale_error: tuple[float, float] | None = None
    scale_day: date | None = None
    setup: str = ""
