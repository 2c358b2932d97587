"""Gamut, lightness and ink with eyes whose answers are known."""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.measuring.wraps import BLACK, STRAIGHT, WHITE, box, eye, ground, measured, picture

from wrapwright.core.colour import lab
from wrapwright.core.colour.difference import ciede2000


def off_in_red(codes):
    """A printer that misses by a thirtieth of the red code."""
    return codes[..., 0] / 30.0


def test_share_and_worst_are_those_of_the_visible_pixels():
    art = np.zeros((60, 80, 3), dtype=np.uint8)
    art[:, 40:, 0] = 180  # off by 6, over 5
    art[:, :40, 0] = 60  # off by 2
    item, pixels = picture(art, element=1)
    row = measured([item], {1: "picture"}, pixels=[pixels], look=eye(off=off_in_red))[0][1]
    assert row.out_of_gamut_share == pytest.approx(0.5, abs=0.01)
    assert row.out_of_gamut_worst == pytest.approx(6.0, abs=0.3)
    cover = box(0, 0, 30, 50, BLACK, 2)
    row = measured([item, cover], {1: "picture"}, pixels=[pixels], look=eye(off=off_in_red))[0][1]
    assert row.out_of_gamut_share == pytest.approx(0.0, abs=0.03)


def test_without_a_conversion_nothing_is_said_of_gamut_and_ink():
    rows, found = measured([ground((1.0, 0.0, 0.0))], {0: "fill"})
    assert (rows[0].out_of_gamut_share, rows[0].out_of_gamut_worst) == (None, None)
    assert (found.ink_percent, found.ink_limit_percent) == (None, None)


def test_what_is_wholly_covered_has_no_figures():
    rows, _ = measured([ground(WHITE), ground(BLACK, element=1)], {0: "fill", 1: "fill"}, look=eye(off=off_in_red))
    assert rows[0].out_of_gamut_share is None
    assert rows[0].lighter_de is None
    assert rows[1].out_of_gamut_share == 0.0


COATING = (0.75, 0.75, 0.72)


def lighter(*items, coating=COATING, kind="fill", **more):
    return measured(items, {items[0].element: kind}, look=eye(coating=coating), **more)[0][items[0].element].lighter_de


def test_lighter_than_the_coating():
    expected = float(ciede2000(lab.of_srgb(np.array(COATING)), lab.of_srgb(np.ones(3))))
    assert expected > 10.0
    assert lighter(ground(WHITE)) == pytest.approx(expected, abs=0.01)
    assert lighter(ground((0.4, 0.4, 0.4))) == 0.0
    assert lighter(ground(WHITE), coating=WHITE) == pytest.approx(0.0, abs=1e-6)


def test_soft_borders_of_dark_lettering_ask_for_nothing_light():
    strokes = [box(x + 0.1, 20, x + 0.73, 32, BLACK, 1) for x in range(-6, 7, 2)]
    assert lighter(*strokes, kind="text", coating=(0.3, 0.3, 0.3)) == 0.0


def test_a_translucent_copy_asks_for_the_mixture():
    veil = ground(WHITE, element=1, opacity=0.5)
    row = measured([ground(BLACK), veil], {1: "fill"}, look=eye(coating=COATING))[0][1]
    mixture = 188 / 255  # half of white's light, IEC 61966-2-1
    asked = lab.of_srgb(np.full(3, mixture))
    bare = lab.of_srgb(np.array(COATING))
    assert row.lighter_de == pytest.approx(float(ciede2000(bare, asked)) if asked[0] > bare[0] else 0.0, abs=0.2)


@pytest.mark.parametrize(("wide", "expected"), [(0.5, 160.0), (1.0, 320.0), (5.0, 320.0)])
def test_ink_is_the_mean_over_a_millimetre(wide, expected):
    """A printer that lays 320 % for black, nothing for white."""
    look = eye(ink=lambda codes: 320.0 - codes[..., 1] * (320.0 / 255.0))
    line = box(-10.0, 0, -10.0 + wide, 50, BLACK)
    assert measured([line], {0: "fill"}, wrap=STRAIGHT, look=look)[1].ink_percent == pytest.approx(expected, abs=1.0)
