"""What lies where on a finished page, as values."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path, joined

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]  # left, bottom, right, top


OWN_WORDS = frozenset({"label", "piece number"})  # differ from piece to piece


@dataclass(frozen=True)
class Slip:
    """What is written beside one piece."""

    title: str
    piece: int = 1
    of: int = 1
    name: str = ""


@dataclass(frozen=True, eq=False)
class Label:
    """Words on the page, the right way to read.

    Attributes:
        what: "label", "piece number", "lay first", "lay on top", "rim", "base" or "caption".
        text: the words.
        at_mm: page mm of the start of their base line.
        height_mm: cap height.
        turn_deg: anticlockwise.
        path: their outlines in page mm.
    """

    what: str
    text: str
    at_mm: tuple[float, float]
    height_mm: float
    turn_deg: float
    path: Path


@dataclass(frozen=True, eq=False)
class PlacedPage:
    """One page with one piece, in page mm from the lower left corner, after scale correction.

    Attributes:
        piece: its number, from 1.
        width_mm, height_mm: the page, exactly the paper as turned.
        to_page: 3x3 matrix, flat mm as seen -> page mm; mirrors.
        turn_deg: 0, 90, 180 or 270, anticlockwise after mirroring.
        trim, bleed: outlines on the page.
        trim_box, bleed_box: their boxes.
        bleed_mm: art beyond the trim at rim and base, as it could be kept.
        lines: corner marks, guide arcs, check bars and arrow as filled shapes (nonzero), black.
        labels: the words.
        marks: names of what stands on the page beside the piece, for the report.
        places: (name, box) of every mark on the page, one a mark.
        panel: the number of the wrap's panel, from 1; 0 when the wrap is in one piece.
    """

    piece: int
    width_mm: float
    height_mm: float
    to_page: Array
    turn_deg: int
    trim: Path
    bleed: Path
    trim_box: Box
    bleed_box: Box
    bleed_mm: float
    lines: Path
    labels: tuple[Label, ...]
    marks: tuple[str, ...]
    places: tuple[tuple[str, Box], ...] = ()
    panel: int = 0

    def inked_marks(self) -> Path:
        """Return all marks and words as one filled shape."""
        return joined([self.lines, *(label.path for label in self.labels)])

    def report_row(self) -> dict[str, object]:
        """Return the piece's row of the report's `sheets`, lengths in mm."""
        left, bottom, right, top = self.trim_box
        return {
            "piece": self.piece,
            "x_mm": left,
            "y_mm": bottom,
            "width_mm": right - left,
            "height_mm": top - bottom,
            "turn_deg": self.turn_deg,
            "mirrored": True,
            "marks": list(self.marks),
            "panel": self.panel,
        }


@dataclass(frozen=True, eq=False)
class Arrangement:
    """The pages of a job, one piece on each, or why there are none.

    Attributes:
        pages: in order of the pieces; empty when the wrap does not fit.
        findings: `does-not-fit` and `bleed-cut`.
        notes: a sentence for each thing that had to give way.
        panels: the wrap's panels from left to right as seen; empty when it is in one piece.
    """

    pages: tuple[PlacedPage, ...]
    findings: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()
    panels: tuple[FlatWrap, ...] = ()
