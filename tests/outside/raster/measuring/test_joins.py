"""Contrast round the wrap: edges along the upright count, level ones do not."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.outside.raster.measuring.joins import contrast_round

WRAP = FlatWrap(240.0, 240.0, 100.0)


def picture(paint):
    colours = np.full((200, 480, 3), 255, dtype=np.uint8)
    paint(colours)
    return colours, (-120.0, 0.0, 120.0, 100.0)


def shows(paint):
    return contrast_round(WRAP, *picture(paint), 360)


def test_flat_and_level_art_shows_nothing():
    assert shows(lambda _: None).max() == 0.0

    def stripes(colours):
        colours[::20] = 0

    assert shows(stripes).max() == pytest.approx(0.0, abs=1e-9)


def test_an_upright_edge_shows_where_it_is_black_on_white_by_100():
    def edge(colours):
        colours[:, 240:300] = 0  # from x = 0 to 30 mm: turns 180 to 225

    found = shows(edge)
    peaks = np.flatnonzero(found > 50.0) + 0.5
    assert set(np.round(peaks)) <= set(range(176, 185)) | set(range(221, 230))
    # CIEDE2000 of black against white is 100 (both on the lightness axis, S_L = 1 at mean L* 50; CIE 142-2001).
    assert found.max() == pytest.approx(100.0, abs=0.1)


def test_the_turn_closes_at_the_seam():
    def half(colours):
        colours[:, :240] = 0  # the left half black: one edge in the middle, one where the ends meet

    found = shows(half)
    assert found[0] > 50.0
    assert found[-1] > 50.0
