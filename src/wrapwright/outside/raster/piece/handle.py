"""The handle: a bent tube from the wall and back, thicker where it joins."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.outside.raster.piece.camera import Camera
from wrapwright.outside.raster.piece.solid import Solid
from wrapwright.outside.raster.piece.trace import FAR, Seen

Floats = NDArray[np.float32]
_BALLS = 150
_WIDER = 1.3  # across the handle against its thickness


@dataclass(frozen=True, eq=False)
class Tube:
    """The handle's middle line in the plane through the axis: radius rho and height z, with its half-thickness."""

    rho: NDArray[np.float64]
    z: NDArray[np.float64]
    half: NDArray[np.float64]
    ends: tuple[tuple[float, float], tuple[float, float]]

    @property
    def reach(self) -> float:
        """How far it stands out from the axis, mm."""
        return float((self.rho + self.half).max())


def tube_of(solid: Solid, gap_mm: float) -> Tube:
    """Return the handle that leaves `gap_mm` of the wall bare. Its shape is drawn, not measured."""
    low, high = solid.wall
    wall = high - low
    half_tall = min(0.33 * wall, 48.0)
    middle = low + 0.52 * wall
    ends = (solid.at_wall(middle - half_tall), solid.at_wall(middle + half_tall))
    reach = float(np.clip(0.95 * half_tall, 16.0, 34.0))
    # Evenly spaced along a rounded D (a superellipse with exponent 2.7).
    angle = np.linspace(-0.5 * math.pi, 0.5 * math.pi, 721)
    out = np.abs(np.cos(angle)) ** (2 / 2.7)
    up = np.sign(angle) * np.abs(np.sin(angle)) ** (2 / 2.7)
    share = 0.5 * (up + 1.0)
    rho = ends[0][1] * (1 - share) + ends[1][1] * share - 1.0 + reach * out
    z = ends[0][0] * (1 - share) + ends[1][0] * share
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(rho), np.diff(z)))])
    even = np.linspace(0.0, along[-1], _BALLS)
    thin = float(np.clip(0.2 * gap_mm, 2.2, 5.2))
    thick = max(thin, min(0.42 * gap_mm / _WIDER, 1.8 * thin))
    near = np.minimum(even, along[-1] - even)
    half = thin + (thick - thin) * np.exp(-((near / (1.6 * thin)) ** 2))
    return Tube(np.interp(even, along, rho), np.interp(even, along, z), half, ends)


@dataclass(frozen=True, eq=False)
class Lug:
    """What each pixel sees of the handle: depth Y (FAR: nothing) and the unit normal, shape (h, w) and (h, w, 3)."""

    depth: Floats
    normal: Floats


def trace_handle(tube: Tube, camera: Camera, seen: Seen, rel: float) -> Lug:
    """Return the handle as seen when it stands `rel` rad to the right of the side that faces us."""
    sin, tan = math.sin(camera.elevation), math.tan(camera.elevation)
    cos = math.cos(camera.elevation)
    depth = np.full(seen.depth.shape, FAR)
    which = np.zeros(seen.depth.shape, np.int16)
    along = np.array([-math.cos(rel), math.sin(rel) / _WIDER, -tan])  # change of (rho, across, z) per mm of Y
    square = float(along @ along)
    for i in range(_BALLS):
        rho, z, half = float(tube.rho[i]), float(tube.z[i]), float(tube.half[i])
        u, rise = rho * math.sin(rel), z * cos - rho * math.cos(rel) * sin
        span = half * _WIDER + 2.0 / camera.scale
        cols = slice(*np.searchsorted(seen.x, [u - span, u + span]))
        rows = slice(*np.searchsorted(-seen.v, [-rise - span, -rise + span]))
        x, up = seen.x[cols][None, :], (seen.v[rows] / cos)[:, None]
        p_rho, p_across, p_z = x * math.sin(rel) - rho, x * math.cos(rel) / _WIDER, up - z
        b = p_rho * along[0] + p_across * along[1] + p_z * along[2]
        root = b * b - square * (p_rho * p_rho + p_across * p_across + p_z * p_z - half * half)
        here = (-b - np.sqrt(np.maximum(root, 0))) / square
        new = (root > 0) & (here < depth[rows, cols])
        np.copyto(depth[rows, cols], here.astype(np.float32), where=new)
        which[rows, cols][new] = i
    return Lug(depth, _normals(tube, camera, seen, rel, (depth, which)))


def _normals(tube: Tube, camera: Camera, seen: Seen, rel: float, hits: tuple[Floats, NDArray[np.int16]]) -> Floats:
    """Return unit normals: away from the nearest point of the middle line, so that the balls do not show."""
    depth, which = hits
    normal = np.zeros((*depth.shape, 3), np.float32)
    rows, cols = np.nonzero(depth < FAR)
    y, ball = depth[rows, cols], which[rows, cols]
    rho = seen.x[cols] * math.sin(rel) - y * math.cos(rel) - tube.rho[ball]
    across = (seen.x[cols] * math.cos(rel) + y * math.sin(rel)) / _WIDER
    z = seen.v[rows] / math.cos(camera.elevation) - y * math.tan(camera.elevation) - tube.z[ball]
    step = np.stack([np.gradient(tube.rho), np.gradient(tube.z)], axis=1)
    step /= np.linalg.norm(step, axis=1, keepdims=True)
    on = rho * step[ball, 0] + z * step[ball, 1]
    rho, z, across = rho - on * step[ball, 0], z - on * step[ball, 1], across / _WIDER
    found = np.stack(
        [rho * math.sin(rel) + across * math.cos(rel), -rho * math.cos(rel) + across * math.sin(rel), z], 1
    )
    normal[rows, cols] = found / np.maximum(np.linalg.norm(found, axis=1, keepdims=True), 1e-6)
    return normal
