"""The wrap as seen, painted again only where something has changed since it was painted last.

A coat is one layer of the renderer, its colours and its share of each pixel worked out and kept. Laying coats over
paper, bottom to top, gives the renderer's own picture; a change needs new coats of the changed copies alone, and the
canvas laid anew only in the boxes that they leave and take.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.elements import Fill
from wrapwright.core.design.frame import Frame
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.art.artwork import path_digest, supply_digest
from wrapwright.jobs.live.art.sprites import colours_digest
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import printed_look

if TYPE_CHECKING:
    from wrapwright.outside.raster.canvas import Canvas
    from wrapwright.outside.raster.layers import Layer
    from wrapwright.outside.raster.renderer import Renderer

Cover = NDArray[np.float32]
Box = tuple[int, int, int, int]  # first row, row after the last, first column, column after the last


@dataclass(frozen=True, eq=False)
class Coat:
    """One layer ready to be laid: uint16 colours (h, w, 3) or (3,) and their share (h, w) over a box of the raster."""

    box: Box
    colours: NDArray[np.uint16]
    cover: Cover


@dataclass(frozen=True, eq=False)
class CopyCoats:
    """The coats of one copy, bottom to top, and the opacity of the copy as a whole."""

    opacity: float
    coats: tuple[Coat, ...]

    @property
    def box(self) -> Box | None:
        """Return the box of all coats, None when there is none."""
        return _round([coat.box for coat in self.coats])

    @property
    def weight(self) -> int:
        """Return about how many bytes it takes."""
        return 1000 + sum(coat.colours.nbytes + coat.cover.nbytes for coat in self.coats)


@dataclass(frozen=True, eq=False)
class _Laid:
    """A canvas with the coats that lie on it, by key, bottom to top; never changed once it is kept."""

    coats: dict[Hashable, CopyCoats]
    colours: NDArray[np.uint16]


def seen_pixels(composed: Composition, frame: Frame, bench: Bench) -> NDArray[np.uint8]:
    """Return sRGB, uint8 (h, w, 3), of a composition on white over an upright frame: what `seen_wrap` gives."""
    from wrapwright.outside.raster.canvas import dithered, rounded

    place = (composed.draw_list.wrap, composed.draw_list.bleed_mm, frame.width_px, frame.to_flat.tobytes())
    coats = _coats_of(composed, frame, bench, place)
    before = bench.recent.canvases.find(place)
    laid = _Laid(coats, _laid_over(composed, frame, coats, before if isinstance(before, _Laid) else None))
    bench.recent.canvases.put(place, laid)
    dither = any(isinstance(one, Fill) and one.gradient is not None for one in composed.opened.job.elements)
    codes = dithered(laid.colours, 0) if dither else rounded(laid.colours)
    return printed_look(composed.colouring, codes)


def _coats_of(composed: Composition, frame: Frame, bench: Bench, place: Hashable) -> dict[Hashable, CopyCoats]:
    """Return the coats of every copy that shows, bottom to top."""
    items = composed.draw_list.items
    found: dict[Hashable, CopyCoats] = {}
    for (element, copy), run in groupby(range(len(items)), lambda at: (items[at].element, items[at].copy)):
        chosen = tuple(run)
        key = (place, element, copy_key(composed, element, copy))
        found[key] = bench.recent.coats.get(
            key, lambda chosen=chosen: _coats(composed, frame, bench, place, chosen), lambda made: made.weight
        )
    return found


def copy_key(composed: Composition, element: int, copy: int) -> Hashable:
    """Return what names the pixels of one copy on its wrap."""
    job, supplied = composed.opened.job, composed.supplied
    return (
        job.elements[element],
        copy,
        supply_digest(supplied.supplies.get(element)),
        path_digest(supplied.masks.get(element)),
        tuple(sorted(job.fields.items())),
        colours_digest(composed.colouring),
    )


def _coats(composed: Composition, frame: Frame, bench: Bench, place: Hashable, items: Sequence[int]) -> CopyCoats:
    from wrapwright.outside.raster.renderer import prepare

    colouring = composed.colouring
    renderer = prepare(composed.draw_list, frame, colouring.pixels, space=colouring.working, items=items)
    region = bench.recent.coats.get((place, "region"), lambda: _region(renderer), lambda made: int(made.nbytes))
    ((opacity, layers),) = renderer.copies
    coats = [_coat(layer, region) for layer in layers]
    return CopyCoats(opacity, tuple(coat for coat in coats if coat is not None))


def _region(renderer: Renderer) -> Cover:
    from wrapwright.outside.raster.edges import coverage

    return coverage(renderer.region, (0, renderer.height), (0, renderer.width))


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
    box = (first + up, first + down, there.columns[0] + left, there.columns[0] + right)
    colours, share = layer.painted(Part(box[:2], box[2:]))
    cover = cover[up:down, left:right] * np.float32(layer.opacity)
    return Coat(box, colours, cover if share is None else cover * share)


def _laid_over(
    composed: Composition, frame: Frame, coats: dict[Hashable, CopyCoats], before: _Laid | None
) -> NDArray[np.uint16]:
    """Return the canvas with all coats on it, 16-bit working codes (h, w, 3)."""
    whole: Box | None = (0, frame.height_px, 0, frame.width_px)
    if before is None:
        colours = np.empty((frame.height_px, frame.width_px, 3), dtype=np.uint16)
    else:
        whole = _changed(before.coats, coats, whole)
        if whole is None:
            return before.colours
        colours = before.colours.copy()
    _lay(colours, coats.values(), whole, composed.colouring.working.tone)
    return colours


def _changed(old: dict[Hashable, CopyCoats], new: dict[Hashable, CopyCoats], whole: Any) -> Box | None:
    """Return the box outside of which two canvases are alike, None when they are alike everywhere."""
    if [key for key in old if key in new] != [key for key in new if key in old]:
        return whole  # type: ignore[no-any-return]
    differing = [old[key] for key in old.keys() - new.keys()] + [new[key] for key in new.keys() - old.keys()]
    return _round([box for one in differing if (box := one.box) is not None])


def _lay(colours: NDArray[np.uint16], copies: Any, box: Box, tone: Any) -> None:
    """Lay the coats of copies over white paper within a box of the canvas."""
    from wrapwright.outside.raster.canvas import Canvas

    colours[box[0] : box[1], box[2] : box[3]] = 65535
    for copy in copies:
        own = copy.box
        part = None if own is None else _common(own, box)
        if part is None:
            continue
        canvas = Canvas(colours[part[0] : part[1], part[2] : part[3]], None, tone)
        before = canvas.copied() if copy.opacity < 1.0 else None
        for coat in copy.coats:
            _lay_one(canvas, coat, part)
        if before is not None:
            canvas.veil(before, copy.opacity)


def _lay_one(canvas: Canvas, coat: Coat, part: Box) -> None:
    """Lay one coat on the canvas of a part of the raster."""
    from wrapwright.outside.raster.canvas import Canvas

    there = _common(coat.box, part)
    if there is None:
        return
    rows, columns = (
        slice(there[0] - coat.box[0], there[1] - coat.box[0]),
        slice(there[2] - coat.box[2], there[3] - coat.box[2]),
    )
    colours = coat.colours if coat.colours.ndim == 1 else coat.colours[rows, columns]
    strip = Canvas(canvas.colours[there[0] - part[0] : there[1] - part[0]], None, canvas.tone)
    strip.paint((there[2] - part[2], there[3] - part[2]), colours, coat.cover[rows, columns])


def _round(boxes: Sequence[Box]) -> Box | None:
    if not boxes:
        return None
    top, bottom, left, right = zip(*boxes, strict=True)
    return min(top), max(bottom), min(left), max(right)


def _common(one: Box, other: Box) -> Box | None:
    top, bottom = max(one[0], other[0]), min(one[1], other[1])
    left, right = max(one[2], other[2]), min(one[3], other[3])
    return (top, bottom, left, right) if bottom > top and right > left else None
