"""What the pieces share held against the design: the pixels below them, and the outlines that stand on all of them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.names.matching import Outline, difference, moved, outline_of
from wrapwright.jobs.names.proving.anew import Anew
from wrapwright.jobs.names.proving.values import Flaw, Flaws

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Box
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.pdf.listed.reading import ReadPiece, Shape, SheetsRead

Array = NDArray[np.float64]
PIXELS = "pixels"
WITHIN_CODES = 2  # of 255
_ROWS = 128  # that are compared at once


@dataclass
class SharedProof:
    """Holds the forms that pieces call against the design, each once a file.

    Attributes:
        anew: the design.
        flaws: what does not agree.
    """

    anew: Anew
    flaws: Flaws
    known: dict[tuple[str, str], str] = field(default_factory=dict)
    looked_at: set[tuple[object, ...]] = field(default_factory=set)
    wanted: list[str] = field(init=False)

    def __post_init__(self) -> None:
        """Work out what every piece calls, in order: the pixels, then each run of outlines by its number."""
        runs = [str(number) for number, run in enumerate(self.anew.stand.runs) if run]
        self.wanted = ([PIXELS] if self.anew.stand.raster else []) + runs

    def calls(self, sheets: SheetsRead, page: int, read: ReadPiece, to_page: Array) -> bool:
        """Return whether a piece calls what every piece calls, in order and where it lies; `page` from 0."""
        found = []
        for name, matrix in read.forms:
            key = (sheets.name, name)
            if key not in self.known:
                self.known[key] = self._form(sheets, page, name, matrix, to_page)
            kind = self.known[key]
            if kind.isdigit() and not np.allclose(_matrix(matrix), to_page, rtol=0.0, atol=0.002):
                kind = "moved"
            found.append(kind)
        return found == self.wanted

    def _form(
        self, sheets: SheetsRead, page: int, name: str, matrix: tuple[float, ...], to_page: Array
    ) -> str:  # fmt: skip
        """Return what a form is: the pixels, the number of a run of outlines, or "other", which is a flaw."""
        drawn = sheets.form(page, name)
        if drawn.pictures:
            return self._pixels(sheets.name, drawn, matrix, to_page)
        outlines = [one.outline() for one in drawn.shapes]
        for number, run in enumerate(self.anew.stand.runs):
            wanted = [outline_of(item.path) for item in run]
            if run and len(wanted) == len(outlines) and all(map(_same, outlines, wanted)):
                return str(number)
        words = f"What pieces share on page {page + 1} of {sheets.name} is drawn with other outlines than the design's."
        self.flaws.add(Flaw(words, "outline", file=sheets.name, page=page + 1))
        return "other"

    def _pixels(self, file: str, drawn: ReadPiece, matrix: tuple[float, ...], to_page: Array) -> str:
        pixels, inner = drawn.pictures[0]
        box = on_pixels(_placed(inner, matrix), self.anew.opened.job.sheet.ppi)
        lies = np.round([*to_page[:2, :2].ravel(), to_page[0, 2] - box[0], to_page[1, 2] - box[1]], 5)
        key = (hashlib.sha256(pixels).hexdigest(), *lies.tolist())
        if key in self.looked_at:
            return PIXELS
        self.looked_at.add(key)
        shared = replace(self.anew.composed, draw_list=self.anew.stand.draw_list)
        if not is_painted(pixels, shared, self.anew.stand.raster, to_page, box):
            words = f"The pixels that pieces in {file} share are not those of the design."
            self.flaws.add(Flaw(words, "pixels", file=file))
        return PIXELS


def is_painted(pixels: bytes, composed: Composition, items: tuple[int, ...], to_page: Array, box: Box) -> bool:
    """Return whether pixels are those of some items of a composition over a box of whole pixels.

    Copies share an image when they lie on the grid of pixels alike to a thousandth of one, and the manifest rounds
    places: a device code may be off by the rounding that follows, no further.
    """
    from wrapwright.core.sheet.mirror import image_frame
    from wrapwright.jobs.work.painting import device_strips, renderer_of

    frame = image_frame(to_page, box, composed.opened.job.sheet.ppi)
    shape = (frame.height_px, frame.width_px, composed.colouring.channels)
    if len(pixels) != int(np.prod(shape)):
        return False
    read = np.frombuffer(pixels, dtype=np.uint8).reshape(shape)
    renderer = renderer_of(composed, frame, items=items)
    with device_strips(composed.colouring, renderer.strip) as strip_of:
        for first in range(0, shape[0], _ROWS):
            last = min(first + _ROWS, shape[0])
            off = np.abs(read[first:last].astype(np.int16) - strip_of(first, last))
            if int(off.max()) > WITHIN_CODES:
                return False
    return True


def on_pixels(box: Box, ppi: float) -> Box:
    """Return a box moved to the nearest whole pixels."""
    pitch = 25.4 / ppi
    left, bottom, right, top = (round(value / pitch) * pitch for value in box)
    return (left, bottom, right, top)


def flat_outline(shape: Shape, to_flat: Array) -> Outline:
    """Return a shape's curves in flat mm; `to_flat` takes page mm there."""
    return moved(shape.outline(), to_flat)


def _same(read: Outline, wanted: Outline) -> bool:
    return difference(read, wanted) is None


def _matrix(values: tuple[float, ...]) -> Array:
    a, b, c, d, e, f = values
    return np.array([[a, c, e], [b, d, f], [0.0, 0.0, 1.0]])


def _placed(box: Box, matrix: tuple[float, ...]) -> Box:
    a, _, _, d, e, f = matrix
    return (box[0] * a + e, box[1] * d + f, box[2] * a + e, box[3] * d + f)
