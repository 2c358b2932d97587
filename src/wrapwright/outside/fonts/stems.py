"""How thick the thinnest stroke of a text is, estimated from its glyphs."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.borders import flattened
from wrapwright.core.design.path import Path
from wrapwright.outside.fonts.face import Face

Array = NDArray[np.float64]
_CUTS = (0.2, 0.35, 0.5, 0.65, 0.8)  # of the box: away from ends and serifs
_SPECK = 0.004  # em: shorter cuts graze an edge and are no stroke


def thinnest_em(glyphs: Iterable[tuple[Face, int]]) -> float | None:
    """Return the thinnest glyph's stroke in ems; None without ink.

    Ten lines across and up each glyph's box cut lengths out of it; a quarter of the way up from the shortest stands
    for its thinner strokes. An estimate: a slanting stroke is cut a little long, a tip short.
    """
    found = [cut for face, glyph in dict.fromkeys(glyphs) if (cut := _glyph_em(face, glyph)) is not None]
    return min(found, default=None)


@lru_cache(maxsize=4096)
def _glyph_em(face: Face, glyph: int) -> float | None:
    path = face.glyph_path(glyph)
    if not path.subpaths:
        return None
    left, bottom, right, top = path.box()
    raw: list[float] = []
    for share in _CUTS:
        raw += _inked(path, 1, bottom + share * (top - bottom))
        raw += _inked(path, 0, left + share * (right - left))
    cuts = sorted(cut / face.upem for cut in raw if cut / face.upem > _SPECK)
    return cuts[len(cuts) // 4] if cuts else None


def _inked(path: Path, axis: int, at: float) -> list[float]:
    """Return the lengths of the inside (nonzero) along the line where coordinate `axis` equals `at`."""
    crossings: list[tuple[float, int]] = []
    for sub in path.subpaths:
        points = flattened(sub, 8)
        start, end = points[:-1], points[1:]
        # A hair beside the asked place, so that no corner lies on the line.
        line = at + 1e-6
        up = (start[:, axis] <= line) & (end[:, axis] > line)
        down = (start[:, axis] > line) & (end[:, axis] <= line)
        for hits, sign in ((up, 1), (down, -1)):
            a, step = start[hits], (end - start)[hits]
            places = a[:, 1 - axis] + (line - a[:, axis]) / step[:, axis] * step[:, 1 - axis]
            crossings += [(float(place), sign) for place in places]
    lengths, winding, since = [], 0, 0.0
    for where, sign in sorted(crossings):
        if winding == 0:
            since = where
        winding += sign
        if winding == 0:
            lengths.append(where - since)
    return lengths
