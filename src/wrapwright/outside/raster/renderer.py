"""The draw list as pixels: sheet, preview and the checks' samples differ in their arguments alone."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.borders import bleed_outline, flattened
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedGradient, PlacedOutline, PlacedPicture
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import Path, rectangle
from wrapwright.core.design.supplies import Pixels
from wrapwright.core.design.warp import bent
from wrapwright.outside.raster.canvas import Canvas, dithered, rounded
from wrapwright.outside.raster.edges import Cover, Edges, filled, stroked
from wrapwright.outside.raster.lattice import Part
from wrapwright.outside.raster.layers import Layer, OutlineLayer, covered, gradient_layer, reach
from wrapwright.outside.raster.pictures import PictureLayer
from wrapwright.outside.raster.sources import Source, source
from wrapwright.outside.raster.tiles import TileLayer, cell_of

STRIP = 96
_HAIR_MM = 1e-6


@dataclass(frozen=True, eq=False)
class Renderer:
    """Everything ready to be painted; its strips may be asked for from several threads, in any order.

    Attributes:
        width, height: of the raster in pixels.
        layers: bottom to top.
        copies: the layers again, those of one copy together, each with the copy's opacity.
        region: the bleed outline; outside of it the paper stays bare.
        paper: 16-bit working colour of the bare paper.
        space: the working space.
        dither: whether a change of colour is among the layers.
    """

    width: int
    height: int
    layers: tuple[Layer, ...]
    copies: tuple[tuple[float, tuple[Layer, ...]], ...]
    region: Edges
    paper: NDArray[np.uint16]
    space: WorkingSpace
    dither: bool

    def strip(self, y0: int, y1: int) -> NDArray[np.uint8]:
        """Return working RGB, uint8 (y1 - y0, width, 3), of the rows y0 up to (not including) y1."""
        part = Part((y0, y1), (0, self.width))
        straight = self._straight(part)
        return straight if straight is not None else self._finished(self._painted(part, ink=False), y0)

    def strip_with_ink(self, y0: int, y1: int) -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
        """Return the strip and, uint8 (rows, width), the share of each pixel that anything was drawn on (255 = all)."""
        canvas = self._painted(Part((y0, y1), (0, self.width)), ink=True)
        ink = canvas.ink if canvas.ink is not None else np.zeros((y1 - y0, self.width), dtype=np.float32)
        return self._finished(canvas, y0), np.rint(ink * 255).astype(np.uint8)

    def strips(self, rows: int = STRIP) -> Iterator[tuple[int, int]]:
        """Yield the rows (from, up to) of each strip, from the top."""
        for y0 in range(0, self.height, rows):
            yield y0, min(self.height, y0 + rows)

    def whole(self) -> NDArray[np.uint8]:
        """Return working RGB, uint8 (height, width, 3)."""
        out = np.empty((self.height, self.width, 3), dtype=np.uint8)
        for y0, y1 in self.strips():
            out[y0:y1] = self.strip(y0, y1)
        return out

    def _finished(self, canvas: Canvas, y0: int) -> NDArray[np.uint8]:
        return dithered(canvas.colours, y0) if self.dither else rounded(canvas.colours)

    def _painted(self, part: Part, *, ink: bool) -> Canvas:
        colours = np.empty((*part.shape, 3), dtype=np.uint16)
        colours[...] = self.paper
        canvas = Canvas(colours, np.zeros(part.shape, dtype=np.float32) if ink else None, self.space.tone)
        wide = reach((self.region,), part)
        within = None if wide is None else covered((self.region,), wide)
        if wide is None or within is None:
            return canvas
        for opacity, layers in self.copies:
            before = canvas.copied() if opacity < 1.0 else None
            for layer in layers:
                _paint(layer, canvas, wide, within)
            if before is not None:
                canvas.veil(before, opacity)
        return canvas

    def _straight(self, part: Part) -> NDArray[np.uint8] | None:
        """Return the strip when all it shows is one plain picture, bent straight into place; else None."""
        if any(opacity < 1.0 for opacity, _ in self.copies):
            return None
        seen = [layer for layer in self.layers if reach((*layer.limits, self.region), part) is not None]
        if len(seen) != 1 or self.dither or bool((self.paper % 257).any()):
            return None
        layer = seen[0]
        if not isinstance(layer, PictureLayer) or not layer.plain:
            return None
        limits = (*layer.limits, self.region)
        there = reach(limits, part)
        cover = None if there is None else covered(limits, there)
        if there is None or cover is None:
            return None
        out = np.empty((*part.shape, 3), dtype=np.uint8)
        left, right = there.columns
        out[:, :left] = out[:, right:] = (self.paper // 257).astype(np.uint8)
        codes = layer.bent(there)
        self._edged(codes, cover)
        out[:, left:right] = codes
        return out

    def _edged(self, codes: NDArray[np.uint8], cover: Cover) -> None:
        """Lay codes, uint8 (rows, w, 3), over the paper by their cover, in place, where that is not full."""
        columns = np.flatnonzero(cover.min(axis=0) < np.float32(1.0))
        if len(columns) == 0:
            return
        edge = Canvas(np.empty((len(codes), len(columns), 3), dtype=np.uint16), None, self.space.tone)
        edge.colours[...] = self.paper
        edge.paint((0, len(columns)), codes[:, columns].astype(np.uint16) * np.uint16(257), cover[:, columns])
        codes[:, columns] = rounded(edge.colours)


def _paint(layer: Layer, canvas: Canvas, wide: Part, within: Cover) -> None:
    """Lay one layer over a canvas; `within` is the region's cover on the part `wide` of the strip."""
    there = reach(layer.limits, wide)
    if there is None:
        return
    own_cover = covered(layer.limits, there)
    left, right = (column - wide.columns[0] for column in there.columns)
    cover = within[:, left:right] if own_cover is None else np.minimum(own_cover, within[:, left:right])
    if not cover.any():
        return
    own, share = layer.painted(there)
    cover = cover * np.float32(layer.opacity) if share is None else cover * share * np.float32(layer.opacity)
    canvas.paint(there.columns, own, cover)


def prepare(
    draw_list: DrawList, frame: Frame, pixels: Mapping[str, Pixels], *, space: WorkingSpace,
    items: Sequence[int] | None = None, paper: Rgb = (1.0, 1.0, 1.0),
) -> Renderer:  # fmt: skip
    """Return the renderer of a draw list over a frame.

    Args:
        draw_list: what to draw; its colours are encoded sRGB.
        frame: which flat mm the pixels look at (the mirror, if any, is in it).
        pixels: the pictures by id.
        space: the working space.
        items: indices of the items to draw, bottom to top as listed; None = all.
        paper: encoded sRGB of what stays bare.
    """
    cv2.setNumThreads(1)  # strips run side by side; OpenCV's own threads would only get in their way
    maker = _Maker(draw_list, frame, pixels, space)
    chosen = draw_list.items if items is None else [draw_list.items[at] for at in items]
    layers = tuple(maker.layer(item) for item in chosen)
    return Renderer(
        frame.width_px,
        frame.height_px,
        layers,
        _copies(chosen, layers),
        filled(maker.region, maker.to_px),
        maker.codes(paper),
        space,
        any(isinstance(item, PlacedGradient) for item in chosen),
    )


def _copies(items: Sequence[AnyItem], layers: Sequence[Layer]) -> tuple[tuple[float, tuple[Layer, ...]], ...]:
    """Return runs of layers that belong to one copy, each with the copy's opacity."""
    runs = groupby(zip(items, layers, strict=True), key=lambda one: (one[0].element, one[0].copy, one[0].copy_opacity))
    return tuple((opacity, tuple(layer for _, layer in run)) for (_, _, opacity), run in runs)


class _Maker:
    """Makes layers of items; pictures shown several times at one size are made ready once."""

    def __init__(self, draw_list: DrawList, frame: Frame, pixels: Mapping[str, Pixels], space: WorkingSpace) -> None:
        self.wrap, self.frame, self.pixels, self.space = draw_list.wrap, frame, pixels, space
        self.region = bleed_outline(draw_list.wrap, draw_list.bleed_mm)
        self.to_px: NDArray[np.float64] = np.asarray(np.linalg.inv(frame.to_flat), dtype=np.float64)
        self.px_per_mm = math.sqrt(abs(float(np.linalg.det(self.to_px[:2, :2]))))
        self.sources: dict[tuple[Any, ...], Source] = {}

    def codes(self, colour: Rgb) -> NDArray[np.uint16]:
        """Return 8-bit exact 16-bit working codes: the raster's colour is the one a filled path is given."""
        eight = np.rint(np.clip(self.space.colours(np.asarray(colour)), 0.0, 1.0) * 255)
        return np.asarray(eight.astype(np.uint16) * np.uint16(257))

    def layer(self, item: AnyItem) -> Layer:
        limits = tuple(filled(clip, self.to_px) for clip in item.clips if not _same(clip, self.region))
        if isinstance(item, PlacedOutline):
            if item.stroke_mm > 0.0:
                shape = stroked(item.path, self.to_px, item.stroke_mm)
            else:
                shape = filled(item.path, self.to_px, even_odd=item.even_odd)
            own = () if item.stroke_mm <= 0.0 and _same(item.path, self.region) else (shape,)
            return OutlineLayer(self.codes(item.colour), (*own, *limits), item.opacity)
        if isinstance(item, PlacedGradient):
            colours = self.space.colours(np.array([item.start, item.end]))
            return gradient_layer(item, self.wrap, self.frame, self.space.tone, colours=colours, limits=limits)
        return self._picture(item, limits)

    def _picture(self, item: PlacedPicture, limits: tuple[Edges, ...]) -> Layer:
        ready = self._source(item)
        if item.repeat is not None:
            return TileLayer(self.frame, item, cell_of(item, ready, self.px_per_mm), limits, item.opacity)
        wide, high = item.window_mm if item.window_mm != (0.0, 0.0) else (item.width_mm, item.height_mm)
        border = item.mask or rectangle(-wide / 2.0, -high / 2.0, wide / 2.0, high / 2.0)
        own = []
        if item.mask is not None or not self._holds_all(item, wide / 2.0, high / 2.0):
            own.append(filled(bent(border, item.placement), self.to_px))
        if item.mask is not None and (wide < item.width_mm or high < item.height_mm):
            window = rectangle(-wide / 2.0, -high / 2.0, wide / 2.0, high / 2.0)
            own.append(filled(bent(window, item.placement), self.to_px))
        return PictureLayer(self.frame, item, ready, self.space.tone, (*own, *limits), item.opacity)

    def _holds_all(self, item: PlacedPicture, half_a: float, half_b: float) -> bool:
        """Return whether the picture's box reaches as far as the bleed outline everywhere, or further."""
        if item.placement.laps:
            return False
        points = np.concatenate([flattened(sub) for sub in self.region.subpaths])
        a, b = item.placement.to_local(points[:, 0], points[:, 1])
        return bool(np.abs(a).max() <= half_a + _HAIR_MM and np.abs(b).max() <= half_b + _HAIR_MM)

    def _source(self, item: PlacedPicture) -> Source:
        size = (item.width_mm * self.px_per_mm, item.height_mm * self.px_per_mm)
        key = (item.picture, item.crop, size, item.adjust)
        if key not in self.sources:
            found = self.pixels.get(item.picture)
            if found is None:
                raise WrapwrightError(Kind.FAULT, f"the picture {item.picture} was not handed to the renderer.")
            self.sources[key] = source(found, item.crop, size, item.adjust, self.space)
        return self.sources[key]


def _same(one: Path, other: Path) -> bool:
    return len(one.subpaths) == len(other.subpaths) and all(
        np.array_equal(a.points, b.points) for a, b in zip(one.subpaths, other.subpaths, strict=True)
    )
