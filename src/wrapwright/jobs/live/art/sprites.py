"""How sprites are drawn: what is drawn, over which box, how fine; nothing is drawn before it is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.frame import Frame, seen_frame
from wrapwright.core.design.placement import Placement
from wrapwright.jobs.live.art.artwork import colours_digest, digest_of
from wrapwright.jobs.live.art.coats import BLACK, WHITE, coats_of, laid, region_of
from wrapwright.jobs.live.art.pixels import flat_places, looked_up, with_alpha
from wrapwright.jobs.live.values import Box
from wrapwright.jobs.live.views.frames import Canvas, down
from wrapwright.jobs.work.colouring import Colouring
from wrapwright.jobs.work.painting import printed_look
from wrapwright.outside.system.installed import version

Bytes = NDArray[np.uint8]
Edges = tuple[float, float, float, float]

PPI = 150.0  # about two pixels a screen pixel at the usual zoom
LEAST_PPI = 100.0  # masks and edges stay smooth however coarse the picture is
LONGEST_PX = 1600
MARGIN_PX = 1  # bare pixels round a sprite, so that a turned edge stays smooth
MAKE = "sprite 1"  # another name whenever the same design is drawn otherwise


@dataclass(frozen=True, eq=False)
class Sprite:
    """A sprite that can be drawn.

    Attributes:
        key: names its pixels; the same pixels have the same key.
        box: the box of the art frame that it covers, y down.
        draw_list: what is drawn, on its own wrap.
        edges: left, bottom, right, top of what is drawn, flat mm of that wrap.
        ppi: how fine.
        colouring: in which colours.
        bend: None, or the canvas that it is bent onto and how it lies there (None: as it lies on the flat wrap).
    """

    key: str
    box: Box
    draw_list: DrawList
    edges: Edges
    ppi: float
    colouring: Colouring
    bend: tuple[Canvas, Placement | None, Edges] | None = None

    def pixels(self) -> Bytes:
        """Return sRGB with straight alpha, uint8 (h, w, 4)."""
        frame = seen_frame(self.edges, self.ppi)
        drawn = drawn_with_alpha(self.draw_list, frame, self.colouring)
        if self.bend is None:
            return drawn
        canvas, placement, edges = self.bend
        pitch = 25.4 / self.ppi
        size = seen_frame(edges, self.ppi)
        a, b = flat_places(canvas, (edges[0], edges[3]), pitch, (size.width_px, size.height_px))
        if placement is not None:
            a, b = placement.to_local(a, b)
        return looked_up(drawn, (a - self.edges[0]) / pitch, (self.edges[3] - b) / pitch)


def drawn_with_alpha(draw_list: DrawList, frame: Frame, colouring: Colouring) -> Bytes:
    """Return a draw list by the renderer, over nothing: sRGB with straight alpha, as a screen has to blend it."""
    from wrapwright.outside.raster.canvas import rounded
    from wrapwright.outside.raster.renderer import prepare

    space = colouring.working
    renderer = prepare(draw_list, frame, colouring.pixels, space=space)
    coats, size = coats_of(renderer, region_of(renderer)), (frame.height_px, frame.width_px)
    white, black = (rounded(laid(coats, size, space.tone, paper)) for paper in (WHITE, BLACK))
    return with_alpha(white, black, printed_look(colouring, white) if colouring.there is not None else None)


def sprite_of(
    draw_list: DrawList,
    reach: Edges,
    colouring: Colouring,
    *,
    digest: str,
    own_ppi: float | None = None,
    bend: tuple[Canvas, Placement | None] | None = None,
    bent_reach: Edges | None = None,
) -> Sprite:
    """Return the sprite of a draw list.

    Args:
        draw_list: what is drawn, on its own wrap.
        reach: the box in flat mm of that wrap which it can mark.
        colouring: its colours.
        digest: names all that shapes the pixels but for what the other arguments say.
        own_ppi: pixels per inch of the picture itself: finer is of no use.
        bend: the canvas to bend it onto and how it lies there.
        bent_reach: the box (y up) on that canvas.
    """
    longest = max(*_size(reach), *(_size(bent_reach) if bent_reach else ()), 1e-3)
    wanted = PPI if own_ppi is None else min(PPI, max(LEAST_PPI, own_ppi))
    ppi = min(wanted, (LONGEST_PX - 2 * MARGIN_PX) / longest * 25.4)
    edges = _grown(reach, MARGIN_PX * 25.4 / ppi)
    bending = None if bend is None or bent_reach is None else (*bend, _grown(bent_reach, MARGIN_PX * 25.4 / ppi))
    covered = edges if bending is None else bending[2]
    key = digest_of(MAKE, version(), digest, edges, ppi, colours_digest(colouring), _bend_words(bending))
    return Sprite(key, _whole_pixels(covered, ppi), draw_list, edges, ppi, colouring, bending)


def _bend_words(bending: tuple[Canvas, Placement | None, Edges] | None) -> Any:
    return None if bending is None else (bending[0], bending[1], bending[2])


def _whole_pixels(edges: Edges, ppi: float) -> Box:
    """Return the box, y down, of the whole pixels that cover the edges from their upper left corner."""
    frame = seen_frame(edges, ppi)
    pitch = 25.4 / ppi
    left, _, _, top = edges
    return down((left, top - frame.height_px * pitch, left + frame.width_px * pitch, top))


def _size(box: Edges) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _grown(box: Edges, by: float) -> Edges:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by
