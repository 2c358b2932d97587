"""Dense sampling of paths: how far a bent outline lies from its true image."""

from __future__ import annotations

import numpy as np

from wrapwright.core.design.path import Path
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import bent


def sampled(points: np.ndarray, steps: int) -> np.ndarray:
    curves = np.stack([points[0:-1:3], points[1::3], points[2::3], points[3::3]], axis=1)
    t = np.linspace(0.0, 1.0, steps + 1)
    weights = np.stack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3], axis=1)
    return np.einsum("sk,nkd->nsd", weights, curves).reshape(-1, 2)


def distance_to_line(points: np.ndarray, line: np.ndarray) -> float:
    """Return the largest distance of points from a polyline."""
    start, step = line[:-1], np.diff(line, axis=0)
    length = np.maximum((step**2).sum(axis=1), 1e-30)
    worst = 0.0
    for point in points:
        share = np.clip(((point - start) * step).sum(axis=1) / length, 0.0, 1.0)
        worst = max(worst, float(np.sqrt(((start + share[:, None] * step - point) ** 2).sum(axis=1)).min()))
    return worst


def both_ways(path: Path, placement: Placement) -> float:
    """Return the largest distance between the bent path and its true image, each dense on the other.

    400 samples a curve: with 1600 the worst of 180 random chains changed by 0.01 micrometres only.
    """
    worst = 0.0
    for before, after in zip(path.subpaths, bent(path, placement).subpaths, strict=True):
        true = placement.to_flat(sampled(before.points, 400))
        made = sampled(after.points, 400)
        worst = max(worst, distance_to_line(true[::29], made), distance_to_line(made[::29], true))
    return worst
