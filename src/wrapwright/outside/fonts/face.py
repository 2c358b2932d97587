"""One font file at one weight: its glyphs, its measures and its outlines."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path as File
from typing import Any

import numpy as np
import uharfbuzz as hb
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.design.path import Path, Subpath, joined

Array = NDArray[np.float64]
LARGEST_FILE = 64 * 1024 * 1024


@dataclass(frozen=True, eq=False)
class Face:
    """A font file opened at one weight.

    Attributes:
        name: the file's name as the user may know it.
        sha256: of the file.
        font: HarfBuzz font at a scale of `upem` units an em.
        upem: units an em.
        cap_height: height of a capital in units.
        covered: the code points it has glyphs for.
    """

    name: str
    sha256: str
    font: Any
    upem: int
    cap_height: float
    covered: frozenset[int]

    def glyph_path(self, glyph: int) -> Path:
        """Return a glyph's outline in font units; empty when it has none."""
        return _outline(self, glyph)


def open_face(file: File, index: int, axes: tuple[tuple[str, float], ...], name: str) -> Face:
    """Return a face of a file (`index` counts faces in a collection) at the axes' values.

    Raises:
        WrapwrightError: the file is missing, too large or no font.
    """
    try:
        state = file.stat()
    except OSError:
        raise unusable(f"the font file {name} cannot be opened.", remedy="Check its name and place.") from None
    if state.st_size > LARGEST_FILE:
        raise unusable(f"the font file {name} is larger than {LARGEST_FILE // 2**20} MB.")
    return _opened(str(file), state.st_mtime_ns, index, axes, name)


@lru_cache(maxsize=32)
def _opened(file: str, _changed: int, index: int, axes: tuple[tuple[str, float], ...], name: str) -> Face:
    data = File(file).read_bytes()
    face = hb.Face(data, index)
    if face.glyph_count == 0 or face.upem <= 0 or not face.unicodes:
        raise unusable(
            f"{name} is not a font that can be used.", remedy="Give a TrueType or OpenType file (.ttf, .otf)."
        )
    font = hb.Font(face)
    font.scale = (face.upem, face.upem)
    if axes:
        font.set_variations(dict(axes))
    covered = frozenset(int(code) for code in face.unicodes)
    sha256 = hashlib.sha256(data).hexdigest()
    return Face(name, sha256, font, int(face.upem), _cap_height(font, face.upem), covered)


def _cap_height(font: Any, upem: int) -> float:
    """Return the capital height from the font's own table, else the height of its H, else 0.7 em."""
    # OpenType metric tag 'cpht' = OS/2.sCapHeight with MVAR applied.
    value = font.get_metric_position(hb.OTMetricsTag.CAP_HEIGHT)
    if value:
        return float(value)
    glyph = font.get_nominal_glyph(ord("H"))
    extents = font.get_glyph_extents(glyph) if glyph else None
    return float(extents.y_bearing) if extents and extents.y_bearing > 0 else 0.7 * upem


class _Pen:
    """Collects an outline as chains of cubics; quadratics are raised exactly."""

    def __init__(self) -> None:
        self.done: list[Subpath] = []
        self.points: list[tuple[float, float]] = []

    def moveTo(self, to: tuple[float, float]) -> None:  # noqa: N802 (the pen protocol's name)
        self._finish()
        self.points = [to]

    def lineTo(self, to: tuple[float, float]) -> None:  # noqa: N802
        (x, y), (u, v) = self.points[-1], to
        if (x, y) != (u, v):
            self.points += [((2 * x + u) / 3, (2 * y + v) / 3), ((x + 2 * u) / 3, (y + 2 * v) / 3), to]

    def curveTo(self, one: tuple[float, float], two: tuple[float, float], to: tuple[float, float]) -> None:  # noqa: N802
        self.points += [one, two, to]

    def qCurveTo(self, control: tuple[float, float], to: tuple[float, float]) -> None:  # noqa: N802
        (x, y), (c, d), (u, v) = self.points[-1], control, to
        self.points += [((x + 2 * c) / 3, (y + 2 * d) / 3), ((u + 2 * c) / 3, (v + 2 * d) / 3), to]

    def closePath(self) -> None:  # noqa: N802
        if self.points:
            self.lineTo(self.points[0])
        self._finish()

    def endPath(self) -> None:  # noqa: N802
        self._finish()

    def _finish(self) -> None:
        if len(self.points) > 1:
            self.done.append(Subpath(np.array(self.points, dtype=np.float64)))
        self.points = []


@lru_cache(maxsize=4096)
def _outline(face: Face, glyph: int) -> Path:
    plain = _drawn(face, glyph)
    if plain.subpaths:
        return plain
    # A glyph that exists only in colour: the outlines of its layers, all in the text's one colour.
    return joined(_drawn(face, layer.glyph) for layer in face.font.face.get_glyph_color_layers(glyph))


def _drawn(face: Face, glyph: int) -> Path:
    pen = _Pen()
    face.font.draw_glyph_with_pen(glyph, pen)
    pen.endPath()
    return Path(tuple(pen.done))
