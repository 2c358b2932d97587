"""Tiles: one cell of the pattern drawn once with its neighbours' reach, then repeated by the remainder."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.drawlist import PlacedPicture
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import rectangle
from wrapwright.outside.raster.edges import Edges, coverage, filled
from wrapwright.outside.raster.lattice import Part, looked_at
from wrapwright.outside.raster.layers import Painted
from wrapwright.outside.raster.pictures import parted, sampled
from wrapwright.outside.raster.sources import Source

MARGIN = 4  # pixels of the neighbours kept round the cell for the bicubic filter


@dataclass(frozen=True, eq=False)
class Cell:
    """One cell: uint16 (h, w, 4) multiplied by alpha, MARGIN included; pixels per mm across and up."""

    array: NDArray[np.uint16]
    across: float
    up: float


@dataclass(frozen=True, eq=False)
class TileLayer:
    """A picture repeated over the wrap."""

    frame: Frame
    item: PlacedPicture
    cell: Cell
    limits: tuple[Edges, ...]
    opacity: float

    def painted(self, part: Part) -> Painted:
        """Return the pattern's colours and alpha."""
        place = self.item.placement
        a, b = looked_at(self.frame, part, place.to_local, place.wrap.turn_length(place.up_mm) / 2.0)
        u, v = in_cell(self.item, self.cell, a, b)
        return parted(sampled(self.cell.array, u.astype(np.float32), v.astype(np.float32)))


def in_cell(item: PlacedPicture, cell: Cell, a: NDArray[Any], b: NDArray[Any]) -> tuple[NDArray[Any], NDArray[Any]]:
    """Return the place in the cell's pixels (y down, centre of the first = 0) of local mm."""
    step_a, step_b, shift = item.repeat or (item.width_mm, item.height_mm, 0.0)
    row = np.floor(b / step_b + 0.5)
    off = a - shift * step_a * row
    return (
        MARGIN - 0.5 + (off / step_a + 0.5 - np.floor(off / step_a + 0.5)) * step_a * cell.across,
        MARGIN - 0.5 + (0.5 - (b / step_b - row)) * step_b * cell.up,
    )


def cell_of(item: PlacedPicture, source: Source, px_per_mm: float) -> Cell:
    """Return the cell: every tile that reaches into it, the one in the middle uppermost, edges meeting without gaps."""
    step_a, step_b, shift = item.repeat or (item.width_mm, item.height_mm, 0.0)
    wide, high = (max(1, math.ceil(step * px_per_mm - 1e-6)) for step in (step_a, step_b))
    across, up = wide / step_a, high / step_b
    shape = (high + 2 * MARGIN, wide + 2 * MARGIN)
    sums = np.zeros((*shape, 4), dtype=np.float32)
    px = (np.arange(shape[1]) + 0.5 - MARGIN) / across - step_a / 2.0
    py = step_b / 2.0 - (np.arange(shape[0]) + 0.5 - MARGIN) / up
    for j, i in _neighbours(item, (step_a, step_b), MARGIN / min(across, up)):
        middle = ((i + j * shift) * step_a, j * step_b)
        _add_tile(sums, item, source, (px - middle[0], py - middle[1]), _to_px(step_a, step_b, (across, up), middle))
    return Cell(np.clip(sums * 65535 + 0.5, 0, 65535).astype(np.uint16), across, up)


def _neighbours(item: PlacedPicture, step: tuple[float, float], margin: float) -> list[tuple[int, int]]:
    """Return row and column of every tile that may reach into the cell, the nearest first."""
    shift = (item.repeat or (0.0, 0.0, 0.0))[2]
    reach = math.hypot(item.width_mm, item.height_mm) / 2.0 + margin
    rows = math.ceil(0.5 + reach / step[1])
    found = []
    for j in range(-rows, rows + 1):
        columns = math.ceil(0.5 + reach / step[0])
        base = -round(j * shift)
        found += [(j, base + i) for i in range(-columns - 1, columns + 2)]
    return sorted(found, key=lambda one: (math.hypot((one[1] + one[0] * shift) * step[0], one[0] * step[1]), one))


def _to_px(
    step_a: float, step_b: float, scale: tuple[float, float], middle: tuple[float, float]
) -> NDArray[np.float64]:
    across, up = scale
    return np.array(
        [
            [across, 0.0, (middle[0] + step_a / 2.0) * across + MARGIN],
            [0.0, -up, (step_b / 2.0 - middle[1]) * up + MARGIN],
            [0.0, 0.0, 1.0],
        ]
    )


def _add_tile(
    sums: NDArray[np.float32], item: PlacedPicture, source: Source, offset: tuple[Any, Any], to_px: NDArray[np.float64]
) -> None:
    angle = math.radians(item.tile_turn_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    half_a, half_b = item.width_mm / 2.0, item.height_mm / 2.0
    turned = np.array([[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]])
    border = filled(rectangle(-half_a, -half_b, half_a, half_b), to_px @ turned)
    high, wide = sums.shape[:2]
    if not border.meets((0, high), (0, wide)):
        return
    cover = coverage(border, (0, high), (0, wide))
    dx, dy = offset[0][None, :], offset[1][:, None]
    a, b = dx * cos - dy * sin, dx * sin + dy * cos
    side = -1.0 if item.flip else 1.0
    u = source.left - 0.5 + (0.5 + side * a / item.width_mm) * source.width
    v = source.top - 0.5 + (0.5 - b / item.height_mm) * source.height
    colours, alpha = parted(sampled(source.array, u.astype(np.float32), v.astype(np.float32)))
    # Tiles that share an edge add up there; where they lie over each other the nearer one stays.
    share = np.minimum(cover if alpha is None else cover * alpha, np.float32(1.0) - sums[..., 3])
    sums[..., :3] += colours / np.float32(65535) * share[..., None]
    sums[..., 3] += share
