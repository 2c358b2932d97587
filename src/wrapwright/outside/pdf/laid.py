"""Writes sheets with many pieces: each art once, its copies placed by a matrix, labels and marks as shared forms.

An art's image at its own turn is one object for all copies that lie alike on the grid of pixels; its vector part is
one form for all turns, clipped to its bleed. Whatever is the same beside several pieces, a title or a digit, is one
form too. Images wait in a scratch folder until the file is saved, so that memory does not grow with their number.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path as File

import numpy as np
import pikepdf
from numpy.typing import NDArray
from pikepdf import Array as PdfArray
from pikepdf import Dictionary, Name

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.printed.values import Bars, LaidPage, LaidPiece, Stamp
from wrapwright.core.sheet.mirror import image_box
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.document import Document, Ink, SheetColour, within
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.forms import matrix_ops, on_grid, reach_of, round_all, stamp_points
from wrapwright.outside.pdf.metadata import About
from wrapwright.outside.pdf.saving import save_pdf
from wrapwright.outside.pdf.sheets import item_ops

Matrix = NDArray[np.float64]
BLACK = (0.0, 0.0, 0.0)


@dataclass(frozen=True, eq=False)
class ArtOf:
    """What is drawn of one job.

    Attributes:
        colour: the space of its colours.
        ink: working-space colour (0..1) -> device colour.
        bleed: outline to which it is clipped, flat mm as seen.
        items: its vector part, bottom to top, flat mm as seen.
        paint: packs its raster part for a piece's matrix (flat mm -> page mm) and a box of whole pixels (page mm);
            None when it has none.
    """

    colour: SheetColour
    ink: Ink
    bleed: Path
    items: tuple[PlacedOutline, ...]
    paint: Callable[[Matrix, Box], Packed] | None = None


@dataclass(frozen=True)
class Written:
    """For each page: the SHA-256 of its pieces' pixels, None where a piece has none."""

    pixels: tuple[tuple[str | None, ...], ...]


def laid_pdf(
    pages: Sequence[LaidPage], arts: Sequence[ArtOf], *, ppi: float, about: About, file: File, scratch: File,
    step: Callable[[float], None] = lambda _share: None,
) -> Written:  # fmt: skip
    """Write the PDF file; return the digests of its pixels.

    Args:
        pages: in order; at least one.
        arts: one a good, by its index. On the convert route all have one space.
        ppi: of the raster parts.
        about: title, maker and date.
        file: where it goes.
        scratch: a folder for what waits; what is put there is left there.
        step: told how far the work is, 0..1.

    Raises WrapwrightError (unusable) when the convert route's profile is not a printer's.
    """
    writer = _Writer(Document(arts[0].colour, arts[0].ink), arts, ppi, scratch)
    try:
        pixels = []
        for number, page in enumerate(pages):
            step(number / max(len(pages), 1))
            pixels.append(writer.add(page))
        writer.document.finish(about, file)
    finally:
        for waiting in writer.waiting:
            waiting.close()
    return Written(tuple(pixels))


@dataclass
class _Writer:
    """Adds pages to a document."""

    document: Document
    arts: Sequence[ArtOf]
    ppi: float
    scratch: File
    waiting: list[pikepdf.Pdf] = field(default_factory=list)
    spaces: dict[bytes, pikepdf.Object] = field(default_factory=dict)
    images: dict[tuple[int, int, int, int], tuple[pikepdf.Object, str]] = field(default_factory=dict)
    vectors: dict[int, pikepdf.Object | None] = field(default_factory=dict)
    pieces: dict[tuple[int, int, int, int], tuple[str, str | None]] = field(default_factory=dict)
    stamps: dict[int, tuple[str, Path | Bars]] = field(default_factory=dict)
    objects: dict[str, pikepdf.Object] = field(default_factory=dict)

    def add(self, page: LaidPage) -> tuple[str | None, ...]:
        """Add one page; return the digests of its pieces' pixels."""
        parts, digests, names = [], list[str | None](), dict[str, None]()
        for piece in page.pieces:
            name, digest, at = self._piece(piece)
            parts.append(f"q 1 0 0 1 {at} cm /{name} Do Q")
            digests.append(digest)
            names[name] = None
        marks = [self.document.set_ink(BLACK)]
        for piece in page.pieces:
            marks += self._stamped(piece, names)
        if page.lines.subpaths:
            marks.append(content.fill_ops(page.lines, content.page_points()))
        for stamp in page.stamps:
            marks.append(self._stamp(stamp, names))
        media = (0.0, 0.0, page.width_mm, page.height_mm)
        bleed = within(round_all([piece.bleed_box for piece in page.pieces]), media)
        trim = within(round_all([piece.trim_box for piece in page.pieces]), bleed)
        resources = self.document.resources({name: self.objects[name] for name in names})
        self.document.page((media, bleed, trim), ["\n".join(parts), "\n".join(marks)], resources)
        return tuple(digests)

    def _piece(self, piece: LaidPiece) -> tuple[str, str | None, str]:
        """Return the form of a piece, the digest of its pixels, and the corner it is placed at, in points."""
        box = image_box(piece.bleed_box, self.ppi)
        pitch = 25.4 / self.ppi
        # How the art lies within its pixels, in thousandths of one: copies that lie alike share one image.
        lies = tuple(round((piece.bleed_box[axis] - box[axis]) / pitch * 1000.0) for axis in (0, 1))
        key = (piece.good, piece.turn_deg, lies[0], lies[1])
        if key not in self.pieces:
            self.pieces[key] = self._formed(piece, box, f"P{len(self.pieces)}")
        name, digest = self.pieces[key]
        at = " ".join(content.number(value * content.POINTS_PER_MM, 6) for value in box[:2])
        return name, digest, at

    def _formed(self, piece: LaidPiece, box: Box, name: str) -> tuple[str, str | None]:
        art = self.arts[piece.good]
        # The form's own corner is the lower left one of its pixels.
        away = np.array([[1.0, 0.0, -box[0]], [0.0, 1.0, -box[1]], [0.0, 0.0, 1.0]])
        matrix = content.page_points() @ away @ piece.to_page
        own = (0.0, 0.0, box[2] - box[0], box[3] - box[1])
        inner: dict[str, pikepdf.Object] = {}
        body, digest = [content.clip_ops(art.bleed, matrix)], None
        if art.paint is not None:
            packed = art.paint(piece.to_page, box)
            digest = packed.pixels_sha256
            inner["Im0"] = self._kept(packed, piece.good)
            body.append(content.image_ops("Im0", own))
        vector = self._vector(piece.good)
        if vector is not None:
            inner["V0"] = vector
            body.append(f"q {matrix_ops(matrix)} cm /V0 Do Q")
        form = self._form("\n".join(body), own, inner, piece.good)
        self.objects[name] = form
        return name, digest

    def _kept(self, packed: Packed, good: int) -> pikepdf.Object:
        """Return an image whose bytes wait in the scratch folder until the file is saved."""
        outside = pikepdf.new()
        image = self.document.image(packed, owner=outside)
        outside.Root.Waiting = outside.make_indirect(image)
        place = self.scratch / f"image-{len(self.waiting)}.pdf"
        level = pikepdf.StreamDecodeLevel.none
        save_pdf(outside, place, static_id=True, compress_streams=False, stream_decode_level=level)
        opened = pikepdf.open(place)
        self.waiting.append(opened)
        copied = self.document.pdf.copy_foreign(opened.Root.Waiting)
        copied.ColorSpace = self._space(good)
        return copied

    def _space(self, good: int) -> pikepdf.Object:
        """Return the colour space of an art: the document's, unless its own profile is another."""
        colour = self.arts[good].colour
        if colour.converted or colour.profile == self.arts[0].colour.profile:
            return self.document.space
        if colour.profile not in self.spaces:
            self.spaces[colour.profile] = self.document.space_of(colour)
        return self.spaces[colour.profile]

    def _vector(self, good: int) -> pikepdf.Object | None:
        if good not in self.vectors:
            items = self.arts[good].items
            box = reach_of(self.arts[good].bleed)
            body = "\n".join(item_ops(item, np.eye(3), self._inked(good)) for item in items)
            self.vectors[good] = self._form(body, box, {}, good, unit=1.0) if items else None
        return self.vectors[good]

    def _inked(self, good: int) -> Callable[..., str]:
        def set_ink(colour: tuple[float, float, float], *, stroke: bool = False) -> str:
            return self.document.set_ink(colour, stroke=stroke, ink=self.arts[good].ink)

        return set_ink

    def _form(
        self, body: str, box: Box, inner: dict[str, pikepdf.Object], good: int, unit: float = content.POINTS_PER_MM
    ) -> pikepdf.Object:
        resources = self.document.resources(inner, space=self._space(good))
        bounds = PdfArray([pikepdf.Object.parse(content.number(value * unit, 4).encode()) for value in box])
        self.document.digest.update(body.encode("ascii"))
        return self.document.packed_stream(
            body.encode("ascii") + b"\n",
            Type=Name.XObject,
            Subtype=Name.Form,
            FormType=1,
            BBox=bounds,
            Resources=resources,
        )

    def _stamped(self, piece: LaidPiece, names: dict[str, None]) -> list[str]:
        found = [self._stamp(stamp, names) for stamp in piece.stamps]
        if piece.guides:
            draws = " ".join(f"/{self._stamp_form(path, names, 'G')} Do" for path in piece.guides)
            found.append(f"q {matrix_ops(stamp_points(piece.to_page))} cm {draws} Q")
        return found

    def _stamp(self, stamp: Stamp, names: dict[str, None]) -> str:
        name = self._stamp_form(stamp.path, names)
        return f"q {matrix_ops(stamp_points(stamp.to_page))} cm /{name} Do Q"

    def _stamp_form(self, path: Path | Bars, names: dict[str, None], kind: str = "S") -> str:
        """Return the form of a shape, on a grid of its own of 5 micrometres; it has the ink that is set before it."""
        if id(path) not in self.stamps:
            name = f"{kind}{len(self.stamps)}"
            body, box = on_grid(path)
            bounds = PdfArray([int(value) for value in box])
            self.document.digest.update(body)
            self.objects[name] = self.document.packed_stream(
                body, Type=Name.XObject, Subtype=Name.Form, FormType=1, BBox=bounds, Resources=Dictionary()
            )
            self.stamps[id(path)] = (name, path)
        name = self.stamps[id(path)][0]
        names[name] = None
        return name
