"""The mirror: from the flat wrap as seen to the page, and the only place where anything is mirrored."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.frame import Frame

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]  # left, bottom, right, top

_COS_SIN = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


def mirrored(turn_deg: int, scale: tuple[float, float] = (1.0, 1.0), shift: tuple[float, float] = (0.0, 0.0)) -> Array:
    """Return the 3x3 matrix (column vectors) from flat mm as seen to page mm: mirror, turn, shift, scale.

    Args:
        turn_deg: 0, 90, 180 or 270, anticlockwise, after mirroring left to right.
        scale: measured / asked length of the printer along the page's x and y; lengths on the page are divided by it.
        shift: added after the turn, before the scale correction, in mm.
    """
    cos, sin = _COS_SIN[turn_deg]
    turned = np.array([[-cos, -sin, shift[0]], [-sin, cos, shift[1]], [0.0, 0.0, 1.0]])
    return np.asarray(np.diag([1.0 / scale[0], 1.0 / scale[1], 1.0]) @ turned)


def seen_through(to_page: Array, width_mm: float) -> Array:
    """Return the matrix to a page looked at through the paper: what `mirrored` mirrored reads the right way again.

    Args:
        to_page: 3x3 matrix, flat mm as seen -> page mm, mirroring.
        width_mm: of the page.
    """
    return np.asarray(np.array([[-1.0, 0.0, width_mm], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]) @ to_page)


def image_box(box: Box, ppi: float) -> Box:
    """Return the box (page mm) grown to whole pixels, counted from the page's lower left corner."""
    pitch = 25.4 / ppi
    left, bottom = (math.floor(value / pitch + 1e-6) for value in box[:2])
    right, top = (math.ceil(value / pitch - 1e-6) for value in box[2:])
    return (left * pitch, bottom * pitch, max(right, left + 1) * pitch, max(top, bottom + 1) * pitch)


def image_frame(to_page: Array, box: Box, ppi: float) -> Frame:
    """Return the frame of the pixels that cover `box`.

    Args:
        to_page: 3x3 matrix, flat mm as seen -> page mm.
        box: a box that `image_box` returned.
        ppi: pixels per inch of the page.
    """
    pitch = 25.4 / ppi
    width = round((box[2] - box[0]) / pitch)
    height = round((box[3] - box[1]) / pitch)
    return Frame(width, height, _to_flat(to_page, (box[0], box[3]), pitch))


def page_frame(to_page: Array, size: tuple[float, float], ppi: float) -> Frame:
    """Return the frame of a raster of the whole page: whole pixels, counted from the page's upper left corner.

    A page that is no whole number of pixels is rounded to the nearest; lengths on it keep their size.
    """
    pitch = 25.4 / ppi
    width, height = (max(1, round(length / pitch)) for length in size)
    return Frame(width, height, _to_flat(to_page, (0.0, size[1]), pitch))


def page_pixels(size: tuple[float, float], ppi: float) -> Array:
    """Return the 3x3 matrix page mm -> continuous pixels (y down) of `page_frame`'s raster."""
    pitch = 25.4 / ppi
    return np.array([[1.0 / pitch, 0.0, 0.0], [0.0, -1.0 / pitch, size[1] / pitch], [0.0, 0.0, 1.0]])


def _to_flat(to_page: Array, corner: tuple[float, float], pitch: float) -> Array:
    """Return continuous pixels (y down, from `corner`, the upper left in page mm) -> flat mm."""
    pixels = np.array([[pitch, 0.0, corner[0]], [0.0, -pitch, corner[1]], [0.0, 0.0, 1.0]])
    return np.asarray(np.linalg.inv(to_page) @ pixels)
