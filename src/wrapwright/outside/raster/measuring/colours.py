"""What the printer cannot reach, what the coating cannot show, and how much ink lies in one place."""

from __future__ import annotations

import math
from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import lab
from wrapwright.core.colour.difference import ciede2000
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.outside.raster.measuring.pictures import codes_of
from wrapwright.outside.raster.measuring.stack import PITCH_MM, Piece, Stack
from wrapwright.outside.raster.measuring.subjects import Eye, some

GAMUT_DE = 5.0
HIGH = 0.99  # of a copy's colours: the percentile taken for its worst and its lightest
OPAQUE = 0.99
ENOUGH = 4000  # pixels, for a percentile of lightness


def shown_of(piece: Piece) -> NDArray[np.int64]:
    """Return flat indices of the pixels where at least half of what a copy prints at most is still seen."""
    most = float(piece.cover.max())
    return some(piece.visible >= 0.5 * most) if most > 0.0 else np.empty(0, dtype=np.int64)


def out_of_gamut(
    pieces: Sequence[tuple[Piece, NDArray[np.int64]]], stack: Stack, eye: Eye
) -> list[tuple[float, float] | None]:  # fmt: skip
    """Return for each piece, with its visible pixels, the share of them off by CIEDE2000 > 5 and the 99th percentile.

    None where nothing is visible, and for all when someone else converts to the printer's colours.
    """
    if eye.off is None or not pieces:
        return [None] * len(pieces)
    # One question for all: making the printer's tables ready costs more than asking them.
    codes = [codes_of(piece, stack)[shown] for piece, shown in pieces]
    off = eye.off(np.concatenate(codes)[None])[0]
    ends = np.cumsum([len(one) for one in codes])
    return [
        (float(np.mean(one > GAMUT_DE)), float(np.quantile(one, HIGH))) if len(one) else None
        for one in np.split(off, ends[:-1])
    ]


def lighter_de(
    piece: Piece, shown: NDArray[np.int64], stack: Stack, space: WorkingSpace, eye: Eye
) -> float | None:  # fmt: skip
    """Return the CIEDE2000 between the coating and the lightest colour a copy asks for, 0 when not lighter.

    An opaque copy asks for its own colours, whatever its soft border mixes with; a translucent one for the mixture.
    """
    if len(shown) == 0:
        return None
    shown = shown[:: max(1, len(shown) // ENOUGH)]
    if float(piece.cover.max()) >= OPAQUE:
        share = piece.cover.reshape(-1)[shown][:, None]
        over_white = space.tone.decode(piece.own.reshape(-1, 3)[shown])
        own = np.float32(1.0) + (over_white - np.float32(1.0)) / share
        asked = space.lab(space.tone.encode(own))
    else:
        asked = space.lab(codes_of(piece, stack)[shown])
    order = np.argsort(asked[:, 0], kind="stable")
    lightest = asked[order[math.ceil(HIGH * len(order)) - 1]]
    coating = lab.of_srgb(np.asarray(eye.coating))
    return float(ciede2000(coating, lightest)) if lightest[0] > coating[0] else 0.0


def most_ink(stack: Stack, eye: Eye) -> float | None:
    """Return the largest total of ink in percent, each the mean over a square of 1 mm; None without ink channels."""
    if eye.ink is None:
        return None
    total = np.ascontiguousarray(eye.ink(stack.codes), dtype=np.float32)
    side = round(1.0 / PITCH_MM)
    return float(cv2.blur(total, (side, side), borderType=cv2.BORDER_REPLICATE).max())
