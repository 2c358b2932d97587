"""What the pieces share held against the design: the pixels below them, and the outlines that stand on all of them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.names.matching import Outline, difference, moved
from wrapwright.jobs.names.proving.alike import Wanted, has_colour, is_limited_so, is_painted_so, wanted_of
from wrapwright.jobs.names.proving.anew import Anew
from wrapwright.jobs.names.proving.values import Flaw, Flaws

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Box
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.pdf.listed.drawn import CalledForm, ReadForm, ReadPicture, ReadPiece, Shape
    from wrapwright.outside.pdf.listed.reading import SheetsRead

Array = NDArray[np.float64]
PIXELS = "pixels"
WITHIN_CODES = 2  # of 255
WITHIN_CONVERTED = 6  # likewise in a printer's own colours: there one code more before the conversion may be four
_WITHIN = 0.01  # of a form's box, in its own units
_ROWS = 128  # that are compared at once


@dataclass
class SharedProof:
    """Holds the forms that pieces call against the design, each once a file.

    Attributes:
        anew: the design.
        flaws: what does not agree.
        bleed: the wrap with its bleed, flat mm.
    """

    anew: Anew
    flaws: Flaws
    bleed: Outline
    known: dict[tuple[str, tuple[int, int]], str] = field(default_factory=dict)
    looked_at: set[tuple[object, ...]] = field(default_factory=set)
    wanted: list[str] = field(init=False)

    def __post_init__(self) -> None:
        """Work out what every piece calls, in order: the pixels, then each run of outlines by its number."""
        runs = [str(number) for number, run in enumerate(self.anew.stand.runs) if run]
        self.wanted = ([PIXELS] if self.anew.stand.raster else []) + runs

    def calls(self, sheets: SheetsRead, page: int, read: ReadPiece, to_page: Array) -> bool:
        """Return whether a piece calls what every piece calls, in order and where it lies; `page` from 0."""
        found = []
        for called in read.forms:
            key = (sheets.name, called.number)
            if key not in self.known:
                self.known[key] = self._form(sheets, page, called, to_page)
            kind = self.known[key]
            if kind.isdigit() and not np.allclose(matrix_of(called.matrix), to_page, rtol=0.0, atol=0.002):
                kind = "moved"
            found.append(kind)
        return found == self.wanted

    def _form(self, sheets: SheetsRead, page: int, called: CalledForm, to_page: Array) -> str:
        """Return what a form is: the pixels, the number of a run of outlines, or "other", which is a flaw."""
        form = sheets.form(page, called.name)
        if form.drawn.pictures:
            return self._pixels(sheets.name, form, called, to_page)
        for number, run in enumerate(self.anew.stand.runs):
            if run and self._is_run(form, [wanted_of(item) for item in run]):
                return str(number)
        words = f"What pieces share on page {page + 1} of {sheets.name} is drawn with other outlines than the design's."
        self.flaws.add(Flaw(words, "outline", file=sheets.name, page=page + 1))
        return "other"

    def _is_run(self, form: ReadForm, wanted: list[Wanted]) -> bool:
        """Return whether a form draws outlines of the design, in their colours, and shows all of them."""
        drawn, flat, ink = form.drawn, np.eye(3), self.anew.composed.colouring.ink
        kinds = {kind for kind, _ in drawn.order}
        if len(drawn.shapes) != len(wanted) or kinds != {"shape"} or drawn.strange or not self._shows_all(form):
            return False
        return all(
            difference(shape.outline(), one.outline) is None
            and has_colour(shape, one, ink)
            and is_painted_so(shape, one, flat)
            and is_limited_so(limits, one.limits, self.bleed, flat)
            for shape, one, (_, limits) in zip(drawn.shapes, wanted, drawn.order, strict=True)
        )

    def _shows_all(self, form: ReadForm) -> bool:
        """Return whether a form's box cuts nothing of the bleed away."""
        low, high = self.bleed.curves.min(axis=(0, 1)), self.bleed.curves.max(axis=(0, 1))
        return _holds(form.bounds, (*low.tolist(), *high.tolist()))

    def _pixels(self, file: str, form: ReadForm, called: CalledForm, to_page: Array) -> str:
        picture, matrix = form.drawn.pictures[0], matrix_of(called.matrix)
        box = on_pixels(_placed(picture.box, called.matrix), self.anew.opened.job.sheet.ppi)
        lies = np.round([*to_page[:2, :2].ravel(), to_page[0, 2] - box[0], to_page[1, 2] - box[1]], 5)
        key = (hashlib.sha256(picture.pixels).hexdigest(), *lies.tolist())
        whole = (
            len(form.drawn.order) == 1
            and not form.drawn.strange
            and _holds(form.bounds, picture.box)
            and is_limited_so(form.drawn.order[0][1], (), self.bleed, np.linalg.inv(to_page) @ matrix)
        )
        if whole and key in self.looked_at:
            return PIXELS
        shared = replace(self.anew.composed, draw_list=self.anew.stand.draw_list)
        if not whole or not is_painted(picture, shared, self.anew.stand.raster, to_page, box):
            words = f"The pixels that pieces in {file} share are not those of the design."
            self.flaws.add(Flaw(words, "pixels", file=file))
        self.looked_at.add(key)
        return PIXELS


def _holds(outer: Box, inner: Box) -> bool:
    """Return whether a box holds another, but for rounding."""
    low = all(there <= here + _WITHIN for there, here in zip(outer[:2], inner[:2], strict=True))
    return low and all(there >= here - _WITHIN for there, here in zip(outer[2:], inner[2:], strict=True))


def is_painted(
    picture: ReadPicture, composed: Composition, items: tuple[int, ...], to_page: Array, box: Box
) -> bool:  # fmt: skip
    """Return whether a picture's pixels are those of some items of a composition over a box of whole pixels.

    Copies share an image when they lie on the grid of pixels alike to a thousandth of one, and the manifest rounds
    places: a device code may be off by the rounding that follows, no further.
    """
    from wrapwright.core.sheet.mirror import image_frame
    from wrapwright.jobs.work.painting import device_strips, renderer_of

    frame = image_frame(to_page, box, composed.opened.job.sheet.ppi)
    shape = (frame.height_px, frame.width_px, composed.colouring.channels)
    if (picture.height_px, picture.width_px) != shape[:2] or len(picture.pixels) != int(np.prod(shape)):
        return False
    read = np.frombuffer(picture.pixels, dtype=np.uint8).reshape(shape)
    renderer = renderer_of(composed, frame, items=items)
    within = WITHIN_CODES if composed.colouring.there is None else WITHIN_CONVERTED
    with device_strips(composed.colouring, renderer.strip) as strip_of:
        for first in range(0, shape[0], _ROWS):
            last = min(first + _ROWS, shape[0])
            off = np.abs(read[first:last].astype(np.int16) - strip_of(first, last))
            if int(off.max()) > within:
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


def matrix_of(values: tuple[float, ...]) -> Array:
    """Return the 3x3 matrix of column vectors that six numbers of a PDF stand for."""
    a, b, c, d, e, f = values
    return np.array([[a, c, e], [b, d, f], [0.0, 0.0, 1.0]])


def _placed(box: Box, matrix: tuple[float, ...]) -> Box:
    a, _, _, d, e, f = matrix
    return (box[0] * a + e, box[1] * d + f, box[2] * a + e, box[3] * d + f)
