"""Painting: renderers for the sheet and for the screen, and the colours they come out in."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.frame import Frame, seen_frame
from wrapwright.jobs.work.colouring import Colouring
from wrapwright.jobs.work.composing import Composition

if TYPE_CHECKING:
    from wrapwright.outside.raster.renderer import Renderer

Bytes = NDArray[np.uint8]
Box = tuple[float, float, float, float]
StripOf = Callable[[int, int], Bytes]


def renderer_of(
    composed: Composition, frame: Frame, *, items: Sequence[int] | None = None, bleed_mm: float | None = None
) -> Renderer:
    """Return the renderer of a composition over a frame; bare paper is white.

    `items` chooses among the draw list's, `bleed_mm` is what the page leaves of the bleed; None = all.
    """
    from wrapwright.outside.raster.renderer import prepare

    colouring, draw_list = composed.colouring, composed.draw_list
    if bleed_mm is not None:
        draw_list = replace(draw_list, bleed_mm=bleed_mm)
    return prepare(draw_list, frame, colouring.pixels, space=colouring.working, items=items)


@contextmanager
def device_strips(colouring: Colouring, strip_of: StripOf) -> Iterator[StripOf]:
    """Give the strips in the page's own colours: as they are on the driver route, else converted exactly.

    The exact table is held while the block runs, and let go at its end.
    """
    there = colouring.there
    if there is None:
        yield strip_of
        return
    from wrapwright.outside.icc.tables import wanted

    table = wanted(colouring.tables, there)
    convert = there.strip if table is None else table.strip
    try:
        yield lambda first, last: convert(strip_of(first, last))
    finally:
        if table is not None:
            table.close()


def seen_wrap(composed: Composition, ppi: float) -> tuple[Bytes, Box]:
    """Return the flat wrap as it will look on white, sRGB (h, w, 3), and its box in flat mm.

    On the convert route it is what the printer reaches, relative to its paper's white.
    """
    from wrapwright.core.design.borders import bleed_outline

    box = bleed_outline(composed.wrapped.wrap, composed.draw_list.bleed_mm).box()
    frame = seen_frame(box, ppi)
    colours = renderer_of(composed, frame).whole()
    pitch = 25.4 / ppi
    whole = (box[0], box[3] - frame.height_px * pitch, box[0] + frame.width_px * pitch, box[3])
    return printed_look(composed.colouring, colours), whole


def printed_look(colouring: Colouring, colours: Bytes) -> Bytes:
    """Return sRGB of working colours as printed, relative to the paper's white."""
    proofing = colouring.proofing()
    if proofing is None or colouring.there is None:
        return colours
    return np.asarray(proofing.seen(colouring.there.strip(colours)), dtype=np.uint8)
