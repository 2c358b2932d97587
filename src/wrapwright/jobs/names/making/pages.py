"""The pages of a list: one template for all sheets, each piece's own label put in its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from wrapwright.core.names.making.places import Places
from wrapwright.core.sheet.lay.printed.labels import (
    BETWEEN_MM,
    LINE_MM,
    MODULE_MM,
    NUMBER_MM,
    SMALL_NUMBER_MM,
    Lettering,
    stamps_of,
)
from wrapwright.core.sheet.lay.printed.lines import Extras, with_lines
from wrapwright.core.sheet.lay.printed.pages import Pager, label_box
from wrapwright.core.sheet.lay.printed.values import Array, Bars, Good, LaidPage, Slip, Stamp
from wrapwright.core.sheet.lay.values import Box, LaidSheet, Layout, LayRequest
from wrapwright.core.sheet.request import SheetRequest

if TYPE_CHECKING:
    from wrapwright.jobs.names.making.labels import Naming
    from wrapwright.outside.pdf.listed.values import SetLine

_NUMBER = "sheet number"


def code_of(mark: str, piece: int) -> str:
    """Return what the code beside a piece says."""
    return f"{mark}-{piece}"


@dataclass
class Pages:
    """Makes the pages of a run.

    Attributes:
        good: what is laid.
        sheet: the printer's figures.
        places: which piece lies where.
        total: how many pieces the whole list makes.
        pattern: a full sheet.
        mark: letters of the codes.
        pen: sets words.
    """

    good: Good
    sheet: SheetRequest
    places: Places
    total: int
    pattern: LaidSheet
    mark: str
    pen: Lettering
    templates: dict[int, LaidPage] = field(default_factory=dict)
    labels: dict[tuple[int, int], tuple[Stamp, ...]] = field(default_factory=dict)
    rooms: dict[tuple[int, int], float] = field(default_factory=dict)
    lines: dict[tuple[int, int], Array] = field(default_factory=dict)

    def page(self, number: int, named: Sequence[tuple[int, str] | None]) -> LaidPage:
        """Return a sheet's page (from 0).

        Args:
            number: the sheet.
            named: by place, the piece's number and what its label calls it; None where the place stays empty.
        """
        template = self._template(len(named))
        laid = [
            replace(piece, slip=self._slip(one[0]), stamps=self._stamps(place, one[0]))
            for place, (piece, one) in enumerate(zip(template.pieces, named, strict=True))
            if one is not None
        ]
        return replace(template, pieces=tuple(laid), stamps=self._numbered(template, number + 1))

    def names(self, named: Sequence[tuple[int, str] | None], naming: Naming) -> tuple[SetLine | None, ...]:
        """Return the names on the labels of the pieces that are there."""
        return tuple(self._name(place, *one, naming) for place, one in enumerate(named) if one is not None)

    def _name(self, place: int, piece: int, name: str, naming: Naming) -> SetLine | None:
        if self.good.level != "label":
            return None
        digits = len(str(piece))
        like = self._like(place, digits)
        if not like:
            return None
        if (place, digits) not in self.lines:
            self.lines[place, digits] = like[-1].to_page @ np.diag([naming.em_mm, naming.em_mm, 1.0])
        return naming.line(name, self.rooms[place, digits], self.lines[place, digits])

    def forget(self) -> None:
        """Let go of what belongs to single pieces, so that memory does not grow with the list."""
        self.pen.codes.clear()

    def _slip(self, piece: int) -> Slip:
        return Slip(piece, self.total, code_of(self.mark, piece))

    def _template(self, count: int) -> LaidPage:
        if count not in self.templates:
            sheet = replace(self.pattern, pieces=self.pattern.pieces[:count])
            slips = tuple(self._slip(self.total) for _ in range(count))
            good = replace(self.good, slips=slips)
            laid = tuple(replace(one, part=0, copy=place) for place, one in enumerate(sheet.pieces))
            pager = Pager([good], self.sheet, {}, self.pen)
            layout = Layout(LayRequest((good.part,), ()), (replace(sheet, pieces=laid),))
            page = pager.pages(layout)[0]
            digits = "0" * len(str(self.places.sheets))
            words = (f"{self.good.title}  ·  sheet", digits, "of", str(self.places.sheets))
            boxes = {place: box for place in range(count) if (box := self._label(place, scaled=True)) is not None}
            self.templates[count] = with_lines(page, [good], boxes, self.sheet, self.pen, Extras((), words, None))
        return self.templates[count]

    def _label(self, place: int, *, scaled: bool = False) -> Box | None:
        box = label_box(replace(self.pattern.pieces[place], part=0), self.good)
        if box is None or not scaled:
            return box
        across, along = self.sheet.scale_across, self.sheet.scale_along
        return (box[0] / across, box[1] / along, box[2] / across, box[3] / along)

    def _stamps(self, place: int, piece: int) -> tuple[Stamp, ...]:
        """Return a piece's label but for its name: that of the place, with its own code and number."""
        from wrapwright.outside.codes.matrix import matrix_modules

        found = list(self._like(place, len(str(piece))))
        if not found:
            return ()
        at = 0
        if isinstance(found[0].path, Bars):
            found[0] = replace(found[0], path=self.pen.code(matrix_modules(code_of(self.mark, piece))))
            at = 1
        cap = self._cap()
        for digit in str(piece):
            found[at] = replace(found[at], path=self.pen.path(digit, cap))
            at += 1
        return tuple(found[:-1] if self.good.level == "label" else found)

    def _like(self, place: int, digits: int) -> tuple[Stamp, ...]:
        """Return the label of a piece whose number has so many digits, in one place; of its words the lower first."""
        from wrapwright.outside.codes.matrix import matrix_modules

        if (place, digits) not in self.labels:
            box, level = self._label(place), self.good.level
            slip = Slip(int("1" * digits), self.total, code_of(self.mark, int("1" * digits)))
            modules = matrix_modules(slip.code) if level in ("label", "code") else None
            scale = (self.sheet.scale_across, self.sheet.scale_along)
            lines = ("I", self._second(box)) if box is not None else ()
            found = () if box is None else stamps_of(slip, level, lines, modules, box, self.pen, scale)
            self.labels[place, digits] = found
            if level == "label" and box is not None and modules is not None:
                used = modules.shape[1] * MODULE_MM + 2 * BETWEEN_MM + digits * self.pen.pitch(NUMBER_MM)
                self.rooms[place, digits] = max(box[2] - box[0], box[3] - box[1]) - used
        return self.labels[place, digits]

    def _cap(self) -> float:
        return SMALL_NUMBER_MM if self.good.level == "piece number" else NUMBER_MM

    def _second(self, box: Box) -> str:
        """Return the line that all labels share: at which end of the wrap it stands, and the title."""
        good = self.good
        if good.wrap.plate is not None or good.part.label_mm is None:
            return good.title
        left, _, right, _ = good.part.label_mm
        wide = good.part.shape.width_mm
        first = left >= wide or (good.part.shape.kind == "sector" and left + right > wide)
        last = good.part.shape.kind == "sector" and not first
        end = good.ends[0] if first else good.ends[1] if last else ""
        return "  ·  ".join(one for one in (end, good.title) if one)

    def _numbered(self, template: LaidPage, number: int) -> tuple[Stamp, ...]:
        """Return the template's words with the sheet's own number: all digits are as wide as each other."""
        if _NUMBER not in template.marks:
            return template.stamps
        digits = str(number).zfill(len(str(self.places.sheets)))
        first = len(template.stamps) - 2 * len(digits) - 1
        stamps = list(template.stamps)
        for place, digit in enumerate(digits, first):
            stamps[place] = replace(stamps[place], path=self.pen.path(digit, LINE_MM))
        return tuple(stamps)
