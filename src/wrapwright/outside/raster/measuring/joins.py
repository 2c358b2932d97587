"""How much a join would show at each turn round the wrap."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab
from wrapwright.core.colour.difference import ciede2000

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]  # left, bottom, right, top

REACH_MM = 1.5  # a join off by as much still looks whole where nothing changes so far to its left and right
PERCENTILE = 90.0


def contrast_round(wrap: FlatWrap, colours: NDArray[np.uint8], box: Box, places: int) -> Array:
    """Return the local contrast along the upright at `places` turns evenly spread over the whole turn, CIEDE2000.

    At each height the colours 1.5 mm to the left and to the right are compared with the one between them; the 90th
    percentile over the band's height of the larger difference counts, so that an edge which crosses the join at one
    place weighs less than one that runs along it.

    Args:
        wrap: the whole wrap.
        colours: it as seen, sRGB (h, w, 3).
        box: of that picture in flat mm.
        places: how many turns.
    """
    up = np.linspace(0.5, wrap.height_mm - 0.5, max(2, round(wrap.height_mm)))[:, None]
    turn = ((np.arange(places) + 0.5) * 360.0 / places)[None, :]
    step = 360.0 * REACH_MM / wrap.turn_length(wrap.height_mm / 2.0)
    left, here, right = (_seen(wrap, colours, box, turn + side * step, up) for side in (-1.0, 0.0, 1.0))
    shows: Array = np.percentile(np.maximum(ciede2000(left, here), ciede2000(here, right)), PERCENTILE, axis=0)
    return shows


def _seen(wrap: FlatWrap, colours: NDArray[np.uint8], box: Box, turn: Array, up: Array) -> Array:
    """Return CIELAB of the pixels at turns and heights; turns go on round."""
    x, y = wrap.to_flat(turn % 360.0, up)
    high, wide = colours.shape[:2]
    column = np.clip(((x - box[0]) / (box[2] - box[0]) * wide).astype(np.int64), 0, wide - 1)
    row = np.clip(((box[3] - y) / (box[3] - box[1]) * high).astype(np.int64), 0, high - 1)
    return lab.of_srgb(colours[row, column] / 255.0)
