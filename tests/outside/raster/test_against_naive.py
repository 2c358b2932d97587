"""The fast renderer against the slow one.

Inside, figures are 8-bit codes: the picture's waves are slow, so only rounding may differ. At edges they are linear
light: 25 sub-samples are off by up to a tenth of a level or upright edge's contrast, the fast one by a 32nd.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.naive import naive
from tests.outside.raster.scenes import (
    STRAIGHT,
    TAPERED,
    WRAPS,
    as_float,
    fill,
    frame_of,
    listed,
    picture,
    pixels,
    smooth,
)

from wrapwright.core.colour import srgb
from wrapwright.core.design.drawlist import DrawList, PlacedGradient, PlacedOutline
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import Path, Subpath, joined, polygon, rectangle
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.renderer import prepare


def _agree(
    scene: DrawList,
    frame: Frame,
    array: np.ndarray | None = None,
    *,
    median: float = 0.6,
    inner: float = 1.6,
    edge: float = 0.14,
) -> None:
    given = {} if array is None else {"p": pixels(array)}
    fast = prepare(scene, frame, given, space=srgb_working()).whole().astype(float)
    slow = naive(scene, frame, {} if array is None else {"p": as_float(array)})
    assert slow.std() > 10, "the scene shows something"
    off = np.abs(fast - slow)
    assert np.median(off[slow < 254.5]) <= median
    assert np.percentile(off[slow < 254.5], 85) <= inner
    assert np.abs(srgb.decode(fast / 255) - srgb.decode(slow / 255)).max() <= edge


@pytest.mark.parametrize("mirror", [False, True])
@pytest.mark.parametrize("lay", ["true", "level"])
@pytest.mark.parametrize("name", list(WRAPS))
def test_a_picture_on_each_kind_of_wrap(name: str, lay: str, mirror: bool) -> None:
    wrap = WRAPS[name]
    _agree(listed(wrap, picture(wrap, lay=lay, turn=160)), frame_of(wrap, mirror=mirror), smooth())


def test_turned_flipped_cropped_masked_and_translucent_over_a_fill() -> None:
    circle = Path((Subpath(_ring(18.0)),))
    item = picture(TAPERED, turn_deg=25.0, flip=True, crop=(0.1, 0.05, 0.9, 0.95), mask=circle, opacity=0.6)
    _agree(listed(TAPERED, fill(TAPERED, (0.1, 0.25, 0.4)), item), frame_of(TAPERED), smooth())


def test_alpha_of_the_picture_itself() -> None:
    _agree(listed(TAPERED, fill(TAPERED, (0.8, 0.3, 0.1)), picture(TAPERED)), frame_of(TAPERED), smooth(alpha=True))


def test_a_window_smaller_than_the_picture() -> None:
    _agree(listed(TAPERED, picture(TAPERED, window_mm=(50.0, 20.0))), frame_of(TAPERED), smooth())


def test_across_the_seam_in_laps() -> None:
    items = [picture(TAPERED, turn=5.0, laps=lap) for lap in (0, 1)]
    _agree(listed(TAPERED, *items), frame_of(TAPERED), smooth())


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
@pytest.mark.parametrize("join", [4.0, 12.0])
def test_ends_that_blend(wrap, join: float) -> None:
    full = wrap.turn_length(25.0) + 6.0
    item = picture(
        wrap,
        turn=(full / wrap.turn_length(25.0)) * 180.0,
        width=full,
        join_mm=join,
        height_mm=54.0,
        window_mm=(full, 54.0),
    )
    _agree(listed(wrap, item), frame_of(wrap), smooth(480, 200))


@pytest.mark.parametrize("along", ["up", "round", 35.0])
def test_changes_of_colour(along: str | float) -> None:
    item = PlacedGradient(element=0, copy=0, start=(0.05, 0.2, 0.35), end=(0.9, 0.7, 0.75), along=along)
    # Dithered: single pixels differ by up to a code more than rounding. Where the overlap starts anew the colour
    # jumps from end to start, and the fast one does not soften that jump.
    _agree(listed(TAPERED, item), frame_of(TAPERED), inner=2.0, edge=0.14 if along == "up" else 0.5)


@pytest.mark.parametrize(("shift", "turn"), [(0.0, 0.0), (0.5, 0.0), (0.5, 20.0)])
def test_tiles(shift: float, turn: float) -> None:
    tile = picture(TAPERED, width=24.0, repeat=(27.0, 18.5, shift), tile_turn_deg=turn)
    # A tile's edge passes through two filters: the cell's and the warp's.
    _agree(listed(TAPERED, tile), frame_of(TAPERED), smooth(), median=1.0, inner=6.0, edge=0.45)


def test_outlines_filled_stroked_clipped_and_even_odd() -> None:
    star = polygon([(20 * np.sin(4 * np.pi * k / 5), 25 + 20 * np.cos(4 * np.pi * k / 5)) for k in range(5)])
    ring = joined([rectangle(-50, 5, -25, 30), rectangle(-45, 10, -30, 25)])
    wave = Path((Subpath(np.array([[20.0, 10.0], [30.0, 50.0], [40.0, -20.0], [55.0, 40.0]]), closed=False),))
    items = (
        PlacedOutline(element=0, copy=0, path=star, colour=(0.7, 0.1, 0.1)),
        PlacedOutline(element=1, copy=0, path=star, colour=(0.1, 0.6, 0.2), even_odd=True, opacity=0.7),
        PlacedOutline(
            element=2, copy=0, path=ring, colour=(0.1, 0.1, 0.5), even_odd=True, clips=(rectangle(-48, 0, -20, 28),)
        ),
        PlacedOutline(element=3, copy=0, path=wave, colour=(0.2, 0.2, 0.2), stroke_mm=1.3),
        PlacedOutline(element=4, copy=0, path=ring, colour=(0.9, 0.8, 0.2), stroke_mm=0.4),
    )
    # Thin shapes are mostly edges. Where two share a pixel, the lesser share stands for the true overlap.
    _agree(listed(TAPERED, *items), frame_of(TAPERED), inner=16.0, edge=0.26)


def _ring(radius: float) -> np.ndarray:
    k = 0.5522847498
    quarter = np.array([[1, 0], [1, k], [k, 1]])
    turns = [np.array([[0, -1], [1, 0]]) ** 1] * 4
    points, matrix = [], np.eye(2)
    for turn in turns:
        points.append(quarter @ matrix.T)
        matrix = turn @ matrix
    return np.vstack([*points, [[1, 0]]]) * radius
