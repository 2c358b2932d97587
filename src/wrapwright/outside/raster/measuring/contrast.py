"""How lettering stands out from what lies behind and round it."""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.coating import on_coating
from wrapwright.core.colour.contrast import ratio
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.outside.raster.canvas import rounded
from wrapwright.outside.raster.measuring.stack import Piece, Stack
from wrapwright.outside.raster.measuring.subjects import Eye

LEAST_SHARE = 0.05  # a background counts when it holds for so much of the border

_SQUARE = np.ones((3, 3), dtype=np.uint8)


def text_contrast(piece: Piece, stack: Stack, space: WorkingSpace, eye: Eye) -> float | None:
    """Return the WCAG ratio of a text as printed on the coating, the lowest that holds for 5 % of its border.

    With a line round the glyphs each place counts by the better of glyph against line and glyph against ground.
    None when nothing of it shows.
    """
    solids = [item for item in piece.items if isinstance(item, PlacedOutline)]
    glyphs = [item for item in solids if item.stroke_mm == 0.0]
    lines = [item for item in solids if item.stroke_mm > 0.0]
    at = _border(piece, stack)
    if not glyphs or not at.any():
        return None
    ground = piece.below[at]
    behind = _printed(ground, space, eye)
    letters = _printed(_over(glyphs[0], ground, space), space, eye)
    ratios = ratio(letters, behind)
    if lines:
        ratios = np.maximum(ratios, ratio(letters, _printed(_over(lines[0], ground, space), space, eye)))
    return float(np.quantile(ratios, LEAST_SHARE, method="inverted_cdf"))


def _border(piece: Piece, stack: Stack) -> NDArray[np.bool_]:
    """Return the pixels on both sides of the shape's border that lie on the wrap."""
    most = float(piece.cover.max())
    shape = piece.cover >= max(0.5 * most, 1e-3)
    inside = shape.astype(np.uint8)
    border = (cv2.dilate(inside, _SQUARE) != 0) & (cv2.erode(inside, _SQUARE) == 0)
    return np.asarray(border & (piece.cut(stack.region) >= 0.999))


def _over(item: PlacedOutline, ground: NDArray[np.float32], space: WorkingSpace) -> NDArray[np.float32]:
    code = np.rint(np.clip(space.colours(np.asarray(item.colour)), 0.0, 1.0) * 255.0).astype(np.uint8)
    share = np.float32(item.opacity * item.copy_opacity)
    return np.asarray(space.tone.decode(code) * share + ground * (np.float32(1.0) - share))


def _printed(light: NDArray[np.float32], space: WorkingSpace, eye: Eye) -> NDArray[Any]:
    """Return encoded sRGB (n, 3) on the coating of linear working light (n, 3)."""
    codes = rounded(space.tone.encode(light))[None]
    return on_coating(eye.seen(codes)[0] / 255.0, eye.coating)
