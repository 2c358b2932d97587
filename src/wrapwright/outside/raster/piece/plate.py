"""A flat blank as pressed: its print on its coating, cut to its outline, on a soft shadow."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.frame import Frame
from wrapwright.outside.raster.edges import coverage, filled
from wrapwright.outside.raster.piece.dye import FlatArt, encoded, linear

Floats = NDArray[np.float32]

PLATE_PX = (760, 540)  # of the proof's picture
_ROOM = 0.035  # left free round it for the shadow, as a share of the picture's longer side
_FINER = 2


def plate_view(wrap: FlatWrap, art: FlatArt, *, coating: Rgb, size_px: tuple[int, int]) -> NDArray[np.uint8]:
    """Return a flat blank seen straight from above, (h, w, 4) sRGB with straight alpha, no larger than `size_px`.

    Colour as on any piece: linear light of the print relative to white, times that of the coating.
    """
    frame = plate_frame(wrap, size_px)
    cover = _cover(wrap, frame)
    light = _light(art, frame) * linear(np.array(coating, np.float32))
    height, width = cover.shape
    room = _ROOM * max(width, height)
    soft = cv2.GaussianBlur(np.roll(cover, round(0.25 * room), axis=0), (0, 0), 0.35 * room)
    shadow = np.maximum(0.38 * soft, 0.5 * cv2.GaussianBlur(cover, (0, 0), 0.9)).astype(np.float32)
    alpha = cover + shadow * (1 - cover)
    colour = light * (cover / np.maximum(alpha, 1e-6))[..., None]
    return np.dstack([encoded(colour), np.rint(alpha * 255).astype(np.uint8)])


def plate_frame(wrap: FlatWrap, size_px: tuple[int, int]) -> Frame:
    """Return the frame of the picture: the blank's box with room round it, as large as fits `size_px`."""
    wide, high = wrap.lower_mm, wrap.height_mm
    room = _ROOM * max(wide, high) / (1.0 - 2.0 * _ROOM)
    pitch = max((wide + 2.0 * room) / size_px[0], (high + 2.0 * room) / size_px[1])
    columns, rows = (max(1, int((side + 2.0 * room) / pitch)) for side in (wide, high))
    left, top = -columns * pitch / 2.0, high / 2.0 + rows * pitch / 2.0
    return Frame(columns, rows, np.array([[pitch, 0.0, left], [0.0, -pitch, top], [0.0, 0.0, 1.0]]))


def _cover(wrap: FlatWrap, frame: Frame) -> Floats:
    edges = filled(trim_outline(wrap), np.asarray(np.linalg.inv(frame.to_flat), np.float64))
    return coverage(edges, (0, frame.height_px), (0, frame.width_px))


def _light(art: FlatArt, frame: Frame) -> Floats:
    """Return the art's linear light under each pixel of the frame, bare paper white."""
    table = linear(np.arange(256, dtype=np.float32) / np.float32(255))
    light: Floats = table[art.pixels[..., :3]]
    if art.pixels.shape[2] == 4:
        alpha = (art.pixels[..., 3:] / np.float32(255)).astype(np.float32)
        light = light * alpha + (1 - alpha)
    # Sampled finer and averaged, since the art may have many more pixels than the picture.
    fine = frame.to_flat @ np.diag([1.0 / _FINER, 1.0 / _FINER, 1.0])
    to_art = np.linalg.inv(art.frame.to_flat) @ fine
    columns = (np.arange(frame.width_px * _FINER) + 0.5).astype(np.float64)
    rows = (np.arange(frame.height_px * _FINER) + 0.5).astype(np.float64)
    x = np.broadcast_to(to_art[0, 0] * columns + to_art[0, 2] - 0.5, (len(rows), len(columns))).astype(np.float32)
    y = np.broadcast_to((to_art[1, 1] * rows + to_art[1, 2] - 0.5)[:, None], x.shape).astype(np.float32)
    found = cv2.remap(light, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    size = (frame.width_px, frame.height_px)
    return np.asarray(cv2.resize(found, size, interpolation=cv2.INTER_AREA), np.float32)
