"""What pictures leave bare, how white they are, and whether their background prints as a faint square."""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab
from wrapwright.core.colour.difference import ciede2000
from wrapwright.core.design.kinds.ground import LAPS, lap_motion
from wrapwright.core.design.path import Path, joined
from wrapwright.outside.raster.edges import coverage, filled
from wrapwright.outside.raster.measuring.stack import Piece, Stack, cropped, to_pixels
from wrapwright.outside.raster.measuring.subjects import Bytes, Eye, some

WHOLE = 0.999  # a pixel that a border does not cut
COVERED = 0.99
WHITE_DE = 1.0
NEARLY_WHITE = 235  # a colour with a lower code in any channel is further from white than WHITE_DE
FRAME_PX = 2
ART_DE = 10.0  # what is further from white than this is no background

_WHITE = np.array([100.0, 0.0, 0.0])


def inside_border(piece: Piece, outline: Path, wrap: FlatWrap, stack: Stack, *, laps: bool) -> NDArray[np.bool_]:
    """Return the pixels of the piece's part that lie wholly inside its border, at each lap where it shows."""
    if laps and wrap.plate is None:
        outline = joined(outline.times(lap_motion(wrap, lap)) if lap else outline for lap in LAPS)
    high, wide = piece.part.shape
    to_px = to_pixels(cropped(stack.frame, piece.part))
    return np.asarray(coverage(filled(outline, to_px), (0, high), (0, wide)) >= WHOLE)


def bare_share(piece: Piece, border: NDArray[np.bool_], stack: Stack) -> float | None:
    """Return the share of its border's area on the wrap where all cover, its own and that below, is under 0.99."""
    area = border & _on_wrap(piece, stack)
    if not area.any():
        return None
    free = (1.0 - piece.cover[area]) * (1.0 - piece.below_cover[area])
    return float(np.mean(free > 1.0 - COVERED))


def white_share(piece: Piece, shown: NDArray[np.int64], stack: Stack, eye: Eye) -> float | None:
    """Return the share of its visible pixels (flat indices) that print within CIEDE2000 1 of paper white."""
    if len(shown) == 0:
        return None
    seen = eye.seen(codes_of(piece, stack)[shown][None])[0]
    near = seen[seen.min(axis=-1) >= NEARLY_WHITE]
    return float(np.count_nonzero(_from_white(near) <= WHITE_DE) / len(shown))


def frame_de(piece: Piece, border: NDArray[np.bool_], stack: Stack, eye: Eye) -> float | None:
    """Return the mean CIEDE2000 from paper white of its outermost two rows and columns, as printed on white.

    What its alpha leaves bare counts as white. Art that reaches the border, off by more than 10, is left out where
    at least half of it is something else. None where no edge of it lies on the wrap, and where another element
    lies below.
    """
    area = border & _on_wrap(piece, stack)
    # Beyond the part there is more of it only where the wrap ends: no edge there.
    inner = cv2.erode(border.astype(np.uint8), np.ones((3, 3), np.uint8), iterations=FRAME_PX) != 0
    ring = area & ~inner
    if not ring.any() or bool((piece.below_cover[area] > 1.0 - COVERED).any()):
        return None
    off = _from_white(eye.seen(piece.own.reshape(-1, 3)[some(ring)][None])[0])
    ground = off[off <= ART_DE]
    return float(np.mean(ground if 2 * len(ground) >= len(off) else off))


def codes_of(piece: Piece, stack: Stack) -> Bytes:
    """Return the composed working codes of a piece's part, uint8 (n, 3)."""
    rows, columns = piece.part.rows, piece.part.columns
    return stack.codes[rows[0] : rows[1], columns[0] : columns[1]].reshape(-1, 3)


def _from_white(seen: Bytes) -> NDArray[Any]:
    """Return the CIEDE2000 from paper white of sRGB, uint8 (n, 3)."""
    return ciede2000(lab.of_srgb(seen / 255.0), _WHITE)


def _on_wrap(piece: Piece, stack: Stack) -> NDArray[np.bool_]:
    return np.asarray(piece.cut(stack.region) >= WHOLE)
