"""Lengths on a rendered page, by plain counting of its ink."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy import ndimage
from tests.whole.product import MM_PER_INCH, Product


@dataclass(frozen=True)
class Blot:
    """One dark shape, in page millimetres: its centre of ink, its area, and its box's size."""

    x: float
    y: float
    area: float
    width: float
    height: float
    longest: float  # ink along the fullest row


def blots_of(pixels: np.ndarray, corner: tuple[float, float], dpi: int) -> list[Blot]:
    """Dark shapes that do not touch, largest first; a pixel's greyness is the share of it that is covered."""
    pitch = MM_PER_INCH / dpi
    ink = 1.0 - pixels / 255.0
    labels, _ = ndimage.label(ink > 0.02)
    found = []
    for index, box in enumerate(ndimage.find_objects(labels), 1):
        share = np.where(labels[box] == index, ink[box], 0.0)
        row, column = ndimage.center_of_mass(share)
        x = corner[0] + (box[1].start + column + 0.5) * pitch
        y = corner[1] - (box[0].start + row + 0.5) * pitch
        rows = share.sum(axis=1)
        sides = (share.shape[1] * pitch, share.shape[0] * pitch)
        found.append(Blot(x, y, float(share.sum()) * pitch * pitch, *sides, float(rows.max()) * pitch))
    return sorted(found, key=lambda one: -one.area)


def blots(product: Product, program: str, dpi: int) -> list[Blot]:
    """Dark shapes within the piece."""
    return blots_of(*product.crop(program, dpi, margin_mm=0.5), dpi)


def beside(product: Product, program: str, dpi: int) -> list[Blot]:
    """Dark shapes beside the piece: the page without it and 2.5 mm round it."""
    pixels, pitch, piece = np.array(product.page(program, dpi)), MM_PER_INCH / dpi, product.piece
    top = product.sheet["height_mm"] - piece["y_mm"] - piece["height_mm"] - 2.5
    rows = slice(max(0, round(top / pitch)), round((top + piece["height_mm"] + 5) / pitch))
    left = piece["x_mm"] - 2.5
    pixels[rows, max(0, round(left / pitch)) : round((left + piece["width_mm"] + 5) / pitch)] = 255
    return blots_of(pixels, (0.0, product.sheet["height_mm"]), dpi)


def between(one: Blot, other: Blot) -> float:
    """Distance of two centres."""
    return math.hypot(one.x - other.x, one.y - other.y)
