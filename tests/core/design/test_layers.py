"""What becomes pixels and what stays outline."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import DrawList, PlacedGradient, PlacedOutline, PlacedPicture
from wrapwright.core.design.layers import item_box, overlap, split, stays_outline
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.placement import Placement

WRAP = FlatWrap(235.0, 235.0, 100.0)
RED = (1.0, 0.0, 0.0)


def outline(left, bottom, right, top, **more):
    return PlacedOutline(element=0, copy=0, path=rectangle(left, bottom, right, top), colour=RED, **more)


def picture(x, y, size, **more):
    placement = Placement(WRAP, 180.0 + 360.0 * x / 235.0, y)
    return PlacedPicture(
        element=0,
        copy=0,
        picture="p",
        placement=placement,
        width_mm=size,
        height_mm=size,
        window_mm=(size, size),
        **more,
    )


def listed(*items):
    return DrawList(WRAP, 2.0, items)


def test_what_lies_under_a_picture_becomes_pixels_with_it_and_what_lies_above_stays():
    below, photo, above = outline(-50, 0, 50, 80), picture(0, 40, 30), outline(-5, 30, 5, 50)
    beside = outline(60, 0, 90, 80)
    assert split(listed(beside, below, photo, above)) == ((1, 2), (0, 3))


def test_being_under_goes_on_from_item_to_item():
    lowest, middle, photo = outline(-90, 0, -40, 50), outline(-50, 0, 5, 50), picture(10, 40, 20)
    assert split(listed(lowest, middle, photo)) == ((0, 1, 2), ())
    assert split(listed(middle, lowest, photo)) == ((0, 2), (1,))


def test_translucent_outlines_and_gradients_are_pixels_and_solid_ones_are_not():
    gradient = PlacedGradient(element=0, copy=0, start=RED, end=RED, along="up")
    assert split(listed(gradient)) == ((0,), ())
    assert split(listed(outline(0, 0, 9, 9, opacity=0.5), outline(0, 0, 9, 9))) == ((0,), (1,))
    assert split(listed(outline(0, 0, 9, 9, copy_opacity=0.5))) == ((0,), ())
    assert split(listed()) == ((), ())


def test_masks_clips_strokes_and_the_bleed_bound_what_an_item_can_mark():
    masked = picture(0, 40, 30, mask=rectangle(0, 0, 15, 15))
    assert split(listed(outline(-14, 26, -1, 39), masked)) == ((1,), (0,))
    clipped = picture(0, 40, 30, clips=(rectangle(0, 30, 20, 60),))
    assert split(listed(outline(-14, 26, -1, 50), clipped)) == ((1,), (0,))
    assert split(listed(outline(-30, 30, -15.5, 50, stroke_mm=2.0), picture(0, 40, 30))) == ((0, 1), ())
    assert item_box(listed(), outline(-900, -900, 900, 900)) == (-117.5, -2.0, 117.5, 102.0)
    tiled = picture(0, 40, 10, repeat=(12.0, 12.0, 0.0))
    assert split(listed(outline(80, 0, 90, 10), tiled)) == ((0, 1), ())


@settings(derandomize=True, max_examples=80, deadline=None)
@given(st.integers(0, 2**31), st.integers(1, 12))
def test_drawing_pixels_first_and_outlines_after_gives_the_same_picture(seed, count):
    random = np.random.default_rng(seed)
    items = []
    for _ in range(count):
        x, y, size = random.uniform(-80, 80), random.uniform(10, 90), float(random.uniform(5, 60))
        items.append(picture(x, y, size) if random.random() < 0.4 else outline(x, y, x + size, y + size / 2))
    draw_list = listed(*items)
    raster, vector = split(draw_list)
    assert sorted(raster + vector) == list(range(count))
    order = [*raster, *vector]
    grid = np.stack(np.meshgrid(np.linspace(-117, 117, 79), np.linspace(-1, 101, 41)), axis=-1)
    boxes = [item_box(draw_list, item) for item in items]

    def top(sequence):
        seen = np.full(grid.shape[:2], -1)
        for index in sequence:
            left, bottom, right, upper = boxes[index]
            x, y = grid[..., 0], grid[..., 1]
            seen[(x > left) & (x < right) & (y > bottom) & (y < upper)] = index
        return seen

    assert (top(order) == top(range(count))).all()
    for index in vector:  # nothing that could have stayed outline was given up
        assert stays_outline(items[index])
    for index in raster:
        above = [other for other in raster if other > index and overlap(boxes[index], boxes[other])]
        assert not stays_outline(items[index]) or above
