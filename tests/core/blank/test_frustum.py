"""The development of a frustum against published nets and closed forms, to their tolerances."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import (
    bounding_box_mm,
    outer_chord_mm,
    outer_sagitta_mm,
)


def frustum(small: float, large: float, axial: float) -> FlatWrap:
    """Return the flat wrap of a bare frustum from its diameters and upright height."""
    slant = math.hypot(axial, (large - small) / 2.0)
    return FlatWrap(lower_mm=math.pi * small, upper_mm=math.pi * large, height_mm=slant)


def sector(radius: float, chord: float) -> FlatWrap:
    """Return the flat wrap whose longer arc has this radius and this chord."""
    theta = 2.0 * math.asin(chord / 2.0 / radius)
    return FlatWrap(lower_mm=(radius - 1.0) * theta, upper_mm=radius * theta, height_mm=1.0)


def drawn_area(wrap: FlatWrap) -> float:
    """Return the area inside one whole turn of the band as `to_flat` draws it, by the shoelace formula."""
    turns = np.linspace(0.0, 360.0, 4001)
    lower, upper = (np.stack(wrap.to_flat(turns, np.full(turns.shape, up)), axis=1) for up in (0.0, wrap.height_mm))
    x, y = np.concatenate([lower, upper[::-1]]).T
    return float(abs(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2.0


def angle_deg(wrap: FlatWrap) -> float:
    return math.degrees(abs(wrap.theta))


def test_published_net_of_diameters_5_and_8_height_4() -> None:
    # ceemrr.com/Geometry2/DrawingsNets/DrawingsNets6.html prints 7.12, 11.39 and 126.4 degrees.
    wrap = frustum(5, 8, 4)
    assert wrap.inner_radius_mm == pytest.approx(7.12, abs=0.005)
    assert wrap.outer_radius_mm == pytest.approx(11.39, abs=0.005)
    assert angle_deg(wrap) == pytest.approx(126.4, abs=0.05)
    # All digits by the closed form.
    assert wrap.height_mm == pytest.approx(4.272002, abs=5e-7)
    assert wrap.inner_radius_mm == pytest.approx(7.120003, abs=5e-7)
    assert wrap.outer_radius_mm == pytest.approx(11.392005, abs=5e-7)
    assert angle_deg(wrap) == pytest.approx(126.40444, abs=5e-6)


def test_published_net_past_180_degrees() -> None:
    # mathcentral.uregina.ca/QQ/database/QQ.09.11/h/fleur1.html: slant 26.4, outer radius 33, missing wedge 142 degrees.
    # The page's inner radius 6.75 subtracts the upright height where the slant belongs; 6.60019 is right.
    wrap = frustum(8, 40, 21)
    assert wrap.height_mm == pytest.approx(26.4, abs=0.05)
    assert wrap.outer_radius_mm == pytest.approx(33, abs=0.5)
    assert 360 - angle_deg(wrap) == pytest.approx(142, abs=0.5)
    assert wrap.height_mm == pytest.approx(26.40076, abs=5e-6)
    assert wrap.outer_radius_mm == pytest.approx(33.00095, abs=5e-6)
    assert angle_deg(wrap) == pytest.approx(218.1756, abs=5e-5)
    assert 360 - angle_deg(wrap) == pytest.approx(141.8244, abs=5e-5)
    assert wrap.inner_radius_mm == pytest.approx(6.60019, abs=5e-6)
    assert abs(wrap.inner_radius_mm - 6.75) > 0.1


def test_full_cone_of_the_3_4_5_triangle() -> None:
    wrap = frustum(0, 6, 4)
    assert wrap.outer_radius_mm == pytest.approx(5, rel=1e-9)
    assert wrap.inner_radius_mm == 0.0
    assert angle_deg(wrap) == pytest.approx(216, rel=1e-9)
    assert drawn_area(wrap) == pytest.approx(15 * math.pi, rel=1e-6)


def test_a_tapered_blank_in_full() -> None:
    # Closed form, diameters 72 and 90, upright height 160.
    wrap = frustum(72, 90, 160)
    assert wrap.height_mm == pytest.approx(160.25293, abs=1e-3)
    assert wrap.outer_radius_mm == pytest.approx(801.26463, abs=1e-3)
    assert wrap.inner_radius_mm == pytest.approx(641.01170, abs=1e-3)
    assert angle_deg(wrap) == pytest.approx(20.21800, abs=1e-3)
    assert outer_chord_mm(wrap) == pytest.approx(281.2787, abs=1e-3)
    inner_chord = 2 * wrap.inner_radius_mm * math.sin(wrap.theta / 2)
    assert inner_chord == pytest.approx(225.0229, abs=1e-3)
    assert outer_sagitta_mm(wrap) == pytest.approx(12.4392, abs=1e-3)
    assert (wrap.upper_mm, wrap.lower_mm) == pytest.approx((282.7433, 226.1947), abs=1e-3)
    assert bounding_box_mm(wrap) == pytest.approx((281.2787, 170.2043), abs=1e-3)


def test_the_foot_wider_than_the_rim_is_the_same_sector_upside_down() -> None:
    upright, inverted = frustum(72, 90, 160), frustum(90, 72, 160)
    assert inverted.inverted
    assert not upright.inverted
    assert inverted.outer_radius_mm == pytest.approx(upright.outer_radius_mm, rel=1e-12)
    assert bounding_box_mm(inverted) == pytest.approx(bounding_box_mm(upright), rel=1e-12)
    assert outer_sagitta_mm(inverted) == pytest.approx(outer_sagitta_mm(upright), rel=1e-12)


def test_a_cylinder_of_80_mm() -> None:
    # pi D.
    wrap = frustum(80, 80, 100)
    assert wrap.trim_width_mm == pytest.approx(251.327412, abs=1e-6)
    assert bounding_box_mm(wrap) == pytest.approx((251.327412, 100), abs=1e-6)
    assert outer_chord_mm(wrap) == pytest.approx(251.327412, abs=1e-6)
    assert outer_sagitta_mm(wrap) == 0.0


def test_the_limit_to_the_cylinder_keeps_its_digits() -> None:
    # Closed form in extended precision: diameters 80 and 80.01, height 100.
    wrap = frustum(80, 80.01, 100)
    assert angle_deg(wrap) == pytest.approx(0.0180000, abs=1e-6)
    assert wrap.outer_radius_mm == pytest.approx(800100.001, rel=1e-8)
    assert outer_chord_mm(wrap) == pytest.approx(251.358827, abs=1e-6)
    assert outer_sagitta_mm(wrap) == pytest.approx(0.009871, abs=1e-6)


def test_sagitta_from_radius_and_chord() -> None:
    # bit1024.com/tool/Arc-Height-Sagitta-Calculator: 2 and 3.82.
    assert outer_sagitta_mm(sector(10, 12)) == pytest.approx(2, rel=1e-12)
    assert outer_sagitta_mm(sector(15, 20)) == pytest.approx(3.82, abs=0.005)
    assert outer_sagitta_mm(sector(15, 20)) == pytest.approx(3.819660, abs=5e-7)


def test_radius_from_chord_and_sagitta() -> None:
    # Inverse of the chord and sagitta formulas, frustum of diameters 60 and 90, height 150.
    wrap = frustum(60, 90, 150)
    assert outer_chord_mm(wrap) == pytest.approx(278.160893, abs=1e-6)
    assert outer_sagitta_mm(wrap) == pytest.approx(21.917052, abs=1e-6)
    radius = outer_chord_mm(wrap) ** 2 / (8.0 * outer_sagitta_mm(wrap)) + outer_sagitta_mm(wrap) / 2.0
    assert radius == pytest.approx(452.24440, abs=1e-5)
    assert wrap.outer_radius_mm == pytest.approx(452.24440, abs=1e-5)


sizes = st.floats(30.0, 300.0)


@given(sizes, sizes, sizes)
@settings(max_examples=80, derandomize=True)
def test_what_holds_for_every_frustum(first: float, second: float, axial: float) -> None:
    # Arcs pi D, mantle pi (R + r) s, radii one slant apart (essaylux.com/homework/637727 gives the area).
    small, large = sorted((first, second))
    wrap = frustum(small, large, axial)
    area = math.pi * (small + large) / 2 * wrap.height_mm
    assert drawn_area(wrap) == pytest.approx(area, rel=1e-6)
    if not wrap.is_sector or wrap.theta < 1e-4:
        return  # radii of kilometres: their difference has no nine digits left
    theta, inner, outer = wrap.theta, wrap.inner_radius_mm, wrap.outer_radius_mm
    assert outer * theta == pytest.approx(math.pi * large, rel=1e-9)
    assert inner * theta == pytest.approx(math.pi * small, rel=1e-9)
    assert theta / 2 * (outer - inner) * (outer + inner) == pytest.approx(area, rel=1e-9)
    assert outer - inner == pytest.approx(wrap.height_mm, rel=1e-9)
    assert outer_chord_mm(wrap) == pytest.approx(2 * outer * math.sin(theta / 2), rel=1e-9)
    assert outer_sagitta_mm(wrap) == pytest.approx(2 * outer * math.sin(theta / 4) ** 2, rel=1e-9)


@given(sizes, sizes, sizes, st.floats(0.1, 10.0))
@settings(max_examples=40, derandomize=True)
def test_everything_scales_with_the_blank(first: float, second: float, axial: float, factor: float) -> None:
    one, more = frustum(first, second, axial), frustum(first * factor, second * factor, axial * factor)
    assert more.theta == pytest.approx(one.theta, rel=1e-9, abs=1e-12)
    assert bounding_box_mm(more) == pytest.approx([side * factor for side in bounding_box_mm(one)], rel=1e-9)
    assert outer_chord_mm(more) == pytest.approx(outer_chord_mm(one) * factor, rel=1e-9)
    assert drawn_area(more) == pytest.approx(drawn_area(one) * factor**2, rel=1e-9)


@given(st.floats(60.0, 500.0), st.floats(40.0, 250.0), st.integers(2, 12))
@settings(max_examples=40, derandomize=True)
def test_a_vanishing_taper_becomes_the_rectangle(girth: float, height: float, zeros: int) -> None:
    near = FlatWrap(girth, girth + 10.0**-zeros, height)
    straight = FlatWrap(girth, girth, height)
    turns, ups = np.meshgrid(np.linspace(0, 360, 7), np.linspace(0, height, 4))
    moved = np.abs(np.subtract(near.to_flat(turns, ups), straight.to_flat(turns, ups))).max()
    # A taper of d moves no point by more than d times the larger of 1 and girth / height.
    assert moved <= 10.0**-zeros * max(1.0, girth / height) + 1e-12
    assert bounding_box_mm(near) == pytest.approx(bounding_box_mm(straight), abs=10.0**-zeros * (1 + girth / height))


@given(sizes, sizes, sizes)
@settings(max_examples=60, derandomize=True)
def test_flat_and_back(first: float, second: float, axial: float) -> None:
    wrap = frustum(first, second, axial)
    turns, ups = np.meshgrid(np.linspace(0, 360, 9), np.linspace(0, wrap.height_mm, 5))
    back = wrap.from_flat(*wrap.to_flat(turns, ups))
    assert np.abs(back[0] - turns).max() < 1e-8
    assert np.abs(back[1] - ups).max() < 1e-8


@given(st.floats(20.0, 300.0), st.floats(60.0, 300.0), st.floats(30.0, 250.0), st.floats(0.0, 8.0), st.booleans())
@settings(max_examples=60, derandomize=True)
def test_the_box_holds_the_outline_and_touches_it(
    first: float, second: float, axial: float, overlap: float, upside: bool
) -> None:
    small, large = (second, first) if upside else (first, second)
    bare = frustum(small, large, axial)
    wrap = FlatWrap(bare.lower_mm, bare.upper_mm, bare.height_mm, overlap_mm=overlap)
    assume(not wrap.is_sector or overlap < 0.5 * wrap.inner_radius_mm)
    # The outline drawn densely from the sector's own centre, the strip from the parallel line: no shared code.
    points = dense_outline(wrap)
    width, height = bounding_box_mm(wrap)
    spans = points.max(axis=0) - points.min(axis=0)
    assert (width, height) == pytest.approx(tuple(spans), abs=0.02)
    assert width >= spans[0] - 1e-9
    assert height >= spans[1] - 1e-9


def dense_outline(wrap: FlatWrap) -> np.ndarray:
    if not wrap.is_sector:
        half = wrap.lower_mm / 2
        return np.array([[-half, 0], [half + wrap.overlap_mm, wrap.height_mm]])
    theta, points = abs(wrap.theta), []
    for radius in (wrap.inner_radius_mm, wrap.outer_radius_mm):
        phi = np.linspace(-theta / 2, theta / 2 + math.asin(wrap.overlap_mm / radius), 20001)
        points.append(np.stack([radius * np.sin(phi), radius * np.cos(phi)], axis=1))
    return np.concatenate(points)
