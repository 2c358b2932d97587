"""A PDF page's objects made figures, as long as every one of them is of solid colour."""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.page.figure import IDENTITY, Curves, Figure, Matrix, Pen, extent, moved, times
from wrapwright.outside.images.child.page.glyphs import Glyphs
from wrapwright.outside.images.child.page.segments import segment_curves

OBJECTS = 100_000
POINTS = 2_000_000
_DEEPEST = 28  # forms within forms; deeper ones are drawn as pixels


class NotSolidError(Exception):
    """Something on the page cannot be held as a solid shape; the argument says what, for the note."""


def page_figures(page: Any, glyphs: Glyphs, miter: float) -> list[Figure]:
    """Return the figures of a page, bottom to top, in its user space.

    Args:
        page: an open page.
        glyphs: the page's text.
        miter: limit of mitred joins, which the library does not tell.

    Raises:
        NotSolidError: for pictures, gradients, patterns, masks, blending and whatever else needs pixels.
        WrapwrightError: unusable, for more than OBJECTS objects.
    """
    walk = _Walk(glyphs, miter)
    count = pdfium.FPDFPage_CountObjects(page)
    walk.all_of(lambda at: pdfium.FPDFPage_GetObject(page, at), count, _Place())
    return walk.figures


@dataclass(frozen=True)
class _Place:
    """Where an object stands: its parent's space, opacity and clips, and how many forms deep."""

    matrix: Matrix = IDENTITY
    opacity: float = 1.0
    clips: list[Curves] = field(default_factory=list)
    depth: int = 0


class _Walk:
    """One pass over a page."""

    def __init__(self, glyphs: Glyphs, miter: float) -> None:
        self.glyphs = glyphs
        self.miter = miter
        self.figures: list[Figure] = []
        self.objects = 0
        self.points = 0

    def all_of(self, get: Callable[[int], Any], count: int, place: _Place) -> None:
        """Take the objects of a page or a form in order."""
        for at in range(count):
            self.objects += 1
            if self.objects > OBJECTS:
                raise unusable(f"The page has more than {OBJECTS} objects.", remedy="Simplify it, or save it as a PNG.")
            thing = get(at)
            clips = place.clips + [moved(clip, place.matrix) for clip in _clips(thing)]
            self._one(thing, replace(place, clips=clips))

    def _one(self, thing: Any, place: _Place) -> None:
        """Take one object."""
        kind = pdfium.FPDFPageObj_GetType(thing)
        if kind == pdfium.FPDF_PAGEOBJ_FORM:
            self._form(thing, place)
        elif kind == pdfium.FPDF_PAGEOBJ_PATH:
            self._path(thing, place)
        elif kind == pdfium.FPDF_PAGEOBJ_TEXT:
            self._text(thing, place)
        else:
            raise NotSolidError("a gradient" if kind == pdfium.FPDF_PAGEOBJ_SHADING else "a picture")

    def _form(self, thing: Any, place: _Place) -> None:
        """Take a form's objects; its own opacity is handed down, which is right while they do not overlap."""
        if place.depth >= _DEEPEST:
            raise NotSolidError("groups nested very deep")
        inner = _Place(
            times(_matrix(thing), place.matrix),
            place.opacity * _colour(thing, pdfium.FPDFPageObj_GetFillColor)[1],
            place.clips,
            place.depth + 1,
        )
        count = pdfium.FPDFFormObj_CountObjects(thing)
        self.all_of(lambda at: pdfium.FPDFFormObj_GetObject(thing, at), count, inner)

    def _path(self, thing: Any, place: _Place) -> None:
        """Take a path: its fill, then its line."""
        mode, stroke = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(thing, mode, stroke)
        count = pdfium.FPDFPath_CountSegments(thing)
        curves = segment_curves(lambda at: pdfium.FPDFPath_GetPathSegment(thing, at), count)
        if curves:
            inner = replace(place, matrix=times(_matrix(thing), place.matrix))
            self._painted(thing, curves, inner, fill=mode.value, stroked=bool(stroke.value))

    def _text(self, thing: Any, place: _Place) -> None:
        """Take a piece of text as the outlines of its glyphs."""
        mode = pdfium.FPDFTextObj_GetTextRenderMode(thing)
        if mode == pdfium.FPDF_TEXTRENDERMODE_INVISIBLE:
            return
        if mode > pdfium.FPDF_TEXTRENDERMODE_INVISIBLE or mode < 0:
            raise NotSolidError("text used as a mask")
        stroked = mode in (pdfium.FPDF_TEXTRENDERMODE_STROKE, pdfium.FPDF_TEXTRENDERMODE_FILL_STROKE)
        fill = pdfium.FPDF_FILLMODE_NONE if mode == pdfium.FPDF_TEXTRENDERMODE_STROKE else pdfium.FPDF_FILLMODE_WINDING
        curves = self.glyphs.curves(thing)
        if curves:
            # A line's width is in the units around the text; its matrix is theirs unless it carries the size as well,
            # and then the comparison with the page tells.
            inner = replace(place, matrix=times(_matrix(thing), place.matrix))
            self._painted(thing, curves, inner, fill=fill, stroked=stroked)

    def _painted(self, thing: Any, curves: Curves, place: _Place, *, fill: int, stroked: bool) -> None:
        """Keep the fill (its rule in `fill`) and the line of one object."""
        parts: list[tuple[Any, Pen | None]] = []
        if fill != pdfium.FPDF_FILLMODE_NONE:
            parts.append((pdfium.FPDFPageObj_GetFillColor, None))
        if stroked:
            parts.append((pdfium.FPDFPageObj_GetStrokeColor, _pen(thing, self.miter)))
        self.points += sum(len(points) for points, _ in curves) * len(parts)
        if self.points > POINTS:
            raise NotSolidError(f"more than {POINTS} points")
        alphas = []
        for get, pen in parts:
            colour, alpha = _colour(thing, get)
            alphas.append(alpha)
            odd = pen is None and fill == pdfium.FPDF_FILLMODE_ALTERNATE
            clips = _needed(place.clips, curves, place.matrix, pen)
            if alpha * place.opacity > 0:
                figure = Figure(curves, place.matrix, colour, place.opacity * alpha, pen, odd, clips)
                self.figures.append(figure)
        if pdfium.FPDFPageObj_HasTransparency(thing) and all(alpha == 1 for alpha in alphas):
            raise NotSolidError("blending or a soft mask")


def _needed(clips: list[Curves], curves: Curves, matrix: Matrix, pen: Pen | None) -> list[Curves]:
    """Return the clips without upright rectangles that hold the whole shape."""
    left, bottom, right, top = extent(moved(curves, matrix))
    if pen is not None:
        reach = pen.width * max(map(abs, matrix[:4])) * (pen.miter if pen.join == 0 else 1.5)
        left, bottom, right, top = left - reach, bottom - reach, right + reach, top + reach
    kept = []
    for clip in clips:
        if not clip:
            continue
        x0, y0, x1, y1 = extent(clip)
        wide, high = max(1.0, x1 - x0) * 1e-4, max(1.0, y1 - y0) * 1e-4
        inside = x0 <= left + wide and y0 <= bottom + high and x1 >= right - wide and y1 >= top - high
        if not (inside and _upright_box(clip)):
            kept.append(clip)
    return kept


def _upright_box(clip: Curves) -> bool:
    """Return whether a clip is one rectangle along the axes."""
    if len(clip) != 1 or len(clip[0][0]) not in (13, 10):
        return False
    x0, y0, x1, y1 = extent(clip)
    near = 1e-6 * max(abs(x1 - x0), abs(y1 - y0), 1e-12)
    return all(min(abs(x - x0), abs(x - x1)) < near or min(abs(y - y0), abs(y - y1)) < near for x, y in clip[0][0])


def _matrix(thing: Any) -> Matrix:
    held = pdfium.FS_MATRIX()
    pdfium.FPDFPageObj_GetMatrix(thing, held)
    return (held.a, held.b, held.c, held.d, held.e, held.f)


def _colour(thing: Any, get: Callable[..., int]) -> tuple[tuple[float, float, float], float]:
    """Return a colour in sRGB and its opacity, 0..1."""
    parts = [ctypes.c_uint() for _ in range(4)]
    if not get(thing, *parts):
        raise NotSolidError("a colour that is no plain colour")
    red, green, blue, alpha = (part.value / 255.0 for part in parts)
    return (red, green, blue), alpha


def _pen(thing: Any, miter: float) -> Pen:
    """Return how the object's line is drawn."""
    width, phase = ctypes.c_float(), ctypes.c_float()
    pdfium.FPDFPageObj_GetStrokeWidth(thing, width)
    count = max(0, pdfium.FPDFPageObj_GetDashCount(thing))
    dashes = (ctypes.c_float * count)()
    if count:
        pdfium.FPDFPageObj_GetDashArray(thing, dashes, count)
        pdfium.FPDFPageObj_GetDashPhase(thing, phase)
    if width.value <= 0:
        raise NotSolidError("a line without width")
    cap, join = pdfium.FPDFPageObj_GetLineCap(thing), pdfium.FPDFPageObj_GetLineJoin(thing)
    lengths = tuple(float(part) for part in dashes)
    if lengths and (min(lengths) < 0 or sum(lengths) <= 0):
        lengths = ()
    return Pen(width.value, cap, join, miter, lengths, phase.value)


def _clips(thing: Any) -> list[Curves]:
    """Return the paths an object is limited to, in the space its parent stands in."""
    clip = pdfium.FPDFPageObj_GetClipPath(thing)
    count = pdfium.FPDFClipPath_CountPaths(clip) if clip else 0
    return [segment_curves(_segments(clip, at), pdfium.FPDFClipPath_CountPathSegments(clip, at)) for at in range(count)]


def _segments(clip: Any, path: int) -> Callable[[int], Any]:
    return lambda at: pdfium.FPDFClipPath_GetPathSegment(clip, path, at)
