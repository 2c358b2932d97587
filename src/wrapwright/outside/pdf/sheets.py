"""Writes the sheets as a PDF: exact pages, images shared by all pages, vector art and marks above them.

The same content gives the same bytes; the file itself is that of `document.py`.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import groupby

import numpy as np
import pikepdf
from numpy.typing import NDArray

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import joined
from wrapwright.core.sheet.placed import OWN_WORDS, Box, PlacedPage
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.document import Document, Ink, within
from wrapwright.outside.pdf.document import SheetColour as SheetColour
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.metadata import About

Matrix = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class PlacedImage:
    """An image and its box in page mm; pages that hand in the same `packed` object share one image."""

    packed: Packed
    box: Box


@dataclass(frozen=True, eq=False)
class SheetPage:
    """A page: the arrangement, the images below, and the vector items above them, bottom to top, in flat mm."""

    page: PlacedPage
    images: tuple[PlacedImage, ...] = ()
    items: tuple[PlacedOutline, ...] = ()


def sheets_pdf(pages: Sequence[SheetPage], *, colour: SheetColour, ink: Ink, about: About) -> bytes:
    """Return the PDF file.

    Args:
        pages: in order.
        colour: the space of images and inks.
        ink: working-space colour (0..1) -> device colour (0..1, as many as the space has channels).
        about: title, maker and date.

    Raises WrapwrightError (unusable) when the convert route's profile is not a printer's.
    """
    writer = _Writer(Document(colour, ink))
    for page in pages:
        writer.add(page)
    out = io.BytesIO()
    writer.document.finish(about, out)
    return out.getvalue()


@dataclass
class _Writer:
    """Adds pages to a document."""

    document: Document
    images: dict[int, tuple[str, pikepdf.Object, Packed]] = field(default_factory=dict)
    drawn: dict[tuple[int, int], str] = field(default_factory=dict)
    marks: dict[tuple[int, ...], str] = field(default_factory=dict)
    kept: list[object] = field(default_factory=list)

    def add(self, sheet: SheetPage) -> None:
        """Add one page."""
        page = sheet.page
        parts = [self._head(sheet)]
        for _own, run in groupby(sheet.items, key=lambda item: bool(item.fields)):
            parts.append("\n".join(self._item(item, page) for item in run))
        parts += self._marks(page)
        media = (0.0, 0.0, page.width_mm, page.height_mm)
        bleed = within(page.bleed_box, media)
        trim = within(page.trim_box, bleed)
        images = {name: image for name, image, _ in (self._image(one.packed) for one in sheet.images)}
        self.document.page((media, bleed, trim), parts, self.document.resources(images))

    def _head(self, sheet: SheetPage) -> str:
        """Return the clip to the bleed and the images below."""
        draws = [content.image_ops(self._image(one.packed)[0], one.box) for one in sheet.images]
        return "\n".join(["q", content.clip_ops(sheet.page.bleed, content.page_points()), *draws])

    def _marks(self, page: PlacedPage) -> list[str]:
        """Return what stands beside the piece: first what all pages have alike, then this piece's own words."""
        points = content.page_points()
        own = [label for label in page.labels if label.what in OWN_WORDS and label.path.subpaths]
        return [self._alike(page), *(content.word_ops(label.path, points) for label in own)]

    def _alike(self, page: PlacedPage) -> str:
        paths = [label.path for label in page.labels if label.what not in OWN_WORDS]
        key = tuple(id(path) for path in (page.lines, *paths))
        if key not in self.marks:
            self.kept += [page.lines, *paths]
            points, words = content.page_points(), joined(paths)
            parts = [f"Q\n{self.document.set_ink((0.0, 0.0, 0.0))}"]
            if page.lines.subpaths:
                parts.append(content.fill_ops(page.lines, points))
            if words.subpaths:
                parts.append(content.word_ops(words, points))
            self.marks[key] = "\n".join(parts)
        return self.marks[key]

    def _item(self, item: PlacedOutline, page: PlacedPage) -> str:
        key = (id(item), id(page.to_page))
        if key not in self.drawn:
            self.kept += [item, page.to_page]  # so that no other object takes over their ids
            self.drawn[key] = item_ops(item, content.page_points() @ page.to_page, self.document.set_ink)
        return self.drawn[key]

    def _image(self, packed: Packed) -> tuple[str, pikepdf.Object, Packed]:
        if id(packed) not in self.images:
            self.images[id(packed)] = (f"Im{len(self.images)}", self.document.image(packed), packed)
        return self.images[id(packed)]


def item_ops(item: PlacedOutline, matrix: Matrix, set_ink: Callable[..., str]) -> str:
    """Return the operators that draw an outline; `matrix` (3x3) takes its mm to points."""
    clips = [content.clip_ops(clip, matrix) for clip in item.clips]
    if item.stroke_mm > 0:
        paint = content.stroke_ops(item.path, matrix, item.stroke_mm)
    else:
        paint = content.fill_ops(item.path, matrix, even_odd=item.even_odd)
    body = [*clips, set_ink(item.colour, stroke=item.stroke_mm > 0), paint]
    return "\n".join(["q", *body, "Q"] if clips else body)
