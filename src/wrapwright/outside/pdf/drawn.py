"""Writes drawn pages as a PDF: exact pages, filled paths in greys of sRGB, never scaled by who prints them."""

from __future__ import annotations

import io
from collections.abc import Sequence

from wrapwright.core.base.colours import Rgb
from wrapwright.core.sheet.scale.drawn import DrawnPage, Ink
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.document import Document, SheetColour
from wrapwright.outside.pdf.metadata import About


def drawn_pdf(pages: Sequence[DrawnPage], *, srgb: bytes, about: About) -> bytes:
    """Return the PDF file of these pages; the same pages give the same bytes. `srgb` is the profile of sRGB."""
    document = Document(SheetColour(3, srgb, "sRGB", converted=False), _same)
    resources = document.resources()
    for page in pages:
        box = (0.0, 0.0, page.width_mm, page.height_mm)
        parts = [_ops(document, ink) for ink in page.inks if ink.path.subpaths]
        document.page((box, box, box), ["\n".join(parts)], resources)
    out = io.BytesIO()
    document.finish(about, out)
    return out.getvalue()


def _same(colour: Rgb) -> Rgb:
    return colour


def _ops(document: Document, ink: Ink) -> str:
    points = content.page_points()
    fill = content.word_ops(ink.path, points) if ink.words else content.fill_ops(ink.path, points)
    return f"{document.set_ink((ink.grey,) * 3)}\n{fill}"
