"""Words as outlines, straight from a font file: independent of the product's own text setting."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from wrapwright.core.design.path import Path, Subpath, line_points


class _Pen(BasePen):
    """Collects cubic chains; BasePen turns quadratic curves into cubics exactly."""

    def __init__(self, glyphs: Any) -> None:
        super().__init__(glyphs)
        self.subs: list[Subpath] = []
        self.chain: list[tuple[float, float]] = []

    def _moveTo(self, pt: tuple[float, float]) -> None:
        self.chain = [pt]

    def _lineTo(self, pt: tuple[float, float]) -> None:
        self.chain += [tuple(p) for p in line_points(np.array([self.chain[-1], pt]))[1:]]

    def _curveToOne(self, one: tuple[float, float], two: tuple[float, float], end: tuple[float, float]) -> None:
        self.chain += [one, two, end]

    def _closePath(self) -> None:
        if self.chain[-1] != self.chain[0]:
            self._lineTo(self.chain[0])
        if len(self.chain) > 1:
            self.subs.append(Subpath(np.array(self.chain, dtype=float)))


@cache
def _font() -> TTFont:
    folder = files("fontpkg_open_sans")
    fonts = (p for p in _walk(folder) if p.name.lower().endswith((".ttf", ".otf")))
    found = sorted(p for p in fonts if "italic" not in p.name.lower())
    return TTFont(str(found[0]))


def _walk(folder: Any) -> list[Any]:
    out = []
    for one in folder.iterdir():
        out += _walk(one) if one.is_dir() else [one]
    return out


@cache
def set_label(text: str, height_mm: float) -> Path:
    """Return the words with capitals `height_mm` high, base line at y = 0, from x = 0."""
    font = _font()
    glyphs, cmap = font.getGlyphSet(), font.getBestCmap()
    scale = height_mm / font["OS/2"].sCapHeight
    x, subs = 0.0, []
    for sign in text:
        name = cmap.get(ord(sign), ".notdef")
        pen = _Pen(glyphs)
        glyphs[name].draw(pen)
        subs += [Subpath((sub.points + np.array([x, 0.0])) * scale) for sub in pen.subs]
        x += glyphs[name].width
    return Path(tuple(subs))
