"""A strip being painted: 16-bit encoded colours, blended in linear light."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.tone import Tone

Cover = NDArray[np.float32]

_NONE, _FULL = np.float32(1 / 1024), np.float32(1 - 1 / 1024)

# An 8 x 8 ordered threshold matrix (Bayer 1973), each of 0..63 once, built by its own doubling rule.
_SEED = np.array([[0, 2], [3, 1]])
_FOUR = np.block([[4 * _SEED, 4 * _SEED + 2], [4 * _SEED + 3, 4 * _SEED + 1]])
_ORDERED = np.block([[4 * _FOUR, 4 * _FOUR + 2], [4 * _FOUR + 3, 4 * _FOUR + 1]])


@dataclass(eq=False)
class Canvas:
    """A strip of colours, uint16 (rows, width, 3), and the share of ink on it, float32 (rows, width), if wanted."""

    colours: NDArray[np.uint16]
    ink: Cover | None
    tone: Tone

    def paint(self, columns: tuple[int, int], colours: NDArray[Any], cover: Cover | None) -> None:
        """Lay colours, uint16 (rows, w, 3) or (3,), over the columns; cover is their share, None = all of it."""
        under = self.colours[:, columns[0] : columns[1]]
        if cover is None:
            under[...] = colours
        else:
            _blend(under, colours, cover, self.tone)
        if self.ink is not None:
            ink = self.ink[:, columns[0] : columns[1]]
            ink[...] = 1.0 if cover is None else ink + cover * (1.0 - ink)

    def copied(self) -> Canvas:
        """Return a canvas of its own with the same colours and ink."""
        return Canvas(self.colours.copy(), None if self.ink is None else self.ink.copy(), self.tone)

    def veil(self, before: Canvas, opacity: float) -> None:
        """Let what was painted since `before` show by its opacity alone, in linear light."""
        share = np.float32(opacity)
        rows, columns = np.nonzero((self.colours != before.colours).any(axis=-1))
        since, under = self.tone.decode(self.colours[rows, columns]), self.tone.decode(before.colours[rows, columns])
        self.colours[rows, columns] = self.tone.encode(since * share + under * (np.float32(1.0) - share))
        if self.ink is not None and before.ink is not None:
            self.ink[...] = before.ink + (self.ink - before.ink) * share


def _blend(under: NDArray[np.uint16], colours: NDArray[Any], cover: Cover, tone: Tone) -> None:
    np.copyto(under, colours, where=(cover >= _FULL)[..., None])
    partly = np.nonzero((cover > _NONE) & (cover < _FULL))
    if len(partly[0]) == 0:
        return
    share = cover[partly][:, None]
    above = tone.decode(colours[partly] if colours.ndim == 3 else colours)
    under[partly] = tone.encode(above * share + tone.decode(under[partly]) * (np.float32(1.0) - share))


def rounded(colours: NDArray[np.uint16]) -> NDArray[np.uint8]:
    """Return the nearest 8-bit codes."""
    return ((colours.astype(np.uint32) + 128) // 257).astype(np.uint8)


def dithered(colours: NDArray[np.uint16], first_row: int) -> NDArray[np.uint8]:
    """Return 8-bit codes whose mean over every 8 x 8 pixels is that of the 16-bit ones; whole codes stay whole."""
    rows, wide = colours.shape[:2]
    offset = (_ORDERED * 257 + 128) // 64
    at_row, at_column = (np.arange(rows) + first_row) % 8, np.arange(wide) % 8
    return ((colours.astype(np.uint32) + offset[np.ix_(at_row, at_column)][..., None].astype(np.uint32)) // 257).astype(
        np.uint8
    )
