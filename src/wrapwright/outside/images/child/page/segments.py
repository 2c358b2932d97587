"""Path segments of the PDF library as chains of cubics."""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from typing import Any

import pypdfium2.raw as pdfium

from wrapwright.outside.images.child.page.figure import Curves, Point


def segment_curves(get: Callable[[int], Any], count: int) -> Curves:
    """Return segments as chains of cubics; single points that draw nothing are left out."""
    curves: Curves = []
    points: list[Point] = []
    held: list[Point] = []
    closed = False
    x, y = ctypes.c_float(), ctypes.c_float()
    for at in range(max(0, count)):
        segment = get(at)
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        point = (x.value, y.value)
        kind = pdfium.FPDFPathSegment_GetType(segment)
        if kind == pdfium.FPDF_SEGMENT_MOVETO or not points:
            _keep(curves, points, closed=closed)
            points, held, closed = [point], [], False
        elif kind == pdfium.FPDF_SEGMENT_LINETO:
            (x0, y0), (x1, y1) = points[-1], point
            points += [(x0 + (x1 - x0) / 3, y0 + (y1 - y0) / 3), (x1 - (x1 - x0) / 3, y1 - (y1 - y0) / 3), point]
        else:
            held.append(point)
            if len(held) == 3:
                points += held
                held = []
        closed = closed or bool(pdfium.FPDFPathSegment_GetClose(segment))
    _keep(curves, points, closed=closed)
    return curves


def _keep(curves: Curves, points: list[Point], *, closed: bool) -> None:
    if len(points) > 1 and len(points) % 3 == 1:
        curves.append((points, closed))
