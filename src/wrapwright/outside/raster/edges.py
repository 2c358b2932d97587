"""Outlines as edges, and how much of each pixel they cover."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, Subpath

Array = NDArray[np.float64]
Cover = NDArray[np.float32]

ROWS = 16  # scan lines a pixel row; along each of them coverage is exact
GRAIN = 4096.0
FLAT_PX = 0.02  # a flattened curve strays no further than this from the true one


@dataclass(frozen=True, eq=False)
class Edges:
    """The straight edges of filled shapes in pixels.

    Attributes:
        top, bottom: shape (n, 2), the ends with the smaller and the larger y.
        sense: +1 for an edge that ran down, -1 for one that ran up.
        even_odd: the fill rule.
        box: left, top, right, bottom of all points.
    """

    top: Array
    bottom: Array
    sense: NDArray[np.int64]
    even_odd: bool
    box: tuple[float, float, float, float]

    def meets(self, rows: tuple[int, int], columns: tuple[int, int]) -> bool:
        """Return whether their box touches a part of the raster."""
        left, top, right, bottom = self.box
        return bottom > rows[0] and top < rows[1] and right > columns[0] and left < columns[1]


def filled(path: Path, to_px: Array, *, even_odd: bool = False) -> Edges:
    """Return the edges of a filled path in flat mm under a 3x3 matrix to pixels; open subpaths are closed."""
    return _edges([_flattened(sub, to_px) for sub in path.subpaths], even_odd=even_odd)


def stroked(path: Path, to_px: Array, width_mm: float) -> Edges:
    """Return the edges of a line of the given width along a path, with round joins and caps."""
    radius = width_mm / 2.0 * math.sqrt(abs(float(np.linalg.det(to_px[:2, :2]))))
    pieces: list[Array] = []
    for sub in path.subpaths:
        points = _flattened(sub, to_px)
        if sub.closed:
            points = np.vstack([points, points[:1]])
        pieces.extend(_bars(points, radius))
        pieces.extend(_discs(points, radius))
    return _edges(pieces, even_odd=False)


def _bars(points: Array, radius: float) -> Iterable[Array]:
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    keep = length > 0.0
    start, end = points[:-1][keep], points[1:][keep]
    across = np.stack([-step[keep, 1], step[keep, 0]], axis=1) / length[keep, None] * radius
    yield from np.stack([start + across, end + across, end - across, start - across], axis=1)


def _discs(points: Array, radius: float) -> Iterable[Array]:
    count = max(8, math.ceil(math.pi / math.acos(max(0.0, 1.0 - FLAT_PX / max(radius, FLAT_PX)))))
    at = -2.0 * math.pi * np.arange(count) / count
    # As large a polygon as the circle: what is lost at the sides comes back at the corners.
    grown = radius * math.sqrt(2.0 * math.pi / count / math.sin(2.0 * math.pi / count))
    ring = grown * np.stack([np.cos(at), np.sin(at)], axis=1)
    yield from points[:, None, :] + ring


def _flattened(sub: Subpath, to_px: Array) -> Array:
    """Return the subpath as a polyline in pixels; n pieces a curve so that its sagitta stays under FLAT_PX."""
    points = sub.points @ to_px[:2, :2].T + to_px[:2, 2]
    curves = np.stack([points[0:-1:3], points[1::3], points[2::3], points[3::3]], axis=1)
    bend = np.maximum(
        np.linalg.norm(curves[:, 0] - 2 * curves[:, 1] + curves[:, 2], axis=1),
        np.linalg.norm(curves[:, 1] - 2 * curves[:, 2] + curves[:, 3], axis=1),
    )
    # A chord of a curve with |second derivative| <= 6 bend strays by at most that / (8 n^2).
    counts = np.maximum(1, np.ceil(np.sqrt(0.75 * bend / FLAT_PX))).astype(np.int64)
    which = np.repeat(np.arange(len(curves)), counts)
    rank = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts) + 1
    t = (rank / counts[which])[:, None]
    s, chosen = 1.0 - t, curves[which]
    inner = s**3 * chosen[:, 0] + 3 * s**2 * t * chosen[:, 1] + 3 * s * t**2 * chosen[:, 2] + t**3 * chosen[:, 3]
    return np.vstack([points[:1], inner])


def _edges(polygons: list[Array], *, even_odd: bool) -> Edges:
    polygons = [one for one in polygons if len(one) > 1]
    if not polygons:
        nothing = np.empty((0, 2))
        return Edges(nothing, nothing, np.empty(0, dtype=np.int64), even_odd, (0.0, 0.0, 0.0, 0.0))
    start = np.concatenate(polygons)
    after = np.cumsum([len(one) for one in polygons])
    end = np.roll(start, -1, axis=0)
    end[after - 1] = start[np.concatenate([[0], after[:-1]])]  # each polygon closes on its own first point
    low, high = start.min(axis=0), start.max(axis=0)
    down = start[:, 1] < end[:, 1]
    keep = start[:, 1] != end[:, 1]
    top, bottom = np.where(down[:, None], start, end)[keep], np.where(down[:, None], end, start)[keep]
    box = (float(low[0]), float(low[1]), float(high[0]), float(high[1]))
    return Edges(top, bottom, np.where(down, 1, -1)[keep], even_odd, box)


def reach_across(edges: Edges, rows: tuple[int, int]) -> tuple[float, float]:
    """Return the least and the largest x of the edges within the rows (0, 0 when there are none)."""
    chosen = (edges.bottom[:, 1] > rows[0]) & (edges.top[:, 1] < rows[1])
    top, bottom = edges.top[chosen], edges.bottom[chosen]
    if len(top) == 0:
        return (0.0, 0.0)
    step = (bottom - top) / (bottom[:, 1:] - top[:, 1:])
    ends = [top[:, 0] + (np.clip(y, top[:, 1], bottom[:, 1]) - top[:, 1]) * step[:, 0] for y in rows]
    return float(np.minimum(*ends).min()), float(np.maximum(*ends).max())


def coverage(edges: Edges, rows: tuple[int, int], columns: tuple[int, int]) -> Cover:
    """Return the covered share 0..1 of each pixel, float32 (rows, columns) of a part of the raster.

    Exact along x; along y the mean of 16 scan lines, so a level border is off by at most 1/32.
    """
    high, wide = rows[1] - rows[0], columns[1] - columns[0]
    lines, x, sense = _crossings(edges, rows)
    if len(lines) == 0:
        return np.zeros((high, wide), dtype=np.float32)
    order = np.lexsort((x, lines))
    lines, x = lines[order], np.clip(x[order], float(columns[0]), float(columns[1]))
    winding = np.cumsum(sense[order])
    inside = winding % 2 != 0 if edges.even_odd else winding != 0
    before = np.concatenate([[False], inside[:-1]])
    change = inside != before
    sign = np.where(inside[change], 1.0, -1.0) / ROWS
    row, at = lines[change] // ROWS, x[change]
    whole = np.minimum(np.floor(at).astype(np.int64), columns[1] - 1)
    # In whole 4096ths the sums below are exact, so that every part of the raster says the same of a pixel.
    rest = np.rint((at - whole) * GRAIN) / GRAIN
    cell = whole - columns[0]
    # Only columns next to a crossing are summed; those between keep the value of the one to their left.
    touched = np.zeros(wide + 1, dtype=np.bool_)
    touched[0] = touched[cell] = touched[cell + 1] = True
    slot = np.cumsum(touched) - 1
    stride = int(slot[-1]) + 1
    gain = np.bincount(row * stride + slot[cell], sign * (1.0 - rest), high * stride)
    gain += np.bincount(row * stride + slot[cell + 1], sign * rest, high * stride)
    share = np.clip(np.cumsum(gain.reshape(high, stride), axis=1), 0.0, 1.0).astype(np.float32)
    return share[:, :wide] if stride == wide + 1 else np.take(share, slot[:wide], axis=1)


def _crossings(edges: Edges, rows: tuple[int, int]) -> tuple[NDArray[np.int64], Array, NDArray[np.int64]]:
    """Return scan line (from 0 at the part's top), x and sense of every crossing."""
    chosen = (edges.bottom[:, 1] > rows[0]) & (edges.top[:, 1] < rows[1])
    top, bottom, sense = edges.top[chosen], edges.bottom[chosen], edges.sense[chosen]
    last = (rows[1] - rows[0]) * ROWS
    first_line = np.clip(np.ceil((top[:, 1] - rows[0]) * ROWS - 0.5), 0, last).astype(np.int64)
    end_line = np.clip(np.ceil((bottom[:, 1] - rows[0]) * ROWS - 0.5), 0, last).astype(np.int64)
    counts = np.maximum(end_line - first_line, 0)
    which = np.repeat(np.arange(len(counts)), counts)
    lines = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts) + first_line[which]
    y = (lines + 0.5) / ROWS + rows[0]
    slope = (bottom[:, 0] - top[:, 0]) / (bottom[:, 1] - top[:, 1])
    return lines, top[which, 0] + (y - top[which, 1]) * slope[which], sense[which]
