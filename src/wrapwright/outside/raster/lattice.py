"""Where each pixel of a raster looks, worked out on a coarse lattice and enlarged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.frame import Frame

Array = NDArray[np.float64]
Map = NDArray[np.float32]
Look = Callable[[Array, Array], tuple[Array, Array]]

STEP = 16


@dataclass(frozen=True)
class Part:
    """A part of a raster: rows and columns, each from and up to (not including)."""

    rows: tuple[int, int]
    columns: tuple[int, int]

    @property
    def shape(self) -> tuple[int, int]:
        """Return rows and columns."""
        return self.rows[1] - self.rows[0], self.columns[1] - self.columns[0]


def looked_at(frame: Frame, part: Part, look: Look, jump: float) -> tuple[Map, Map]:
    """Return what `look` says of the flat mm under each pixel's centre: two float32 arrays of the part's shape.

    `look` is asked at nodes 16 pixels apart, at places fixed to the raster, so that every part of it says the same
    of a pixel; between them it is interpolated. Where neighbouring nodes differ by more than `jump` (behind a
    cone's apex) every pixel is asked.
    """
    first_row, last_row = part.rows[0] // STEP - 1, (part.rows[1] - 1) // STEP + 2
    first_column, last_column = part.columns[0] // STEP - 1, (part.columns[1] - 1) // STEP + 2
    u, v = _ask(frame, look, np.arange(first_row, last_row) * STEP, np.arange(first_column, last_column) * STEP, 8.0)
    if any(_torn(one, jump) for one in (u, v)):
        u, v = _ask(frame, look, np.arange(*part.rows), np.arange(*part.columns), 0.5)
        return u.astype(np.float32), v.astype(np.float32)
    shift_row, shift_column = part.rows[0] - first_row * STEP, part.columns[0] - first_column * STEP
    high, wide = part.shape
    rows, columns = slice(shift_row, shift_row + high), slice(shift_column, shift_column + wide)
    return _enlarged(u)[rows, columns], _enlarged(v)[rows, columns]


def _ask(frame: Frame, look: Look, rows: NDArray[Any], columns: NDArray[Any], offset: float) -> tuple[Array, Array]:
    m = frame.to_flat
    px, py = (columns + offset)[None, :], (rows + offset)[:, None]
    return look(m[0, 0] * px + m[0, 1] * py + m[0, 2], m[1, 0] * px + m[1, 1] * py + m[1, 2])


def _torn(values: Array, jump: float) -> bool:
    return any(values.shape[axis] > 1 and float(np.abs(np.diff(values, axis=axis)).max()) > jump for axis in (0, 1))


def _enlarged(nodes: Array) -> Map:
    # Node i lies at 16 i + 8, the middle of the 16 pixels that this enlargement makes of it.
    size = (nodes.shape[1] * STEP, nodes.shape[0] * STEP)
    return np.asarray(cv2.resize(nodes.astype(np.float32), size, interpolation=cv2.INTER_LINEAR))
