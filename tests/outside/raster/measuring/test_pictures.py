"""Bare, white and nearly white pictures whose shares are known by their making."""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.measuring.wraps import GREY, STRAIGHT, TAPERED, box, ground, measured, picture

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab
from wrapwright.core.colour.difference import ciede2000
from wrapwright.core.design.path import rectangle
from wrapwright.outside.raster.measuring.pictures import NEARLY_WHITE, WHITE_DE


def plain(colour, *, size=(120, 160)) -> np.ndarray:
    return np.full((*size, 3), colour, dtype=np.uint8)


def with_alpha(array: np.ndarray, alpha: np.ndarray) -> np.ndarray:
    return np.concatenate([array, alpha[..., None].astype(np.uint8)], axis=-1)


def row_of(array, *, below=(), above=(), facts=None, **more):
    item, pixels = picture(array, element=1, **more)
    items = [*below, item, *above]
    return measured(items, {1: "picture"}, pixels=[pixels], wrap=item.placement.wrap, **(facts or {}))[0][1]


def grey_from_white(code: int) -> float:
    """CIEDE2000 of a grey from white: L* by CIE 15, and the lightness term alone of CIE 142 (no chroma)."""
    light = ((code / 255 + 0.055) / 1.055) ** 2.4
    lightness = 116 * light ** (1 / 3) - 16
    away = ((lightness + 100) / 2 - 50) ** 2
    return (100 - lightness) / (1 + 0.015 * away / (20 + away) ** 0.5)


@pytest.mark.parametrize("code", [0xFD, 0xF5, 0xE8])
@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
def test_a_background_that_is_not_quite_white(code, wrap):
    art = plain(code)
    art[20:100, 20:140] = (200, 30, 30)
    assert row_of(art, wrap=wrap).frame_de == pytest.approx(grey_from_white(code), abs=0.02)


def test_transparent_parts_of_the_frame_count_as_white():
    art = with_alpha(plain(0xE8), np.full((120, 160), 255))
    art[:, 80:, 3] = 0
    assert row_of(art).frame_de == pytest.approx(grey_from_white(0xE8) / 2, rel=0.05)


def test_a_frame_has_no_meaning_where_masked_or_over_something():
    art = plain(0xF5)
    assert row_of(art, facts={"masked": True}).frame_de is None
    assert row_of(art, below=[box(-5, 20, 5, 30, GREY)]).frame_de is None
    assert row_of(art, below=[box(-50, 0, -40, 10, GREY)]).frame_de is not None  # beside it
    assert row_of(art, above=[box(-5, 20, 5, 30, GREY, 2)]).frame_de is not None


def test_a_picture_that_covers_the_whole_wrap_has_no_frame_on_it():
    butt = FlatWrap(120.0, 120.0, 50.0)
    assert row_of(plain(0xF5), wrap=butt, width=130.0, height=60.0, facts={"wide": True}).frame_de is None


def test_only_edges_on_the_wrap_are_looked_at():
    art = plain(255)
    art[:, :4] = 0xE8  # its left edge, 30 of its border's 140 mm
    mug = FlatWrap(120.0, 120.0, 50.0, gap_mm=10.0)
    assert row_of(art, turn=180.0, wrap=mug).frame_de == pytest.approx(grey_from_white(0xE8) * 30 / 140, rel=0.05)
    over_the_left_end = row_of(art, turn=40.0, wrap=mug, facts={"wide": True})
    assert over_the_left_end.frame_de == pytest.approx(0.0, abs=0.01)


def test_art_that_reaches_the_border_is_no_background():
    art = plain(255)
    art[:, 60:75] = (30, 60, 20)  # a stalk from top to bottom
    assert row_of(art).frame_de < 0.3
    art = plain(0xF5)
    art[:, 60:75] = (30, 60, 20)
    assert row_of(art).frame_de == pytest.approx(grey_from_white(0xF5), abs=0.3)
    assert row_of(plain(90)).frame_de > 40.0


def test_white_share_is_that_of_its_visible_pixels():
    art = plain(255)
    art[:, :40] = (10, 90, 160)
    assert row_of(art).white_share == pytest.approx(0.75, abs=0.01)
    hidden = box(0, 0, 30, 50, GREY, 2)  # covers its right half
    assert row_of(art, above=[hidden]).white_share == pytest.approx(0.5, abs=0.02)
    clear = with_alpha(art, np.where(np.arange(160) < 80, 255, 0)[None].repeat(120, 0))
    assert row_of(clear).white_share == pytest.approx(0.5, abs=0.02)


def test_bare_share_by_its_own_alpha_and_what_lies_below():
    alpha = np.full((120, 160), 255)
    alpha[:60, :80] = 0
    art = with_alpha(plain(60), alpha)
    assert row_of(art).bare_share == pytest.approx(0.25, abs=0.01)
    assert row_of(art, below=[ground(GREY)]).bare_share == 0.0
    assert row_of(art, below=[ground(GREY, opacity=0.5)]).bare_share == pytest.approx(0.25, abs=0.01)
    assert row_of(plain(60)).bare_share == 0.0
    assert row_of(plain(60), opacity=0.5).bare_share == 1.0


def test_the_border_is_the_masks():
    alpha = np.zeros((120, 160))
    alpha[:, :80] = 255
    art = with_alpha(plain(60), alpha)
    masked = {"facts": {"masked": True}}
    assert row_of(art, mask=rectangle(-20, -15, 0, 15), **masked).bare_share == pytest.approx(0.0, abs=0.01)
    assert row_of(art, mask=rectangle(0, -15, 20, 15), **masked).bare_share == pytest.approx(1.0, abs=0.02)


def test_across_the_seam_both_parts_count():
    alpha = np.full((120, 160), 255)
    alpha[:, 80:] = 0
    item, pixels = picture(with_alpha(plain(60), alpha), element=1, turn=0.0)
    beyond, _ = picture(with_alpha(plain(60), alpha), element=1, turn=360.0)
    row = measured([item, beyond], {1: "picture"}, pixels=[pixels])[0][1]
    # The left part is whole, the right one bare, and the overlap shows 6 mm of the latter again.
    assert row.bare_share == pytest.approx((20 + 6) / (40 + 6), abs=0.02)


def test_no_darker_colour_is_near_white():
    """What the quick look passes over: a channel under the mark is more than CIEDE2000 1 from white."""
    ramp = np.linspace(0, 1, 52)
    low = (NEARLY_WHITE - 1) / 255
    others = np.stack(np.meshgrid(ramp, ramp, indexing="ij"), axis=-1).reshape(-1, 2)
    for at in range(3):
        colours = np.insert(others, at, low, axis=1)
        assert ciede2000(lab.of_srgb(colours), np.array([100.0, 0.0, 0.0])).min() > WHITE_DE
