"""Coats: the renderer's layers worked out once, to be laid again over another ground or in a part of it.

Laying the coats of all copies over white paper, bottom to top, gives the renderer's own picture to the last code.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.tone import Tone

if TYPE_CHECKING:
    from wrapwright.outside.raster.canvas import Canvas
    from wrapwright.outside.raster.layers import Layer
    from wrapwright.outside.raster.renderer import Renderer

Cover = NDArray[np.float32]
Codes = NDArray[np.uint16]
Box = tuple[int, int, int, int]  # first row, row after the last, first column, column after the last

WHITE, BLACK = 65535, 0


@dataclass(frozen=True, eq=False)
class Coat:
    """One layer ready to be laid: uint16 colours (h, w, 3) or (3,) and their share (h, w) over a box of the raster."""

    box: Box
    colours: Codes
    cover: Cover


@dataclass(frozen=True, eq=False)
class CopyCoats:
    """The coats of one copy, bottom to top, and the opacity of the copy as a whole."""

    opacity: float
    coats: tuple[Coat, ...]

    @property
    def box(self) -> Box | None:
        """Return the box of all coats, None when there is none."""
        return round_all([coat.box for coat in self.coats])

    @property
    def weight(self) -> int:
        """Return about how many bytes it takes."""
        return 1000 + sum(coat.colours.nbytes + coat.cover.nbytes for coat in self.coats)


def region_of(renderer: Renderer) -> Cover:
    """Return the share of each pixel, (h, w), that lies inside the wrap's bleed outline."""
    from wrapwright.outside.raster.edges import coverage

    return coverage(renderer.region, (0, renderer.height), (0, renderer.width))


def coats_of(renderer: Renderer, region: Cover) -> tuple[CopyCoats, ...]:
    """Return the coats of a renderer's copies, bottom to top; `region` is what `region_of` says of its raster."""
    return tuple(
        CopyCoats(opacity, tuple(coat for layer in layers if (coat := _coat(layer, region)) is not None))
        for opacity, layers in renderer.copies
    )


def laid(copies: Iterable[CopyCoats], size: tuple[int, int], tone: Tone, paper: int = WHITE) -> Codes:
    """Return 16-bit working codes, (h, w, 3), of copies over bare paper of one code; `size` is rows and columns."""
    colours = np.empty((*size, 3), dtype=np.uint16)
    lay_within(colours, copies, (0, size[0], 0, size[1]), tone, paper)
    return colours


def lay_within(colours: Codes, copies: Iterable[CopyCoats], box: Box, tone: Tone, paper: int = WHITE) -> None:
    """Lay copies over bare paper within a box of a canvas, (h, w, 3), in place."""
    from wrapwright.outside.raster.canvas import Canvas

    colours[box[0] : box[1], box[2] : box[3]] = paper
    for copy in copies:
        own = copy.box
        part = None if own is None else _common(own, box)
        if part is None:
            continue
        canvas = Canvas(colours[part[0] : part[1], part[2] : part[3]], None, tone)
        before = canvas.copied() if copy.opacity < 1.0 else None
        for coat in copy.coats:
            _lay(canvas, coat, part)
        if before is not None:
            canvas.veil(before, copy.opacity)


def round_all(boxes: Sequence[Box]) -> Box | None:
    """Return the box round all boxes, None for none."""
    if not boxes:
        return None
    top, bottom, left, right = zip(*boxes, strict=True)
    return min(top), max(bottom), min(left), max(right)


def _coat(layer: Layer, region: Cover) -> Coat | None:
    """Return a layer's coat inside the region, cut to the pixels that it marks; None when it marks none."""
    from wrapwright.outside.raster.lattice import Part
    from wrapwright.outside.raster.layers import covered, reach

    high, wide = region.shape
    first = max([0, *(int(np.floor(one.box[1])) for one in layer.limits)])
    last = min([high, *(int(np.ceil(one.box[3])) for one in layer.limits)])
    there = reach(layer.limits, Part((first, last), (0, wide))) if last > first else None
    if there is None:
        return None
    within = region[first:last, there.columns[0] : there.columns[1]]
    own_cover = covered(layer.limits, there)
    cover = within if own_cover is None else np.minimum(own_cover, within)
    rows, columns = np.flatnonzero(cover.any(axis=1)), np.flatnonzero(cover.any(axis=0))
    if len(rows) == 0:
        return None
    up, down, left, right = int(rows[0]), int(rows[-1]) + 1, int(columns[0]), int(columns[-1]) + 1
    part = Part((first + up, first + down), (there.columns[0] + left, there.columns[0] + right))
    colours, share = layer.painted(part)
    cover = cover[up:down, left:right] if share is None else cover[up:down, left:right] * share
    return Coat((*part.rows, *part.columns), colours, cover * np.float32(layer.opacity))


def _lay(canvas: Canvas, coat: Coat, part: Box) -> None:
    """Lay one coat on the canvas of a part of the raster."""
    from wrapwright.outside.raster.canvas import Canvas

    there = _common(coat.box, part)
    if there is None:
        return
    rows = slice(there[0] - coat.box[0], there[1] - coat.box[0])
    columns = slice(there[2] - coat.box[2], there[3] - coat.box[2])
    colours = coat.colours if coat.colours.ndim == 1 else coat.colours[rows, columns]
    strip = Canvas(canvas.colours[there[0] - part[0] : there[1] - part[0]], None, canvas.tone)
    strip.paint((there[2] - part[2], there[3] - part[2]), colours, coat.cover[rows, columns])


def _common(one: Box, other: Box) -> Box | None:
    top, bottom = max(one[0], other[0]), min(one[1], other[1])
    left, right = max(one[2], other[2]), min(one[3], other[3])
    return (top, bottom, left, right) if bottom > top and right > left else None
