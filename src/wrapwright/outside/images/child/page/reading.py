"""The first page of a PDF as outlines when all of it is solid, else as pixels."""

from __future__ import annotations

import array
from pathlib import Path
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.page.agree import agrees
from wrapwright.outside.images.child.page.figure import Figure
from wrapwright.outside.images.child.page.glyphs import Glyphs, TextMetError, with_private_codes
from wrapwright.outside.images.child.page.objects import NotSolidError, page_figures
from wrapwright.outside.images.child.page.paint import painted_clear
from wrapwright.outside.images.child.page.shares import Sheet, rows_of
from wrapwright.outside.images.child.page.winding import has_holes, with_odd_clips

UNITS = 20_000
# SVG colours are sRGB (SVG 1.1, 12.2; SVG 2, 13.2 by way of CSS Color); PDFium paints a page in sRGB whatever it holds.
PAINTED = "sRGB"
_PDF_MITER = 10.0  # ISO 32000-1, table 52: initial value of the miter limit

_FAULTS = {
    pdfium.FPDF_ERR_PASSWORD: ("The PDF is encrypted and asks for a password.", "Save it without a password."),
    pdfium.FPDF_ERR_SECURITY: ("The PDF is encrypted in a way that is not read.", "Save it without protection."),
}


def read_pdf(data: bytes, *, longest_px: int, notes: list[str]) -> dict[str, Any]:
    """Return the description of the first page's outlines or pixels, left in `samples`."""
    return read_page(data, longest_px=longest_px, notes=notes, name="PDF", miter=_PDF_MITER)


def read_page(data: bytes, *, longest_px: int, notes: list[str], name: str, miter: float) -> dict[str, Any]:
    """Return the description of the first page's outlines or pixels, left in `samples`.

    Scripts are never run, links never followed. Size in points, upright.
    """
    pdfium.FPDF_InitLibrary()
    page = _first_page(data, name, notes)
    width, height = pdfium.FPDF_GetPageWidthF(page), pdfium.FPDF_GetPageHeightF(page)
    if not (0 < width <= UNITS and 0 < height <= UNITS):
        raise unusable(
            f"The {name} page is {width:.0f} x {height:.0f} units; each side must be above 0 and at most {UNITS}.",
            remedy="Save it smaller.",
        )
    if pdfium.FPDFPage_CountObjects(page) == 0:
        raise unusable(f"The {name} is empty: nothing on it would print.")
    sheet = Sheet(_box(page), pdfium.FPDFPage_GetRotation(page) % 4)
    try:
        figures = _figures(data, page, miter)
        if not agrees(page, figures, sheet.box, sheet.rotation):
            figures = with_odd_clips(figures) if has_holes(figures) else []
            if not figures or not agrees(page, figures, sheet.box, sheet.rotation):
                raise NotSolidError("shading, a pattern, blending or text of an unusual kind")
        words = _outlines(figures, sheet)
    except NotSolidError as problem:
        notes.append(f"It is drawn as pixels ({longest_px} on the longer side), for it holds {problem}.")
        return {**_pixels(page, longest_px, name), "notes": notes, "profile": PAINTED}
    return {**words, "width": width, "height": height, "notes": notes, "profile": None}


def _first_page(data: bytes, name: str, notes: list[str]) -> Any:
    """Return the open first page."""
    file = pdfium.FPDF_LoadMemDocument64(data, len(data), None)
    if not file:
        sentence, remedy = _FAULTS.get(
            pdfium.FPDF_GetLastError(), (f"The {name} is damaged and cannot be opened.", "Save it again.")
        )
        raise unusable(sentence, remedy=remedy)
    count = pdfium.FPDF_GetPageCount(file)
    if count < 1:
        raise unusable(f"The {name} has no pages.")
    if count > 1:
        notes.append(f"It has {count} pages; the first is used.")
    page = pdfium.FPDF_LoadPage(file, 0)
    if not page:
        raise unusable(f"The first page of the {name} is damaged and cannot be opened.", remedy="Save it again.")
    return page


def _figures(data: bytes, page: Any, miter: float) -> list[Figure]:
    """Return the page's figures, its text by way of private codes."""
    try:
        return page_figures(page, Glyphs(page, private=False), miter)
    except TextMetError:
        coded = _coded(data)
    file = pdfium.FPDF_LoadMemDocument64(coded, len(coded), None)
    again = pdfium.FPDF_LoadPage(file, 0) if file else None
    if not again:
        raise NotSolidError("text in a damaged font")
    figures = page_figures(again, Glyphs(again, private=True), miter)
    _KEPT.append(coded)
    return figures


_KEPT: list[bytes] = []  # the library reads a document's bytes as long as it is open: they must outlive it


def _coded(data: bytes) -> bytes:
    """Return the file with private codes; text in a file that resists is drawn as pixels."""
    import pikepdf

    try:
        return with_private_codes(data)
    except (pikepdf.PdfError, ValueError, TypeError, RuntimeError) as problem:
        raise NotSolidError("text that cannot be taken apart") from problem


def _box(page: Any) -> tuple[float, float, float, float]:
    """Return what of the page shows (left, bottom, right, top), in its own space."""
    held = pdfium.FS_RECTF()
    pdfium.FPDF_GetPageBoundingBox(page, held)
    return (held.left, held.bottom, held.right, held.top)


def _outlines(figures: list[Figure], sheet: Sheet) -> dict[str, Any]:
    """Write the points of all figures and return the rows that describe them."""
    points = array.array("d")
    rows = rows_of(figures, sheet, points)
    if not rows:
        raise unusable("The drawing is empty: nothing on it would print.")
    Path("samples").write_bytes(points.tobytes())
    return {"form": "outlines", "points": len(points) // 2, "shapes": rows}


def _pixels(page: Any, longest_px: int, name: str) -> dict[str, Any]:
    """Write the page's pixels."""
    samples, width, height = painted_clear(page, longest_px)
    if not any(memoryview(samples).cast("B")[3::4].tobytes()):
        raise unusable(f"The {name} is empty: nothing on it would print.")
    with Path("samples").open("wb") as out:
        out.write(samples)
    return {"form": "pixels", "width": width, "height": height, "bands": 4, "bits": 8, "space": "rgb", "alpha": True}
