"""Flat wraps folded back round their blanks in space: what is opposite, what is undistorted, where the ends meet."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import trim_box, trim_corners
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.placement import Placement


def fold(wrap: FlatWrap, flat: np.ndarray) -> np.ndarray:
    """Return the points in space, (n, 3), of flat points rolled round the cone or cylinder of the paper's middle layer.

    Written from what rolling is, not from the code under test: on a cone the distance from the apex stays and the polar
    angle about it grows by 2 pi / sector angle; on a cylinder x becomes an arc. Front looks along +x, right +y, up +z.
    """
    x, y = flat[:, 0], flat[:, 1]
    opposite_seam = math.radians(wrap.seam_deg + 180.0)
    taper = (wrap.upper_mm - wrap.lower_mm) / wrap.height_mm
    if taper == 0.0:
        radius = wrap.lower_mm / (2 * math.pi)
        azimuth = opposite_seam + x / radius
        return np.stack([radius * np.cos(azimuth), radius * np.sin(azimuth), y], axis=1)
    sector = abs(taper)
    apex = -wrap.lower_mm / taper  # on the y axis: below a wall that widens upwards, above one that narrows
    away = y - apex if taper > 0 else apex - y
    slant = np.hypot(x, away)
    azimuth = opposite_seam + np.arctan2(x, away) * 2 * math.pi / sector
    sine = sector / (2 * math.pi)  # of the cone's half-angle: the circle at a slant has the length slant x sector
    along_axis = slant * math.sqrt(1 - sine**2) * (1 if taper > 0 else -1)
    return np.stack([slant * sine * np.cos(azimuth), slant * sine * np.sin(azimuth), along_axis], axis=1)


def azimuth_deg(points: np.ndarray) -> np.ndarray:
    return np.degrees(np.arctan2(points[:, 1], points[:, 0])) % 360.0


def off(angle: float, wanted: float) -> float:
    return abs((angle - wanted + 180.0) % 360.0 - 180.0)


@st.composite
def wraps(draw: st.DrawFn) -> FlatWrap:
    lower = draw(st.floats(120.0, 400.0))
    height = draw(st.floats(40.0, 250.0))
    lean = draw(st.one_of(st.just(0.0), st.floats(-0.45, 0.45)))  # sine of the half-angle, up to 27 degrees
    upper = lower + 2 * math.pi * height * lean
    if upper < 60.0:
        lower, upper = lower + 60.0 - upper, 60.0
    return FlatWrap(lower, upper, height, seam_deg=draw(st.floats(0.0, 359.0)))


@given(wraps(), st.floats(0.05, 0.95))
@settings(max_examples=80, derandomize=True)
def test_front_and_back_are_opposite_on_the_folded_blank(wrap: FlatWrap, share: float) -> None:
    up = share * wrap.height_mm
    for lay in ("true", "level"):
        front, right, back, left = (
            Placement(wrap, wrap.turn_of(at), up, lay=lay).to_flat(np.zeros((1, 2))) for at in (0.0, 90.0, 180.0, 270.0)
        )
        found = azimuth_deg(fold(wrap, np.concatenate([front, right, back, left])))
        for angle, wanted in zip(found, (0.0, 90.0, 180.0, 270.0), strict=True):
            assert off(angle, wanted) < 1e-6
        assert np.ptp(fold(wrap, np.concatenate([front, right, back, left]))[:, 2]) < 1e-7


@given(wraps(), st.floats(0.0, 360.0), st.floats(0.2, 0.8), st.floats(0.0, 360.0))
@settings(max_examples=60, derandomize=True)
def test_a_true_element_is_undistorted_in_space(wrap: FlatWrap, turn: float, share: float, own_turn: float) -> None:
    # Over a step of 10 micrometres a chord in space is as long as the way on the surface, to parts in 1e8.
    placed = Placement(wrap, turn, share * wrap.height_mm, lay="true", turn_deg=own_turn)
    step, size = 0.01, 12.0
    corners = np.array([[a, b] for a in (-size, 0.0, size) for b in (-size, 0.0, size)])
    here = fold(wrap, placed.to_flat(corners))
    right = fold(wrap, placed.to_flat(corners + np.array([step, 0.0]))) - here
    up = fold(wrap, placed.to_flat(corners + np.array([0.0, step]))) - here
    assert np.abs(np.linalg.norm(right, axis=1) / step - 1.0).max() < 1e-6
    assert np.abs(np.linalg.norm(up, axis=1) / step - 1.0).max() < 1e-6
    # and what is square stays square (the bend over one step leaves about step / radius)
    assert np.abs((right * up).sum(axis=1) / step**2).max() < 1e-3


@given(wraps(), st.floats(0.0, 360.0), st.floats(0.2, 0.8))
@settings(max_examples=30, derandomize=True)
def test_a_long_straight_line_keeps_its_length_round_the_blank(wrap: FlatWrap, turn: float, share: float) -> None:
    # A straight line on paper is a geodesic on the blank; its length is the sum of many short chords in space.
    placed = Placement(wrap, turn, share * wrap.height_mm, lay="true")
    line = np.stack([np.linspace(-15.0, 15.0, 3001), np.linspace(-9.0, 9.0, 3001)], axis=1)
    chords = np.linalg.norm(np.diff(fold(wrap, placed.to_flat(line)), axis=0), axis=1)
    assert chords.sum() == pytest.approx(math.hypot(30.0, 18.0), rel=1e-6)


@given(wraps(), st.floats(0.0, 360.0), st.floats(0.2, 0.8))
@settings(max_examples=40, derandomize=True)
def test_an_upright_of_a_true_element_runs_up_the_wall(wrap: FlatWrap, turn: float, share: float) -> None:
    placed = Placement(wrap, turn, share * wrap.height_mm, lay="true")
    found = azimuth_deg(fold(wrap, placed.to_flat(np.array([[0.0, -5.0], [0.0, 0.0], [0.0, 5.0]]))))
    assert max(off(angle, wrap.at_of(turn)) for angle in found) < 1e-6


@given(wraps(), st.floats(0.0, 360.0), st.floats(0.2, 0.8))
@settings(max_examples=40, derandomize=True)
def test_a_level_element_follows_the_rim_and_is_as_wide_as_asked(wrap: FlatWrap, turn: float, share: float) -> None:
    up = share * wrap.height_mm
    placed = Placement(wrap, turn, up, lay="level")
    line = np.stack([np.linspace(-20.0, 20.0, 4001), np.zeros(4001)], axis=1)
    points = fold(wrap, placed.to_flat(line))
    assert np.ptp(points[:, 2]) < 1e-7
    assert np.linalg.norm(np.diff(points, axis=0), axis=1).sum() == pytest.approx(40.0, rel=1e-6)


@given(wraps())
@settings(max_examples=40, derandomize=True)
def test_the_two_ends_meet_at_the_seam(wrap: FlatWrap) -> None:
    lower_left, lower_right, upper_right, upper_left = (np.array([point]) for point in trim_corners(wrap))
    assert np.abs(fold(wrap, lower_left) - fold(wrap, lower_right)).max() < 1e-6
    assert np.abs(fold(wrap, upper_left) - fold(wrap, upper_right)).max() < 1e-6
    assert off(float(azimuth_deg(fold(wrap, lower_left))[0]), wrap.seam_deg) < 1e-6


@given(wraps(), st.floats(3.0, 30.0))
@settings(max_examples=40, derandomize=True)
def test_a_handle_gap_is_a_strip_of_constant_width_about_the_handle(wrap: FlatWrap, gap: float) -> None:
    cut = FlatWrap(wrap.lower_mm, wrap.upper_mm, wrap.height_mm, gap_mm=gap, seam_deg=wrap.seam_deg)
    whole = trim_corners(wrap)
    for near, far, at in ((0, 3, 0), (0, 3, 3), (1, 2, 1), (1, 2, 2)):
        start, end = np.array(whole[near]), np.array(whole[far])
        along = (end - start) / np.linalg.norm(end - start)
        across = np.array(trim_corners(cut)[at]) - start
        # distance of the cut corner from the handle's own line, half the gap
        assert abs(along[0] * across[1] - along[1] * across[0]) == pytest.approx(gap / 2, abs=1e-9)
    left, right = (azimuth_deg(fold(cut, np.array([trim_corners(cut)[at]])))[0] for at in (0, 1))
    assert off((left - wrap.seam_deg) % 360.0, (wrap.seam_deg - right) % 360.0) < 1e-6


@given(wraps(), st.floats(0.5, 8.0))
@settings(max_examples=40, derandomize=True)
def test_the_overlap_is_a_strip_of_constant_width_beyond_the_right_end(wrap: FlatWrap, overlap: float) -> None:
    wide = FlatWrap(wrap.lower_mm, wrap.upper_mm, wrap.height_mm, overlap_mm=overlap, seam_deg=wrap.seam_deg)
    bare, trimmed = np.array(trim_corners(wrap)), np.array(trim_corners(wide))
    assert np.abs(bare[[0, 3]] - trimmed[[0, 3]]).max() == 0.0
    along = (bare[2] - bare[1]) / np.linalg.norm(bare[2] - bare[1])
    square = np.array([along[1], -along[0]])  # to the right of an upright
    for at in (1, 2):
        assert (trimmed[at] - bare[1]) @ square == pytest.approx(overlap, abs=1e-9)
    # its art is that of the left end: one seam step to the left it lies on the wrap
    step = np.linalg.inv(wide.carried_round(1.0))
    moved = step[:2, :2] @ ((trimmed[1] + trimmed[2]) / 2) + step[:2, 2]
    turn, _ = wide.from_flat(moved[0], moved[1])
    assert 0.0 < turn < 30.0


@given(wraps(), st.sampled_from([(0.0, 0.0), (6.0, 0.0), (0.0, 24.0)]))
@settings(max_examples=30, derandomize=True)
def test_the_figures_agree_with_the_outline_that_is_cut(wrap: FlatWrap, strips: tuple[float, float]) -> None:
    cut = FlatWrap(wrap.lower_mm, wrap.upper_mm, wrap.height_mm, overlap_mm=strips[0], gap_mm=strips[1])
    (outline,) = trim_outline(cut).subpaths
    starts, firsts, seconds, ends = (outline.points[at::3][: len(outline.points) // 3] for at in range(4))
    share = np.linspace(0.0, 1.0, 401)[:, None, None]
    drawn = (
        (1 - share) ** 3 * starts
        + 3 * share * (1 - share) ** 2 * firsts
        + 3 * share**2 * (1 - share) * seconds
        + share**3 * ends
    ).reshape(-1, 2)
    left, bottom, right, top = trim_box(cut)
    assert (left, bottom) == pytest.approx(tuple(drawn.min(axis=0)), abs=2e-3)
    assert (right, top) == pytest.approx(tuple(drawn.max(axis=0)), abs=2e-3)
