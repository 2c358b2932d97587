"""A page's text as the outlines of its glyphs."""

from __future__ import annotations

import ctypes
import io
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.outside.images.child.page.figure import Curves, Point
from wrapwright.outside.images.child.page.segments import segment_curves

# Glyph outlines can only be asked for by character. Every font is therefore told that its code n stands for the
# n-th character of the private use area, so that ligatures, shaped forms and odd encodings are told apart too.
_MAP = b"""/CIDInit /ProcSet findresource begin 12 dict begin begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Private def /CMapType 2 def
1 begincodespacerange <%(low)s> <%(high)s> endcodespacerange
1 beginbfrange <%(low)s> <%(last)s> <E000> endbfrange
endcmap CMapName currentdict /CMap defineresource pop end end"""
_WIDE = _MAP % {b"low": b"0000", b"high": b"FFFF", b"last": b"18FF"}
_NARROW = _MAP % {b"low": b"00", b"high": b"FF", b"last": b"FF"}


def with_private_codes(data: bytes) -> bytes:
    """Return the PDF with every font's characters replaced by private ones; the pages look the same."""
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as file:
        maps = {b: file.make_stream(b) for b in (_WIDE, _NARROW)}
        found = False
        for thing in file.objects:
            if isinstance(thing, pikepdf.Dictionary) and str(thing.get("/Subtype")) in _MAPPED:
                thing["/ToUnicode"] = maps[_WIDE if str(thing.get("/Subtype")) == "/Type0" else _NARROW]
                found = True
        if not found:
            return data
        out = io.BytesIO()
        file.save(out, static_id=True)
        return out.getvalue()


_MAPPED = frozenset({"/Type0", "/Type1", "/TrueType", "/MMType1"})


class TextMetError(Exception):
    """The page has text, and its fonts have not been given private codes yet."""


class Glyphs:
    """The characters of one page, by the text object they belong to.

    `private` says that the file went through `with_private_codes`; without it the first text met raises TextMetError.
    """

    def __init__(self, page: Any, *, private: bool) -> None:
        self.page = page
        self.private = private
        self.text: Any = None
        self.of: dict[int, list[int]] = {}
        self.known: dict[tuple[int, int], Curves] = {}

    def curves(self, thing: Any) -> Curves:
        """Return a text object's glyphs in the space of its matrix."""
        if not self.private:
            raise TextMetError
        if self.text is None:
            self._load()
        size = ctypes.c_float()
        pdfium.FPDFTextObj_GetFontSize(thing, size)
        out: Curves = []
        for at in self.of.get(_address(thing), []):
            x, y = ctypes.c_double(), ctypes.c_double()
            pdfium.FPDFText_GetCharOrigin(self.text, at, x, y)
            origin = (x.value, y.value)
            held = pdfium.FS_MATRIX()
            pdfium.FPDFText_GetMatrix(self.text, at, held)
            shift = _back(held, (origin[0] - held.e, origin[1] - held.f))
            font = pdfium.FPDFTextObj_GetFont(thing)
            glyph = self._glyph(font, pdfium.FPDFText_GetUnicode(self.text, at))
            em = size.value
            out += [([(px * em + shift[0], py * em + shift[1]) for px, py in part], True) for part, _ in glyph]
        return out

    def _load(self) -> None:
        """Sort the page's characters by text object."""
        self.text = pdfium.FPDFText_LoadPage(self.page)
        for at in range(max(0, pdfium.FPDFText_CountChars(self.text))):
            thing = pdfium.FPDFText_GetTextObject(self.text, at)
            if thing:
                self.of.setdefault(_address(thing), []).append(at)

    def _glyph(self, font: Any, character: int) -> Curves:
        """Return the outline of one character in em, y up."""
        key = (_address(font), character)
        if key not in self.known:
            path = pdfium.FPDFFont_GetGlyphPath(font, character, 1.0)
            self.known[key] = _outline(path) if path else []
        return self.known[key]


def _outline(path: Any) -> Curves:
    count = pdfium.FPDFGlyphPath_CountGlyphSegments(path)
    return segment_curves(lambda at: pdfium.FPDFGlyphPath_GetGlyphPathSegment(path, at), count)


def _address(thing: Any) -> int:
    return ctypes.cast(thing, ctypes.c_void_p).value or 0


def _back(held: Any, step: Point) -> Point:
    """Return a step on the page in the glyphs' own space."""
    area = held.a * held.d - held.b * held.c
    if area == 0:
        return (0.0, 0.0)
    return ((step[0] * held.d - step[1] * held.c) / area, (step[1] * held.a - step[0] * held.b) / area)
