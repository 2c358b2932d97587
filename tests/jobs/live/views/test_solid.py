"""The blank in space from lengths along its wall."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.blank.readings import Blank, Handle, Reading, WrapRequest
from wrapwright.core.blank.wrapped import Setup, wrap_blank
from wrapwright.jobs.live.views.solid import figures_of, solid_of


def test_height_is_what_the_slope_leaves_of_the_wall() -> None:
    # A wall of 50 mm whose radius grows by 30 mm stands 40 mm high (3, 4, 5).
    girths = [2.0 * math.pi * radius for radius in (100.0, 130.0)]
    blank = Blank("tapered", tuple(Reading(None, girth) for girth in girths), wall_mm=50.0, coating="#abc")
    wrapped = wrap_blank(blank, WrapRequest(band_from_mm=5.0, band_height_mm=40.0), Setup(thickness_mm=0.0))
    solid = solid_of(wrapped, blank)
    (low, foot, start), (high, rim, end) = solid.wall
    assert (low, foot, start) == pytest.approx((0.0, 100.0, 0.0))
    assert (high, rim, end) == pytest.approx((40.0, 130.0, 50.0))
    assert (solid.band_from_mm, solid.band_height_mm, solid.coating) == (5.0, 40.0, "#aabbcc")
    assert solid.read_deg == pytest.approx(120.0)  # a far eye reads 60 degrees each side
    assert solid.handle is None


def test_figures_are_those_of_the_wrap() -> None:
    blank = Blank("straight", (Reading(None, 240.0),), wall_mm=90.0, handle=Handle(180.0, 20.0))
    wrapped = wrap_blank(blank, WrapRequest(), Setup(thickness_mm=0.0))
    figures = figures_of(wrapped)
    assert (figures.width_mm, figures.height_mm, figures.overlap_mm) == pytest.approx((220.0, 90.0, 0.0))
    assert figures.opposite_error_mm == pytest.approx(figures.girth_error_mm / 2.0)
    assert solid_of(wrapped, blank).handle == (180.0, 20.0)
