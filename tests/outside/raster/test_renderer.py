"""What the renderer promises beside agreeing with the slow one."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from tests.outside.raster.scenes import STRAIGHT, TAPERED, fill, frame_of, listed, picture, pixels, smooth, with_ink

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import srgb
from wrapwright.core.colour.adjust import adjusted
from wrapwright.core.design.drawlist import PlacedGradient, PlacedOutline
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.frame import seen_frame
from wrapwright.core.design.path import rectangle
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.renderer import Renderer, prepare

NOISE = np.random.default_rng(6).integers(0, 256, (300, 450, 3)).astype(np.uint8)


def _made(scene, frame, array=None) -> Renderer:
    return prepare(scene, frame, {} if array is None else {"p": pixels(array)}, space=srgb_working())


def _busy() -> Renderer:
    full = TAPERED.turn_length(25.0) + 6.0
    items = (
        PlacedGradient(element=0, copy=0, start=(0.1, 0.2, 0.3), end=(0.9, 0.8, 0.6), along=20.0),
        picture(TAPERED, width=full, turn=190.0, join_mm=5.0, opacity=0.8),
        picture(TAPERED, width=9.0, repeat=(11.0, 8.0, 0.5), opacity=0.5),
        PlacedOutline(element=1, copy=0, path=rectangle(-20, 10, 20, 30), colour=(0.2, 0.1, 0.4), stroke_mm=1.0),
    )
    return _made(listed(TAPERED, *items), frame_of(TAPERED, 120.0), NOISE)


@pytest.mark.parametrize("kind", ["plain", "busy"])
def test_any_cut_into_strips_and_any_threads_give_the_same_bytes(kind: str) -> None:
    plain = _made(listed(TAPERED, picture(TAPERED, lay="level")), frame_of(TAPERED, 120.0), NOISE)
    made = plain if kind == "plain" else _busy()
    whole = made.whole()
    for rows in (33, 96, 1000):
        parts = list(made.strips(rows))
        with ThreadPoolExecutor(4) as pool:
            done = list(pool.map(lambda part: made.strip(*part), reversed(parts)))
        assert np.array_equal(np.concatenate(done[::-1]), whole)


def test_the_straight_way_and_the_layered_way_agree() -> None:
    made = _made(listed(TAPERED, picture(TAPERED)), frame_of(TAPERED, 120.0), NOISE)
    assert np.array_equal(made.whole(), with_ink(made)[0])


def test_outside_the_bleed_the_paper_is_bare_and_ink_says_so() -> None:
    made = _made(listed(TAPERED, fill(TAPERED, (0.2, 0.4, 0.6))), frame_of(TAPERED))
    colours, ink = with_ink(made)
    assert np.all(colours[0] == 255)
    assert not ink[0].any()
    middle = (ink.shape[0] // 2, ink.shape[1] // 2)
    assert ink[middle] == 255
    assert colours[middle].tolist() == [51, 102, 153]
    # A wrap's area: its share of the raster is the mean of the ink.
    area = ink.mean() / 255 * ink.size * (25.4 / 40.0) ** 2
    low, high = TAPERED.turn_length(-2.0), TAPERED.turn_length(52.0)
    assert area == pytest.approx((low + high) / 2 * 54 + 6 * 54, rel=2e-3)


def test_paper_colour_and_choice_of_items() -> None:
    scene = listed(STRAIGHT, fill(STRAIGHT, (1.0, 0.0, 0.0)), fill(STRAIGHT, (0.0, 0.0, 1.0)))
    made = prepare(scene, frame_of(STRAIGHT), {}, space=srgb_working(), items=[0], paper=(0.8, 0.8, 0.8))
    whole = made.whole()
    assert whole[0, 0].tolist() == [204, 204, 204]
    assert whole[whole.shape[0] // 2, whole.shape[1] // 2].tolist() == [255, 0, 0]


def test_opacity_is_half_the_light() -> None:
    scene = listed(STRAIGHT, fill(STRAIGHT, (0.0, 0.0, 0.0), opacity=0.5))
    whole = _made(scene, frame_of(STRAIGHT)).whole()
    # Half of white's light is sRGB 187.5 (IEC 61966-2-1), not 127.5.
    assert whole[whole.shape[0] // 2, whole.shape[1] // 2].tolist() == [188, 188, 188]


def test_shrinking_keeps_the_light_of_fine_detail() -> None:
    board = np.indices((600, 900)).sum(axis=0) % 2 * 255
    fine = np.repeat(board[..., None], 3, axis=-1).astype(np.uint8)
    whole = _made(listed(STRAIGHT, picture(STRAIGHT)), frame_of(STRAIGHT), fine).whole()
    inner = whole[whole.shape[0] // 2 - 10 : whole.shape[0] // 2 + 10, 80:120]
    assert np.abs(inner.astype(int) - 188).max() <= 1


def test_16_bits_are_kept_until_the_end() -> None:
    ramp = np.tile((np.arange(600) * 8 + 20000).astype(np.uint16)[None, :, None], (400, 1, 3))
    whole = _made(listed(STRAIGHT, picture(STRAIGHT)), frame_of(STRAIGHT, 150.0), ramp).whole()
    row = whole[whole.shape[0] // 2, :, 0].astype(int)
    inside = row[(row > 70) & (row < 110)]
    # 8 bits cut at the start would round twice; the ends of the ramp tell: 20000/257 = 77.8, 24792/257 = 96.5.
    assert (inside[3:-3].min(), inside[3:-3].max()) == (78, 96)
    assert np.all(np.diff(inside[3:-3]) >= 0)


def test_changes_of_colour_do_not_band() -> None:
    item = PlacedGradient(element=0, copy=0, start=(0.50, 0.6, 0.5), end=(0.52, 0.6, 0.5), along="up")
    whole = _made(listed(STRAIGHT, item), frame_of(STRAIGHT, 200.0)).whole()
    column = whole[40:-40, 200:264, 0].astype(float)
    means = column[: len(column) // 8 * 8].reshape(-1, 8, 64).mean(axis=(1, 2))
    expected = np.linspace(means[0], means[-1], len(means))
    assert np.abs(means - expected).max() < 0.1
    assert np.all(whole[100:110, 200:264, 1] == 153)


def test_adjustment_is_the_cores() -> None:
    change = Adjust(lightness=12, contrast=-20, chroma=30)
    scene = listed(STRAIGHT, picture(STRAIGHT, adjust=change))
    flat = np.empty((160, 240, 3), dtype=np.uint8)
    flat[...] = (180, 90, 60)
    whole = _made(scene, frame_of(STRAIGHT), flat).whole()
    expected = adjusted(np.array([180, 90, 60]) / 255, change) * 255
    assert np.abs(whole[whole.shape[0] // 2, whole.shape[1] // 2] - expected).max() <= 0.6


def test_a_steep_sector_is_not_smeared_behind_its_apex() -> None:
    steep = FlatWrap(20.0, 330.0, 52.0, overlap_mm=4.0)  # nearly a whole disc: 341 degrees
    scene = listed(steep, picture(steep, width=steep.turn_length(26.0), height_mm=60.0, window_mm=(174.0, 60.0)))
    frame = seen_frame((-60.0, -60.0, 60.0, 60.0), 60.0)
    colours, ink = with_ink(_made(scene, frame, smooth()))
    x, y = np.meshgrid(np.arange(frame.width_px) + 0.5, np.arange(frame.height_px) + 0.5)
    turn, up = steep.from_flat(x * 25.4 / 60 - 60, 60 - y * 25.4 / 60)
    inner = (turn > 8) & (turn < 352) & (up > 2) & (up < 50) & (ink == 255)
    a = (turn[inner] - 180) / 360 * steep.turn_length(26.0)
    wave = smooth(960, 640)
    u = np.clip((0.5 + a / steep.turn_length(26.0)) * 960, 0, 959).astype(int)
    v = np.clip((0.5 - (up[inner] - 26) / 60) * 640, 0, 639).astype(int)
    assert np.percentile(np.abs(colours[inner].astype(int) - wave[v, u]), 99.9) <= 4


def test_single_colours_are_the_rasters_to_the_code() -> None:
    colour = (14 / 255, 58 / 255, 90 / 255)
    whole = _made(listed(STRAIGHT, fill(STRAIGHT, colour)), frame_of(STRAIGHT)).whole()
    assert whole[50, 80].tolist() == [14, 58, 90]
    assert srgb.decode(np.array(colour)).max() < 0.2
