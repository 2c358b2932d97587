"""The number beside a piece read back from the glyphs that follow its code."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from wrapwright.core.names.matching import Outline, difference, moved, outline_of
from wrapwright.core.sheet.lay.printed.labels import NUMBER_MM, Lettering

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Box
    from wrapwright.outside.pdf.listed.drawn import CalledForm, ReadCode
    from wrapwright.outside.pdf.listed.reading import SheetsRead

_DIGITS = "0123456789"


@dataclass
class Numbers:
    """Reads the numbers of labels; each glyph is looked at once a file.

    Attributes:
        pen: sets the words of labels.
        grid_mm: of the steps that their glyphs are written in.
    """

    pen: Lettering
    grid_mm: float
    wanted: dict[str, Outline] = field(init=False)
    known: dict[tuple[str, tuple[int, int]], str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Set the ten digits."""
        self.wanted = {digit: outline_of(self.pen.path(digit, NUMBER_MM)) for digit in _DIGITS}

    def said(self, sheets: SheetsRead, page: int, code: ReadCode, box: Box) -> str:
        """Return the digits that follow a code of a page (from 0) within a label's box, "" for none."""
        found = ""
        for form in code.forms:
            x, y = form.matrix[4:]
            digit = self._digit(sheets, page, form) if box[0] <= x <= box[2] and box[1] <= y <= box[3] else ""
            if not digit:
                break
            found += digit
        return found

    def _digit(self, sheets: SheetsRead, page: int, form: CalledForm) -> str:
        key = (sheets.name, form.number)
        if key not in self.known:
            shapes = sheets.form(page, form.name).drawn.shapes
            flat = [moved(one.outline(), np.diag([self.grid_mm, self.grid_mm, 1.0])) for one in shapes]
            self.known[key] = next(
                (
                    digit
                    for digit, outline in self.wanted.items()
                    if len(flat) == 1 and difference(flat[0], outline) is None
                ),
                "",
            )
        return self.known[key]
