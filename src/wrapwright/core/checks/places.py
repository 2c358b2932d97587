"""How a copy lies on its wrap: room to trim, seam and handle, reach round the blank, keep-outs."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Keepout
from wrapwright.core.checks.facts import KeepoutHit
from wrapwright.core.design.borders import beside_mm, flattened
from wrapwright.core.design.path import Path, windings
from wrapwright.core.design.plates import plate_room

Array = NDArray[np.float64]

STEPS = 8  # straight pieces a curve; a glyph's curve of 5 mm is then true to about 0.03 mm
GRID_MM = 0.5
GRID_MOST = 80


@dataclass(frozen=True)
class Reach:
    """How far a path reaches on the wrap: turns in degrees, heights and distances in mm (see CopyFacts)."""

    first_turn: float
    last_turn: float
    low_mm: float
    high_mm: float
    left_mm: float
    right_mm: float


def sampled(path: Path) -> Array:
    """Return points along a path, shape (n, 2), eight a curve."""
    if not path.subpaths:
        return np.empty((0, 2))
    return np.concatenate([flattened(sub, STEPS) for sub in path.subpaths])


def reach(wrap: FlatWrap, path: Path) -> Reach | None:
    """Return how far a path in flat mm reaches, or None for an empty path.

    left_mm and right_mm are the least distances from the line of the seam, or from the cut at the handle's gap,
    which runs parallel to the handle's line.
    """
    points = sampled(path)
    if not len(points):
        return None
    turn, up = wrap.from_flat(points[:, 0], points[:, 1])
    half = wrap.gap_mm / 2.0
    return Reach(
        float(turn.min()),
        float(turn.max()),
        float(up.min()),
        float(up.max()),
        float(_beside(wrap, turn, up).min()) - half,
        float(_beside(wrap, 360.0 - turn, up).min()) - half,
    )


def room_to_outline(wrap: FlatWrap, path: Path) -> float:
    """Return the least distance in mm of a path from a flat blank's outline, negative beyond it."""
    points = sampled(path)
    if wrap.plate is None or not len(points):
        return 0.0
    return float(plate_room(wrap, wrap.plate, points[:, 0], points[:, 1]).min())


def _beside(wrap: FlatWrap, turn: Array, up: Array) -> Array:
    """Return the distance of points from the upright at turn 0, to its right; far on, the way round instead."""
    along = turn / 360.0 * (wrap.lower_mm + wrap.theta * up)
    return np.where(np.abs(wrap.theta * turn / 360.0) > math.pi / 2.0, along, beside_mm(wrap, turn, up))


def keepout_hits(
    wrap: FlatWrap, path: Path, keepouts: tuple[Keepout, ...], band_from_mm: float
) -> tuple[KeepoutHit, ...]:
    """Return the keep-outs that a filled path (flat mm, as far as it lies inside the trim) prints on."""
    hits = []
    laps = (-360.0, 0.0, 360.0) if wrap.plate is None else (0.0,)
    for one in keepouts:
        area = sum(_printed_mm2(wrap, path, one, one.up_mm - band_from_mm, lap) for lap in laps)
        if area > 0.0:
            hits.append(KeepoutHit(one.why or "keep-out", area))
    return tuple(hits)


def _printed_mm2(wrap: FlatWrap, path: Path, box: Keepout, up_mm: float, lap: float) -> float:
    """Return about how much of a keep-out lies under the filled path: cells of a grid, and at least one cell."""
    low, high = max(0.0, up_mm - box.height_mm / 2.0), min(wrap.height_mm, up_mm + box.height_mm / 2.0)
    if low >= high or not path.subpaths:
        return 0.0
    across, along = _cells(box.width_mm), _cells(high - low)
    a = (np.arange(across) + 0.5) / across - 0.5
    b = low + (np.arange(along) + 0.5) / along * (high - low)
    shift, up = np.meshgrid(a * box.width_mm, b)
    middle = wrap.turn_at(box.at_deg, box.across_mm) + lap
    turn = middle + 360.0 * shift / (wrap.lower_mm + wrap.theta * up)
    x, y = wrap.to_flat(turn, up)
    inside = within(path, np.stack([x.ravel(), y.ravel()], axis=1))
    cell = box.width_mm * (high - low) / (across * along)
    count = int(np.count_nonzero(inside))
    if count == 0 and _enters(wrap, path, (low, high), middle, box.width_mm):
        count = 1
    return count * cell


def _cells(length_mm: float) -> int:
    return max(3, min(GRID_MOST, math.ceil(length_mm / GRID_MM)))


def _enters(wrap: FlatWrap, path: Path, heights: tuple[float, float], turn: float, width_mm: float) -> bool:
    """Return whether a point of the border lies inside the box: shapes thinner than the grid."""
    points = np.concatenate([_close_set(flattened(sub, STEPS), GRID_MM) for sub in path.subpaths])
    at, up = wrap.from_flat(points[:, 0], points[:, 1])
    away = np.abs(at - turn) / 360.0 * (wrap.lower_mm + wrap.theta * up)
    return bool(((up > heights[0]) & (up < heights[1]) & (away < width_mm / 2.0)).any())


def _close_set(corners: Array, step_mm: float) -> Array:
    """Return points along a closed polygon, no farther apart than `step_mm`."""
    closed = np.vstack([corners, corners[:1]])
    lengths = np.hypot(*np.diff(closed, axis=0).T)
    run = np.concatenate([[0.0], np.cumsum(lengths)])
    at = np.union1d(run, np.arange(0.0, run[-1], step_mm))
    return np.stack([np.interp(at, run, closed[:, 0]), np.interp(at, run, closed[:, 1])], axis=1)


def within(path: Path, points: Array) -> NDArray[np.bool_]:
    """Return which points, shape (n, 2), lie inside a path filled by the nonzero rule."""
    winding = np.zeros(len(points), dtype=np.int64)
    left, bottom, right, top = path.box()
    near = (points[:, 0] >= left) & (points[:, 0] <= right) & (points[:, 1] >= bottom) & (points[:, 1] <= top)
    if not near.any():
        return near
    for sub in path.subpaths:
        winding[near] += windings(points[near], flattened(sub, STEPS))
    inside: NDArray[np.bool_] = winding != 0
    return inside
