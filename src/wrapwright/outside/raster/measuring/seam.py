"""Whether the two sides of the join have the same colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab, srgb
from wrapwright.core.colour.coating import on_coating
from wrapwright.core.colour.difference import ciede2000
from wrapwright.outside.raster.measuring.stack import PITCH_MM, Stack, to_pixels
from wrapwright.outside.raster.measuring.subjects import Eye

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

# Places in the first two millimetres, from the end on; the first four are those of the first millimetre.
INSIDE_MM = np.arange(8) * 0.25 + 0.125
FIRST_MM = 4
STEP = 2  # places: a soft edge of the art takes up to two pixels
NEAR_ROWS = 2
SHOWS = 3.0  # CIEDE2000 from which a difference is seen
GRAZE_MM = 3.0  # so long an edge of the art that all but follows the join may lie in it
SOFT = 0.05  # the least share of both colours in a pixel that an edge runs through
WHOLE = 0.999  # the least share of a pixel inside the wrap's border for its colour to be taken


def seam_de95(wrap: FlatWrap, stack: Stack, eye: Eye) -> float | None:
    """Return the 95th percentile over the band's height of CIEDE2000 across the join, as seen on the piece.

    On the left the first millimetre of the left end, on the right the last before one whole turn: the overlap,
    which repeats the left end, does not count. At each height the means of the two millimetres are compared and,
    since art that goes on across the join is no fault, the two pixels that touch there; the lesser difference
    counts, and none where the art itself takes as large a step within two millimetres, nor where for at most three
    millimetres an edge of flat art crosses the join at so small an angle that it lies between two pixels there.
    None with a handle or on a flat blank, where there is no join.
    """
    if wrap.gap_mm > 0.0 or wrap.plate is not None:
        return None
    rows = max(1, round(wrap.height_mm / PITCH_MM))
    up = ((np.arange(rows) + 0.5) * wrap.height_mm / rows)[:, None]
    turn = 360.0 * INSIDE_MM / (wrap.lower_mm + wrap.theta * up)
    left, right = (_light(wrap, stack, eye, (side, up)) for side in (turn, 360.0 - turn))
    touching = np.maximum(_beyond(left[:, 0], right[:, 0]), _beyond(right[:, 0], left[:, 0]))
    means = _difference(left[:, :FIRST_MM].mean(axis=1), right[:, :FIRST_MM].mean(axis=1))
    own = np.maximum(_own_step(left), _own_step(right))
    across = np.where(touching > own, np.minimum(means, touching), 0.0)
    across[_grazed(across > SHOWS, _crossed(left, right) | _crossed(right, left))] = 0.0
    return float(np.percentile(across, 95.0))


def _crossed(side: Array, other: Array) -> Flags:
    """Return in which rows the pixel at the join mixes the plain colour of its own side with that of the other one.

    In linear light an edge that runs through a pixel mixes the two colours by their areas.
    """
    here, own, beyond = side[:, 0], side[:, STEP], other[:, 0]
    plain = (_difference(own, side[:, 2 * STEP]) < SHOWS) & (_difference(beyond, other[:, STEP]) < SHOWS)
    way = beyond - own
    length = np.maximum((way * way).sum(axis=-1), 1e-9)
    share = ((here - own) * way).sum(axis=-1) / length
    off = here - own - share[:, None] * way
    near = (off * off).sum(axis=-1) <= 0.01 * length
    return np.asarray(plain & near & (share >= SOFT) & (share <= 1.0 - SOFT))


def _grazed(shows: Flags, crossed: Flags) -> Flags:
    """Return the rows of the short runs of `shows` in or next to which an edge is seen to cross the join."""
    found = np.zeros_like(shows)
    turns = np.flatnonzero(np.diff(np.concatenate([[False], shows, [False]]).astype(np.int8)))
    for start, end in turns.reshape(-1, 2):
        short = (end - start) * PITCH_MM <= GRAZE_MM
        found[start:end] = short and bool(crossed[max(0, start - 1) : end + 1].any())
    return found


def _beyond(one: Array, other: Array) -> Array:
    """Return how far the colours of one side lie outside what the other shows there, a row up and down included."""
    rows = _with_near(other, 1)
    return _difference(one, np.clip(one, rows.min(axis=0), rows.max(axis=0)))


def _own_step(side: Array) -> Array:
    """Return for each row the largest step that the art takes beside the join, there and half a millimetre round."""
    steps = _difference(side[:, :-STEP], side[:, STEP:]).max(axis=1)
    return np.asarray(_with_near(steps, NEAR_ROWS).max(axis=0))


def _with_near(rows: Array, count: int) -> Array:
    """Return the rows and their neighbours up to `count` away, stacked on a new first axis."""
    margin = [(count, count)] + [(0, 0)] * (rows.ndim - 1)
    framed = np.pad(rows, margin, mode="edge")
    return np.stack([framed[at : at + len(rows)] for at in range(2 * count + 1)])


def _difference(one: Array, other: Array) -> Array:
    return ciede2000(lab.of_srgb(srgb.encode(one)), lab.of_srgb(srgb.encode(other)))


def _light(wrap: FlatWrap, stack: Stack, eye: Eye, place: tuple[Array, Array]) -> Array:
    """Return linear sRGB on the coating, shape (rows, places, 3), of the pixels at turns and heights."""
    x, y = wrap.to_flat(*place)
    to_px = to_pixels(stack.frame)
    column = np.floor(to_px[0, 0] * x + to_px[0, 2]).astype(np.int64)
    row = np.floor(to_px[1, 1] * y + to_px[1, 2]).astype(np.int64)
    high, wide = stack.codes.shape[:2]
    at = (np.clip(row, 0, high - 1), np.clip(column, 0, wide - 1))
    light = srgb.decode(on_coating(eye.seen(stack.codes[at]) / 255.0, eye.coating))
    # A pixel that the wrap's end cuts is mixed with the paper's white: its neighbour further in stands for it.
    cut = stack.region[at] < WHOLE
    for here in reversed(range(len(INSIDE_MM) - 1)):
        light[:, here] = np.where(cut[:, here, None], light[:, here + 1], light[:, here])
    return light
