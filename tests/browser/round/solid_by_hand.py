"""Pieces in space for the browser's tests, from readings, and a proof picture with dots at known places on the wall."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from tests.browser.canvas.drawn_by_hand import HANDLED, INVERTED, STRAIGHT, TAPERED, sample

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.jobs.live.values import SolidView

Dot = tuple[float, float, tuple[int, int, int]]


@dataclass(frozen=True)
class Piece:
    """A flat wrap and the readings (wall position, girth) of the piece that it goes round, mm."""

    wrap: FlatWrap
    readings: tuple[tuple[float, float], ...]
    band_from: float = 0.0
    handle: tuple[float, float] | None = None

    def wall(self) -> tuple[tuple[float, float, float], ...]:
        """Return (height, radius, position) of the readings: between two of them the wall is part of a cone."""
        found: list[tuple[float, float, float]] = []
        for position, girth in self.readings:
            radius, height = girth / (2.0 * math.pi), 0.0
            if found:
                low, before, at = found[-1]
                height = low + math.sqrt((position - at) ** 2 - (radius - before) ** 2)
            found.append((height, radius, position))
        return tuple(found)


BULGE = FlatWrap(lower_mm=226.4, upper_mm=231.4, height_mm=120.0, overlap_mm=6.0, seam_deg=200.0)
PIECES = {
    "straight": Piece(STRAIGHT, ((0.0, 235.0), (STRAIGHT.height_mm, 235.0))),
    "tapered": Piece(TAPERED, ((0.0, 195.4), (170.0, 242.5)), 10.0),
    "inverted": Piece(INVERTED, ((0.0, 249.7), (INVERTED.height_mm, 195.7))),
    "bulging": Piece(BULGE, ((0.0, 205.0), (30.0, 225.0), (70.0, 236.0), (110.0, 234.0), (150.0, 215.0)), 15.0),
    "mug": Piece(HANDLED, ((0.0, 261.6), (105.0, 261.6)), 5.0, (180.0, 26.0)),
}


def drawn_piece(name: str, coating: str = "#ffffff") -> dict[str, Any]:
    """Return what a screen gets of a piece with a few copies on it."""
    piece = PIECES[name]
    drawn = sample(piece.wrap)
    solid = SolidView(piece.wall(), piece.band_from, piece.wrap.height_mm, piece.handle, coating, 120.0)
    return {**drawn, "solid": asdict(solid)}


def dotted_proof(wrap: FlatWrap, box: Sequence[float], dots: Sequence[Dot], width_px: int = 1024) -> bytes:
    """Return a white PNG over the canvas box with a round dot of 4 mm at each (at, up, colour)."""
    from PIL import Image, ImageDraw

    left, top, width, height = box
    scale = width_px / width
    picture = Image.new("RGB", (width_px, round(height * scale)), (255, 255, 255))
    pen = ImageDraw.Draw(picture)
    for at, up, colour in dots:
        x, y = wrap.to_flat(np.array(wrap.turn_of(at)), np.array(up))
        column, row, radius = (float(x) - left) * scale, (-float(y) - top) * picture.height / height, 2.0 * scale
        pen.ellipse((column - radius, row - radius, column + radius, row + radius), fill=colour)
    file = io.BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()
