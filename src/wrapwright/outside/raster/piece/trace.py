"""Which part of the body each pixel sees: parallel rays against a solid of revolution."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.outside.raster.piece.camera import Camera
from wrapwright.outside.raster.piece.solid import Solid

Floats = NDArray[np.float32]
FAR = np.float32(1e9)
_NOT_LEVEL = 0.98


@dataclass(frozen=True, eq=False)
class Seen:
    """What each pixel sees of the body.

    Attributes:
        depth: Y of the point in mm, FAR where there is nothing. Shape (height, width).
        s: distance along the meridian in mm, for the outside.
        inside: whether the point lies on the inside of the piece.
        x: X in mm of each column, shape (width,).
        v: Z cos + Y sin in mm of each row, shape (height,).
    """

    depth: Floats
    s: Floats
    inside: NDArray[np.bool_]
    x: Floats
    v: Floats


def trace(solid: Solid, camera: Camera) -> Seen:
    """Return what every pixel sees; the same for every side, because the body is round.

    Ray and cone: on a stretch whose radius is A + B Y along the ray, x^2 + Y^2 = (A + B Y)^2, so
    Y = (A B -+ sqrt(A^2 - (1 - B^2) x^2)) / (1 - B^2).
    """
    x = ((np.arange(camera.width_px) + 0.5 - camera.centre_x) / camera.scale).astype(np.float32)
    v = ((camera.centre_y - np.arange(camera.height_px) - 0.5) / camera.scale).astype(np.float32)
    shape = (camera.height_px, camera.width_px)
    seen = Seen(np.full(shape, FAR), np.zeros(shape, np.float32), np.zeros(shape, np.bool_), x, v)
    for i in range(len(solid.s) - 1):
        _stretch(seen, camera, (solid.z[i], solid.r[i], solid.s[i]), (solid.z[i + 1], solid.r[i + 1], solid.s[i + 1]))
    _inside(seen, camera, solid)
    return seen


def _rows(seen: Seen, camera: Camera, low: float, high: float, radius: float) -> slice:
    """Return the rows that a ring between two heights can touch."""
    sin, cos = math.sin(camera.elevation), math.cos(camera.elevation)
    top, bottom = high * cos + radius * sin, low * cos - radius * sin
    first = int(np.searchsorted(-seen.v, -top)) - 1
    last = int(np.searchsorted(-seen.v, -bottom)) + 1
    return slice(max(0, first), min(len(seen.v), last))


def _stretch(seen: Seen, camera: Camera, start: tuple[float, float, float], end: tuple[float, float, float]) -> None:
    """Enter one stretch of the outside where it is nearer than what is there."""
    (z0, r0, s0), (z1, r1, s1) = start, end
    rows = _rows(seen, camera, min(z0, z1), max(z0, z1), max(r0, r1))
    tan = math.tan(camera.elevation)
    slope = (r1 - r0) / (z1 - z0)
    b = -slope * tan
    a = (r0 + slope * (seen.v[rows] / math.cos(camera.elevation) - z0)).astype(np.float32)[:, None]
    root = a * a - np.float32(1.0 - b * b) * (seen.x * seen.x)[None, :]
    hit = root >= 0
    root = np.sqrt(np.where(hit, root, 0))
    signs = (-1.0,) if abs(b) < _NOT_LEVEL and z1 > z0 else (-1.0, 1.0)
    level = (seen.v[rows] / math.cos(camera.elevation))[:, None]
    for sign in signs:
        depth = (a * b + np.float32(sign) * root) / np.float32(1.0 - b * b if abs(1.0 - b * b) > 1e-9 else 1e-9)
        share = (level - depth * np.float32(tan) - np.float32(z0)) / np.float32(z1 - z0)
        new = hit & (share >= -1e-4) & (share <= 1.0001) & (a + b * depth > 0) & (depth < seen.depth[rows])
        np.copyto(seen.depth[rows], depth.astype(np.float32), where=new)
        np.copyto(seen.s[rows], (s0 + share * (s1 - s0)).astype(np.float32), where=new)


def _inside(seen: Seen, camera: Camera, solid: Solid) -> None:
    """Enter the far half of the inside and the floor where nothing lies before them."""
    tan, cos = math.tan(camera.elevation), math.cos(camera.elevation)
    z, r = solid.inner_z, solid.inner_r
    for z0, r0, z1, r1 in zip(z[1:], r[1:], z[:-1], r[:-1], strict=True):
        rows = _rows(seen, camera, z0, z1, max(r0, r1))
        slope = (r1 - r0) / (z1 - z0)
        b = -slope * tan
        level = (seen.v[rows] / cos)[:, None]
        a = (r0 + slope * (level - z0)).astype(np.float32)
        root = a * a - np.float32(1.0 - b * b) * (seen.x * seen.x)[None, :]
        depth = ((a * b + np.sqrt(np.maximum(root, 0))) / (1.0 - b * b)).astype(np.float32)
        height = level - depth * np.float32(tan)
        new = (root >= 0) & (height >= z0 - 1e-3) & (height <= z1 + 1e-3) & (depth < seen.depth[rows])
        _enter_inside(seen, rows, new, depth, height)
    rows = _rows(seen, camera, z[-1], z[-1], r[-1])
    depth = np.broadcast_to(
        ((seen.v[rows] - z[-1] * cos) / math.sin(camera.elevation))[:, None], (len(seen.v[rows]), len(seen.x))
    ).astype(np.float32)
    new = (depth**2 + (seen.x * seen.x)[None, :] < r[-1] ** 2) & (depth < seen.depth[rows])
    _enter_inside(seen, rows, new, depth, np.full_like(depth, z[-1]))


def _enter_inside(seen: Seen, rows: slice, new: NDArray[np.bool_], depth: Floats, height: Floats) -> None:
    """Enter points of the inside; their `s` holds the height."""
    np.copyto(seen.depth[rows], depth, where=new)
    np.copyto(seen.s[rows], height.astype(np.float32), where=new)
    seen.inside[rows] |= new
