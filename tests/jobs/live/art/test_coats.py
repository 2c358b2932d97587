"""Coats laid anew give what the renderer paints."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import DrawList, PlacedOutline
from wrapwright.core.design.frame import seen_frame
from wrapwright.core.design.path import rectangle
from wrapwright.jobs.live.art.coats import BLACK, coats_of, laid, lay_within, region_of
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.canvas import rounded
from wrapwright.outside.raster.renderer import Renderer, prepare

WRAP = FlatWrap(lower_mm=120.0, upper_mm=150.0, height_mm=40.0, overlap_mm=5.0)
CLIP = rectangle(-38.0, 4.0, 30.0, 33.3)


def box(element: int, left: float, low: float, colour: tuple[float, float, float], **more: float) -> PlacedOutline:
    return PlacedOutline(
        element=element, copy=0, path=rectangle(left, low, left + 37.3, low + 20.7), colour=colour, **more
    )


ITEMS = (
    box(0, -60.0, -9.0, (0.1, 0.4, 0.4)),
    box(1, -35.2, 5.1, (0.9, 0.2, 0.1), opacity=0.5),
    replace(box(2, -20.0, 11.0, (0.0, 0.2, 0.9), copy_opacity=0.4), clips=(CLIP,)),
    replace(box(2, -9.0, 16.0, (0.9, 0.9, 0.2), copy_opacity=0.4, stroke_mm=3.0), clips=(CLIP,)),
    box(3, 200.0, 11.0, (0.0, 0.0, 0.0)),
)


@pytest.fixture
def renderer() -> Renderer:
    draw_list = DrawList(WRAP, 2.0, ITEMS)
    return prepare(draw_list, seen_frame((-70.0, -25.0, 75.0, 45.0), 60.0), {}, space=srgb_working())


def test_coats_over_white_are_the_renderers_own_picture(renderer: Renderer) -> None:
    coats = coats_of(renderer, region_of(renderer))
    assert [copy.opacity for copy in coats] == [1.0, 1.0, 0.4, 1.0]
    whole = renderer.whole()
    made = rounded(laid(coats, whole.shape[:2], renderer.space.tone))
    assert len(np.unique(whole.reshape(-1, 3), axis=0)) > 20
    assert (made == whole).all()


def test_a_part_laid_anew_is_the_part_of_the_whole(renderer: Renderer) -> None:
    coats = coats_of(renderer, region_of(renderer))
    whole = laid(coats, (renderer.height, renderer.width), renderer.space.tone)
    part = whole.copy()
    part[20:90, 40:200] = 7
    lay_within(part, coats, (20, 90, 40, 200), renderer.space.tone)
    assert (part == whole).all()


def test_over_black_only_the_ground_differs(renderer: Renderer) -> None:
    coats = coats_of(renderer, region_of(renderer))
    size = (renderer.height, renderer.width)
    white, black = (laid(coats, size, renderer.space.tone, paper) for paper in (65535, BLACK))
    opaque = coats[0].coats[0]
    inside = opaque.cover >= 1.0
    rows, columns = slice(*opaque.box[:2]), slice(*opaque.box[2:])
    assert inside.any()
    assert (white[rows, columns][inside] == black[rows, columns][inside]).all()
    assert (black[0, 0] == 0).all()


def test_a_copy_beside_the_wrap_has_no_coats(renderer: Renderer) -> None:
    last = coats_of(renderer, region_of(renderer))[-1]
    assert last.coats == ()
    assert last.box is None
