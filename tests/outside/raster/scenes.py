"""Wraps, pictures and draw lists for the raster's tests."""

from __future__ import annotations

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, Item, PlacedOutline, PlacedPicture
from wrapwright.core.design.frame import Frame, seen_frame
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Pixels

STRAIGHT = FlatWrap(120.0, 120.0, 50.0, overlap_mm=6.0)
TAPERED = FlatWrap(100.0, 130.0, 50.0, overlap_mm=6.0)
INVERTED = FlatWrap(130.0, 100.0, 50.0, overlap_mm=6.0)
WRAPS = {"straight": STRAIGHT, "tapered": TAPERED, "inverted": INVERTED}


def smooth(width: int = 240, height: int = 160, *, alpha: bool = False) -> np.ndarray:
    """Return a picture of slow waves, uint8 (h, w, 3 or 4): resampling cannot hide behind its detail."""
    x, y = np.meshgrid((np.arange(width) + 0.5) / width, (np.arange(height) + 0.5) / height)
    red = 0.5 + 0.4 * np.sin(5 * x + 2 * y)
    green = 0.5 + 0.4 * np.cos(4 * y - 3 * x)
    blue = 0.2 + 0.7 * x * (1 - y)
    bands = [red, green, blue] + ([0.5 + 0.5 * np.sin(6 * x + 5 * y)] if alpha else [])
    return np.rint(np.stack(bands, axis=-1) * 255).astype(np.uint8)


def pixels(array: np.ndarray, name: str = "p", **facts: object) -> Pixels:
    """Return normalised pixels; four bands have alpha."""
    return Pixels(name, array, "rgb", array.shape[-1] == 4, **facts)


def as_float(array: np.ndarray) -> np.ndarray:
    """Return the picture as the naive renderer wants it."""
    values = array.astype(np.float64) / np.iinfo(array.dtype).max
    return values if values.shape[-1] == 4 else np.concatenate([values, np.ones((*values.shape[:2], 1))], axis=-1)


def listed(wrap: FlatWrap, *items: AnyItem, bleed: float = 2.0) -> DrawList:
    """Return a draw list."""
    return DrawList(wrap, bleed, tuple(items))


def frame_of(wrap: FlatWrap, ppi: float = 40.0, *, mirror: bool = False) -> Frame:
    """Return a frame over the wrap's bleed and a little more; mirrored left to right on request."""
    left, bottom, right, top = bleed_outline(wrap, 2.0).box()
    made = seen_frame((left - 3, bottom - 3, right + 3, top + 3), ppi)
    if not mirror:
        return made
    flip = np.array([[-1.0, 0.0, float(made.width_px)], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
    return Frame(made.width_px, made.height_px, made.to_flat @ flip)


def picture(wrap: FlatWrap, *, turn: float = 180.0, lay: str = "level", width: float = 60.0, **more: object):
    """Return a placed picture of 3:2, in the band's middle."""
    facts: dict = {"width_mm": width, "height_mm": width / 1.5, "window_mm": (width, width / 1.5)}
    place = Placement(wrap, turn, wrap.height_mm / 2, lay, float(more.pop("turn_deg", 0.0)), int(more.pop("laps", 0)))
    return PlacedPicture(element=0, copy=0, picture="p", placement=place, **(facts | more))


def fill(wrap: FlatWrap, colour: tuple[float, float, float], **more: object) -> Item:
    """Return a fill of the whole wrap."""
    return PlacedOutline(element=0, copy=0, path=bleed_outline(wrap, 2.0), colour=colour, **more)


def with_ink(renderer) -> tuple[np.ndarray, np.ndarray]:
    """Return a renderer's colours and the share that was drawn on, strip by strip."""
    parts = [renderer.strip_with_ink(*ends) for ends in renderer.strips()]
    colours, ink = zip(*parts, strict=True)
    return np.concatenate(colours), np.concatenate(ink)
