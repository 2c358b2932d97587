"""The finished piece from one side or several: body, print, handle, light and shadow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.outside.raster.piece.camera import Camera, camera_for
from wrapwright.outside.raster.piece.dye import FlatArt, Skin, encoded, linear, look_up, unrolled
from wrapwright.outside.raster.piece.handle import Lug, Tube, trace_handle, tube_of
from wrapwright.outside.raster.piece.light import shading
from wrapwright.outside.raster.piece.solid import Solid, solid_of
from wrapwright.outside.raster.piece.trace import FAR, Seen, trace

Floats = NDArray[np.float32]
_FINER, _LESS_FINE, _LARGE_PX = 3, 2, 450  # sub-pixels each way, fewer when the picture is large
_SEAM_MM = 0.55  # half-width of the soft line, so that it fades out within the 3 mm of the flap's step


@dataclass(frozen=True)
class Piece:
    """What is drawn.

    Attributes:
        profile: readings (wall position mm, girth mm), lowest first: two for a straight or tapered wall.
        wrap: the flat wrap that went round it.
        band_from_mm: wall position of the band's lower edge.
        coating: encoded sRGB of the bare coated surface, 0..1.
        handle: (angle round the blank in degrees, bare width in mm), or None.
    """

    profile: tuple[tuple[float, float], ...]
    wrap: FlatWrap
    band_from_mm: float
    coating: Rgb = (1.0, 1.0, 1.0)
    handle: tuple[float, float] | None = None


@dataclass(frozen=True, eq=False)
class _Scene:
    """What all sides share."""

    piece: Piece
    solid: Solid
    tube: Tube | None
    camera: Camera
    fine: Camera
    seen: Seen
    skin: Skin


def piece_camera(piece: Piece, size_px: tuple[int, int]) -> Camera:
    """Return the camera by which `piece_views` draws pictures of `size_px` (width, height)."""
    solid = solid_of(piece.profile)
    tube = tube_of(solid, piece.handle[1]) if piece.handle else None
    return camera_for(solid, size_px, reach_mm=tube.reach if tube else 0.0)


def piece_view(piece: Piece, art: FlatArt, *, at_deg: float, size_px: tuple[int, int]) -> NDArray[np.uint8]:
    """Return the piece as seen with the side `at_deg` facing us: (h, w, 4) sRGB with straight alpha."""
    return piece_views(piece, art, at_deg=(at_deg,), size_px=size_px)[0]


def piece_views(
    piece: Piece, art: FlatArt, *, at_deg: Sequence[float], size_px: tuple[int, int]
) -> list[NDArray[np.uint8]]:
    """Return one picture for each angle, all at the same scale, (h, w, 4) sRGB with straight alpha.

    Colour: linear light of the print relative to white, times that of the coating, channel by channel (an
    approximation: dye is transparent and white is no ink). Light and gloss are drawn, not measured.
    """
    solid = solid_of(piece.profile)
    tube = tube_of(solid, piece.handle[1]) if piece.handle else None
    camera = camera_for(solid, size_px, reach_mm=tube.reach if tube else 0.0)
    fine = camera.times(_FINER if max(size_px) <= _LARGE_PX else _LESS_FINE)
    skin = unrolled(art, piece.wrap, fine.scale)
    scene = _Scene(piece, solid, tube, camera, fine, trace(solid, fine), skin)
    base = _base(scene)
    return [_side(scene, base, angle) for angle in at_deg]


def snug(views: Sequence[NDArray[np.uint8]]) -> list[NDArray[np.uint8]]:
    """Return the pictures cut by one rectangle round what is in any of them, the axis kept in the middle."""
    seen = np.maximum.reduce([view[..., 3] for view in views]) > 3
    rows, cols = np.flatnonzero(seen.any(axis=1)), np.flatnonzero(seen.any(axis=0))
    if not len(rows):
        return list(views)
    side = min(cols[0], seen.shape[1] - 1 - cols[-1])
    return [view[rows[0] : rows[-1] + 1, side : seen.shape[1] - side] for view in views]


@dataclass(frozen=True, eq=False)
class _Base:
    """The body before it has a side: where it is, its light, and where its outside looks at."""

    at: NDArray[np.intp]  # flat index of its pixels
    factor: Floats
    gloss: Floats
    round_deg: Floats  # angle from the side that faces us, to our right
    up: Floats  # above the band's lower edge, mm
    inside: NDArray[np.bool_]


def _base(scene: _Scene) -> _Base:
    seen, solid, fine = scene.seen, scene.solid, scene.fine
    rows, cols = np.nonzero(seen.depth < FAR)
    x, y, s = seen.x[cols], seen.depth[rows, cols], seen.s[rows, cols]
    inside = seen.inside[rows, cols]
    dz, dr = np.gradient(solid.z, solid.s), np.gradient(solid.r, solid.s)
    steep = np.hypot(dz, dr)
    out = np.interp(s, solid.s, dz / steep).astype(np.float32)
    rise = np.interp(s, solid.s, -dr / steep).astype(np.float32)
    reach = np.maximum(np.hypot(x, y), 1e-6)
    normal = np.stack([out * x / reach, out * y / reach, rise], axis=1)
    factor, gloss = shading(normal, fine.elevation)
    # Inside: dark, a little lighter towards the mouth and on the side the key light reaches.
    height = (s - solid.inner_z[-1]) / max(float(solid.inner_z[0] - solid.inner_z[-1]), 1e-6)
    dark = 0.05 + 0.30 * np.clip(height, 0, 1) ** 3 * (0.7 + 0.3 * x / reach)
    factor = np.where(inside, dark, factor * _standing(s, solid)).astype(np.float32)
    gloss = np.where(inside, 0, gloss).astype(np.float32)
    up = (s - np.float32(scene.piece.band_from_mm)).astype(np.float32)
    return _Base(
        rows * seen.depth.shape[1] + cols, factor, gloss, np.degrees(np.arctan2(x, -y)).astype(np.float32), up, inside
    )


def _standing(s: Floats, solid: Solid) -> Floats:
    """Return how much light is left near the table."""
    above = np.maximum(s - solid.s[0], 0)
    return np.asarray(1.0 - 0.30 * np.exp(-above / 2.2), np.float32)


def _side(scene: _Scene, base: _Base, at_deg: float) -> NDArray[np.uint8]:
    """Return one finished picture."""
    light = _body_light(scene, base, at_deg)
    shape = (scene.fine.height_px, scene.fine.width_px)
    canvas = np.zeros((*shape, 4), np.float32)
    canvas.reshape(-1, 4)[base.at] = light
    if scene.tube is not None and scene.piece.handle is not None:
        lug = trace_handle(scene.tube, scene.fine, scene.seen, math.radians(scene.piece.handle[0] - at_deg))
        _put_handle(scene, lug, canvas)
    small = cv2.resize(canvas, (scene.camera.width_px, scene.camera.height_px), interpolation=cv2.INTER_AREA)
    return _over_shadow(scene, np.asarray(small, np.float32))


def _body_light(scene: _Scene, base: _Base, at_deg: float) -> Floats:
    """Return the body's linear light and full cover, shape (n, 4)."""
    piece, wrap = scene.piece, scene.piece.wrap
    coating = linear(np.array(piece.coating, np.float32))
    turn = base.round_deg + np.float32(at_deg - wrap.seam_deg)
    off = (turn + 180.0) % 360.0 - 180.0
    around = off * ((wrap.lower_mm + wrap.theta * base.up) / 360.0)  # mm from the seam, to the right
    printed = ~base.inside & (base.up >= 0) & (base.up <= wrap.height_mm)
    if wrap.gap_mm > 0:
        printed &= np.abs(around) >= wrap.gap_mm / 2.0
    light = np.empty((len(turn), 4), np.float32)
    light[:] = np.append(coating, 1.0)
    shown = np.flatnonzero(printed)
    light[shown, :3] *= look_up(scene.skin, wrap, turn[shown], base.up[shown])
    light[base.inside, :3] = 0.5 * light[base.inside, :3] + 0.25
    factor = base.factor.copy()
    if wrap.gap_mm == 0:
        # The flap lies on the seam's left: a soft dark line at its foot.
        near = np.flatnonzero(printed & (np.abs(around) < 1.5))
        factor[near] *= 1.0 - 0.20 * np.exp(-((around[near] / _SEAM_MM) ** 2))
    if scene.tube is not None and piece.handle is not None:
        factor *= _under_handle(scene, base, at_deg)
    light[:, :3] *= factor[:, None]
    light[:, :3] += base.gloss[:, None]
    return light


def _under_handle(scene: _Scene, base: _Base, at_deg: float) -> Floats:
    """Return how much light is left on the wall close to where the handle joins."""
    tube, piece = scene.tube, scene.piece
    if tube is None or piece.handle is None:
        return np.ones_like(base.factor)
    angle, gap = piece.handle
    off = (base.round_deg + np.float32(at_deg - angle) + 180.0) % 360.0 - 180.0
    across = np.radians(off) * scene.solid.radius
    height = np.interp(base.up + piece.band_from_mm, scene.solid.s, scene.solid.z)
    shade = np.zeros_like(base.factor)
    for z, _ in tube.ends:
        near = (across**2 + (height - z) ** 2) / (0.55 * gap) ** 2
        shade = np.maximum(shade, np.exp(-near)).astype(np.float32)
    return np.where(base.inside, 1.0, 1.0 - 0.28 * shade).astype(np.float32)


def _put_handle(scene: _Scene, lug: Lug, canvas: Floats) -> None:
    """Draw the handle where it lies before the body."""
    seen, solid, fine = scene.seen, scene.solid, scene.fine
    rows, cols = np.nonzero(lug.depth < seen.depth)
    depth = lug.depth[rows, cols]
    z = seen.v[rows] / math.cos(fine.elevation) - depth * math.tan(fine.elevation)
    # What lies within the wall (the ends of the tube) is not seen through the mouth.
    wall = np.interp(z, solid.z[: np.argmax(solid.z) + 1], solid.r[: np.argmax(solid.z) + 1])
    out = np.hypot(seen.x[cols], depth) > wall - 0.3
    rows, cols = rows[out], cols[out]
    factor, gloss = shading(lug.normal[rows, cols], fine.elevation)
    coating = linear(np.array(scene.piece.coating, np.float32))
    canvas[rows, cols, :3] = coating[None, :] * factor[:, None] + gloss[:, None]
    canvas[rows, cols, 3] = 1.0


def _over_shadow(scene: _Scene, small: Floats) -> NDArray[np.uint8]:
    """Return the picture laid over its soft shadow on the table, encoded."""
    camera = scene.camera
    height, radius = scene.solid.foot
    radius += 2.0
    x = ((np.arange(camera.width_px) + 0.5 - camera.centre_x) / camera.scale)[None, :]
    rise = ((camera.centre_y - np.arange(camera.height_px) - 0.5) / camera.scale)[:, None]
    y = (rise - height * math.cos(camera.elevation)) / math.sin(camera.elevation)
    out = np.hypot((x - 0.05 * radius) / radius, y / radius)
    soft = 0.42 * np.exp(-((np.maximum(out - 0.86, 0) / 0.22) ** 2)).astype(np.float32)
    # Fade before the picture's edge, so that no cut shadow shows.
    room = np.minimum(camera.width_px / 2.0 - np.abs(x * camera.scale), 12.0) / 12.0
    low = np.minimum(camera.height_px - np.arange(camera.height_px), 8.0)[:, None] / 8.0
    soft = soft * np.clip(room, 0, 1) * np.clip(low, 0, 1)
    # A hair of an outline, so that a white piece stands out from white paper.
    near = cv2.GaussianBlur(small[..., 3], (0, 0), 0.9)
    soft = np.maximum(soft, 0.55 * near)
    alpha = small[..., 3] + soft * (1 - small[..., 3])
    colour = small[..., :3] / np.maximum(alpha, 1e-6)[..., None]
    return np.dstack([encoded(colour), np.rint(alpha * 255).astype(np.uint8)])
