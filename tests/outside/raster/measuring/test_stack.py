"""The stack says of the whole what the renderer says, and of each copy what is its own."""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.measuring.wraps import BLEED, STRAIGHT, TAPERED, box, ground, picture

from wrapwright.core.design.drawlist import DrawList, PlacedGradient
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.measuring.stack import stacked
from wrapwright.outside.raster.measuring.subjects import MOST_LOOKED_AT, by_colour, some
from wrapwright.outside.raster.renderer import prepare


def scene(wrap):
    x, y = np.meshgrid(np.linspace(0, 1, 90), np.linspace(0, 1, 70))
    art = np.rint(np.stack([x, y, 1 - x, 0.3 + 0.7 * y], axis=-1) * 255).astype(np.uint8)
    item, pixels = picture(art, element=1, wrap=wrap, opacity=0.8)
    items = [
        ground((0.9, 0.8, 0.5), wrap),
        item,
        *[box(-20 + 3 * n, 5 + n, -16 + 3 * n, 30 + n, (0.1, n / 12, 0.6), 2, opacity=0.9) for n in range(12)],
        box(-50, 10, 10, 14, (1.0, 1.0, 1.0), 3),
    ]
    return DrawList(wrap, BLEED, tuple(items)), {pixels.id: pixels}


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
def test_the_whole_is_what_the_renderer_draws(wrap):
    draw_list, pixels = scene(wrap)
    stack = stacked(draw_list, pixels, srgb_working())
    whole = prepare(draw_list, stack.frame, pixels, space=srgb_working()).whole()
    off = np.abs(stack.codes.astype(int) - whole.astype(int)).max(axis=-1)[stack.region >= 0.999]
    # Each copy passes through 8 bits, and where soft borders lie over each other they mix in another order.
    assert np.quantile(off, 0.99) <= 2
    assert off.mean() < 0.2


def test_visible_is_what_is_left_below_the_later_ones():
    draw_list, pixels = scene(STRAIGHT)
    stack = stacked(draw_list, pixels, srgb_working())
    pieces = [stack.pieces[element, 0] for element in range(4)]
    bare = np.ones(stack.region.shape)
    seen = np.zeros(stack.region.shape)
    for piece in pieces:
        piece.cut(seen)[...] += piece.visible
        piece.cut(bare)[...] *= 1.0 - piece.cover
    np.testing.assert_allclose(seen, 1.0 - bare, atol=1e-5)
    np.testing.assert_allclose(pieces[3].visible, pieces[3].cover)


def test_a_change_of_colour_is_composed_as_well():
    change = PlacedGradient(element=0, copy=0, start=(0.0, 0.0, 0.0), end=(1.0, 1.0, 1.0), along="up")
    codes = stacked(DrawList(STRAIGHT, BLEED, (change,)), {}, srgb_working()).codes
    middle = codes[:, 200, 0].astype(int)
    assert middle[0] == 255
    assert middle[-1] == 0
    assert (np.diff(middle) <= 1).all()


def test_each_colour_is_asked_once():
    asked = []

    def judge(few):
        asked.append(few.shape)
        return few.astype(float).sum(axis=-1)

    codes = np.array([[[1, 2, 3], [255, 0, 255]], [[1, 2, 3], [3, 2, 1]]], dtype=np.uint8)
    np.testing.assert_array_equal(by_colour(codes, judge), codes.astype(float).sum(axis=-1))
    assert asked == [(1, 3, 3)]


def test_a_large_area_is_looked_at_in_samples_spread_over_all_of_it():
    flags = np.ones((400, 500), dtype=bool)
    found = some(flags)
    assert len(found) == MOST_LOOKED_AT
    assert found[0] == 0
    assert found[-1] >= flags.size - flags.size // MOST_LOOKED_AT
    assert len(np.unique(np.diff(found))) == 1
    np.testing.assert_array_equal(some(flags[:10, :10]), np.arange(100))
