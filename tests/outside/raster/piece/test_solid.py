"""The meridian of the piece against closed forms."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.raster.piece.handle import tube_of
from wrapwright.outside.raster.piece.solid import solid_of


def test_the_height_is_the_upright_one():
    # G5 (closed form): diameters 72 and 90, slant 160.25293, upright height 160.
    solid = solid_of([(0.0, 72 * math.pi), (160.25293, 90 * math.pi)])
    assert solid.at_wall(160.25293) == pytest.approx((160.0, 45.0), abs=1e-5)
    assert solid.at_wall(0.0) == pytest.approx((0.0, 36.0), abs=1e-9)


def test_a_bulging_wall_keeps_its_readings():
    solid = solid_of([(0.0, 226.0), (40.0, 231.0), (90.0, 229.0)])
    for position, girth in ((0.0, 226.0), (40.0, 231.0), (90.0, 229.0)):
        assert solid.at_wall(position)[1] * 2 * math.pi == pytest.approx(girth, abs=1e-9)


@pytest.mark.parametrize("profile", [[(0, 200)], [(0, 200), (0, 210)], [(10, 200), (0, 210)], [(0, 100), (10, 200)]])
def test_what_is_no_wall_is_refused(profile):
    with pytest.raises(WrapwrightError) as refused:
        solid_of(profile)
    assert refused.value.kind is Kind.UNUSABLE


def test_the_handle_joins_the_wall_within_its_bare_width():
    solid = solid_of([(0.0, 258.0), (94.0, 258.0)])
    tube = tube_of(solid, 24.0)
    assert 2 * 1.3 * tube.half.max() <= 24.0
    assert tube.reach > solid.radius + 10
    for end in (0, -1):
        assert tube.rho[end] < solid.radius
        assert 0 < tube.z[end] < 94
