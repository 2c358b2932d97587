"""Where a piece of the manifest lies: its matrix onto the page, where its code stands; and what pages are made on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.borders import bleed_outline, trim_outline
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.printed.labels import MODULE_MM
from wrapwright.core.sheet.lay.printed.pages import label_box
from wrapwright.core.sheet.lay.printed.values import Good
from wrapwright.core.sheet.lay.values import Laid
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.placed import Box
from wrapwright.core.sheet.room import exact_box
from wrapwright.jobs.names.proving.manifest import Entry

if TYPE_CHECKING:
    from wrapwright.outside.pdf.listed.drawn import ReadCode, ReadPage

Array = NDArray[np.float64]
_WITHIN_MM = 0.002  # of a box's size as the manifest says it
_PAGE_MM = 0.01  # of a page's size
_INK = 2e-6  # of a colour's value: six decimals are written
_MODULE_MM = 0.01  # of a module's side


@dataclass
class Lying:
    """Knows where pieces lie.

    Attributes:
        good: what is laid.
        scale: the printer's, across and along.
    """

    good: Good
    scale: tuple[float, float]
    boxes: dict[int, Box] = field(default_factory=dict)
    bleed: Path = field(init=False)

    def __post_init__(self) -> None:
        """Work out the outline of a piece with its bleed, flat mm."""
        self.bleed = bleed_outline(self.good.wrap, self.good.bleed_mm)

    def to_page(self, entry: Entry) -> Array:
        """Return the 3x3 matrix, flat mm as seen -> page mm; it mirrors."""
        trim, laid = self._trim(entry.turn_deg), self._laid(entry)
        return mirrored(entry.turn_deg, self.scale, (laid.x_mm - trim[0], laid.y_mm - trim[1]))

    def reach(self, to_page: Array) -> Box:
        """Return the box on the page round a piece with its bleed."""
        return exact_box(self.bleed.times(to_page))

    def is_its_size(self, entry: Entry) -> bool:
        """Return whether the box that the manifest says is the trim's."""
        trim = self._trim(entry.turn_deg)
        wide, high = (trim[2] - trim[0]) / self.scale[0], (trim[3] - trim[1]) / self.scale[1]
        return abs(entry.box[2] - wide) < _WITHIN_MM and abs(entry.box[3] - high) < _WITHIN_MM

    def label(self, entry: Entry) -> Box | None:
        """Return where the code of a piece stands on its page, None where it has none."""
        if self.good.level not in ("label", "code"):
            return None
        box = label_box(self._laid(entry), self.good)
        if box is None:
            return None
        across, along = self.scale
        return (box[0] / across, box[1] / along, box[2] / across, box[3] / along)

    def _laid(self, entry: Entry) -> Laid:
        return Laid(0, 0, entry.box[0] * self.scale[0], entry.box[1] * self.scale[1], entry.turn_deg)

    def _trim(self, turn_deg: int) -> Box:
        if turn_deg not in self.boxes:
            self.boxes[turn_deg] = exact_box(trim_outline(self.good.wrap).times(mirrored(turn_deg)))
        return self.boxes[turn_deg]


@dataclass(frozen=True)
class MadeOn:
    """What every page is made on.

    Attributes:
        width_mm, height_mm: its size; the height None on a roll.
        profile_sha256: of its colours.
        black: as codes are printed, in the sheets' colours.
        scale: the printer's, the mean of both ways.
    """

    width_mm: float
    height_mm: float | None
    profile_sha256: str
    black: tuple[float, ...]
    scale: float

    def prints(self, code: ReadCode) -> bool:
        """Return whether a code is black, its modules as large as they should be."""
        black = len(code.ink) == len(self.black) and max(map(abs, map(float.__sub__, code.ink, self.black))) < _INK
        return black and abs(code.module_mm * self.scale - MODULE_MM) < _MODULE_MM

    def faults(self, page: ReadPage, profile_sha256: str) -> Iterator[str]:
        """Yield sentences' ends on what is otherwise on a page."""
        wide, high = self.width_mm, self.height_mm or page.height_mm
        if max(abs(page.width_mm - wide), abs(page.height_mm - high)) > _PAGE_MM:
            yield f"is {page.width_mm:.1f} × {page.height_mm:.1f} mm, and the paper {wide:.1f} × {high:.1f} mm."
        if profile_sha256 != self.profile_sha256:
            yield "has another colour profile than its job."
        if page.strange:
            yield f"has what no sheet of ours has: {', '.join(page.strange[:5])}."
