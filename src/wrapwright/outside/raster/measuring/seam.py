"""Whether the two sides of the join have the same colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab, srgb
from wrapwright.core.colour.coating import on_coating
from wrapwright.core.colour.difference import ciede2000
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.outside.raster.canvas import rounded
from wrapwright.outside.raster.measuring.stack import PITCH_MM, Stack, to_pixels
from wrapwright.outside.raster.measuring.subjects import Eye

Array = NDArray[np.float64]

# Places in the first millimetre, from the end on.
INSIDE_MM = np.array([0.125, 0.375, 0.625, 0.875])
LEAST_COVER = np.float32(0.25)  # of a pixel that the border cuts, for its colour to be told


def seam_de95(wrap: FlatWrap, stack: Stack, space: WorkingSpace, eye: Eye) -> float | None:
    """Return the 95th percentile over the band's height of CIEDE2000 across the join, as seen on the piece.

    On the left the first millimetre of the left end, on the right the last before one whole turn: the overlap,
    which repeats the left end, does not count. At each height the means of the two millimetres are compared and,
    so that a line of the art which crosses the join or ends near it is no fault, the two pixels that touch there,
    each also with the other side's next above and below; the least of these differences counts. None with a
    handle, where there is no join.
    """
    if wrap.gap_mm > 0.0:
        return None
    rows = max(1, round(wrap.height_mm / PITCH_MM))
    up = ((np.arange(rows) + 0.5) * wrap.height_mm / rows)[:, None]
    turn = 360.0 * INSIDE_MM / (wrap.lower_mm + wrap.theta * up)
    left, right = (_light(wrap, stack, space, eye, place=(side, up)) for side in (turn, 360.0 - turn))
    apart = _difference(left.mean(axis=1), right.mean(axis=1))
    for one, other in ((left, right), (right, left)):
        for rise in (-1, 0, 1):
            beside = other[np.clip(np.arange(rows) + rise, 0, rows - 1), 0]
            apart = np.minimum(apart, _difference(one[:, 0], beside))
    return float(np.percentile(apart, 95.0))


def _difference(one: Array, other: Array) -> Array:
    return ciede2000(lab.of_srgb(srgb.encode(one)), lab.of_srgb(srgb.encode(other)))


def _light(wrap: FlatWrap, stack: Stack, space: WorkingSpace, eye: Eye, *, place: tuple[Array, Array]) -> Array:
    """Return linear sRGB on the coating, shape (rows, places, 3), of the pixels at turns and heights."""
    x, y = wrap.to_flat(*place)
    to_px = to_pixels(stack.frame)
    column = np.floor(to_px[0, 0] * x + to_px[0, 2]).astype(np.int64)
    row = np.floor(to_px[1, 1] * y + to_px[1, 2]).astype(np.int64)
    high, wide = stack.codes.shape[:2]
    at = (np.clip(row, 0, high - 1), np.clip(column, 0, wide - 1))
    # A pixel that the wrap's end cuts is mixed with the paper's white in that measure.
    share = np.maximum(stack.region[at], LEAST_COVER)[..., None]
    whole = np.float32(1.0) + (space.tone.decode(stack.codes[at]) - np.float32(1.0)) / share
    look = eye.seen(rounded(space.tone.encode(whole)))
    return srgb.decode(on_coating(look / 255.0, eye.coating))
