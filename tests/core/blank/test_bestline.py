"""The minimax line through a profile against a linear programme solver and against brute force."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from wrapwright.core.blank.bestline import best_line, misfit, misfit_of, tallest_band
from wrapwright.core.blank.measuring.wall import Wall


@st.composite
def walls(draw: st.DrawFn) -> Wall:
    steps = draw(st.lists(st.floats(2.0, 40.0), min_size=2, max_size=9))
    positions = tuple(itertools.accumulate([draw(st.floats(0.0, 20.0)), *steps]))
    girths = tuple(draw(st.floats(220.0, 240.0)) for _ in positions)
    return Wall(positions, girths)


def programme(wall: Wall) -> float:
    """Return the least e with |a + b s - C| <= e, by HiGHS."""
    at, girth = np.array(wall.positions_mm) - wall.from_mm, np.array(wall.girths_mm)
    ones = np.ones_like(at)
    rows = np.concatenate([np.stack([ones, at, -ones], 1), np.stack([-ones, -at, -ones], 1)])
    solved = linprog([0, 0, 1], A_ub=rows, b_ub=np.concatenate([girth, -girth]), bounds=[(None, None)] * 3)
    assert solved.status == 0
    return float(solved.fun)


def brute(wall: Wall) -> float:
    """Return the least largest misfit over a fine fan of slopes, the level of each set half-way: an upper bound."""
    at, girth = np.array(wall.positions_mm), np.array(wall.girths_mm)
    slopes = np.linspace(-11.0, 11.0, 40001)[:, None]
    lifted = girth[None, :] - slopes * at[None, :]
    return float(np.ptp(lifted, axis=1).min() / 2.0)


@given(walls())
@settings(max_examples=60, derandomize=True, deadline=None)
def test_no_line_follows_the_profile_better(wall: Wall) -> None:
    line = best_line(wall)
    found = misfit_of(wall, line)
    assert found == pytest.approx(programme(wall), abs=1e-6)
    # the fan's slopes are 0.00055 apart, which moves no reading by more than that times the wall
    assert found <= brute(wall) + 1e-9
    assert brute(wall) <= found + 0.00055 * wall.length_mm
    # the misfit counts between readings too
    between = np.linspace(wall.from_mm, wall.to_mm, 2001)
    bare = np.interp(between, wall.positions_mm, wall.girths_mm)
    assert np.abs([line.at(at) - girth for at, girth in zip(between, bare, strict=True)]).max() <= found + 1e-9


def test_a_straight_profile_is_followed_exactly() -> None:
    wall = Wall((0.0, 30.0, 100.0), (220.0, 223.0, 230.0))
    line = best_line(wall)
    assert line.slope == pytest.approx(0.1, abs=1e-15)
    assert misfit_of(wall, line) == pytest.approx(0.0, abs=1e-12)
    assert best_line(Wall((0.0, 50.0, 90.0), (235.0, 235.0, 235.0))).slope == 0.0


def test_a_bulge_by_hand() -> None:
    # C = 226, 230, 226 at 0, 50, 100: the level line 228 is 2 off at all three; a pulled wrap stands off 4 / (2 pi).
    wall = Wall((0.0, 50.0, 100.0), (226.0, 230.0, 226.0))
    line = best_line(wall)
    fit = misfit(wall, wall, line, tolerance_mm=1.5)
    assert (line.slope, line.start_mm) == (0.0, 228.0)
    assert fit.misfit_mm == 2.0
    assert fit.short_mm == 2.0
    assert fit.stand_off_mm == pytest.approx(4 / (2 * math.pi))
    assert fit.curve == ((0.0, 2.0), (50.0, -2.0), (100.0, 2.0))


def test_the_tallest_band_by_hand() -> None:
    # A tent of slope 0.08 each side: with a below and b above its top the misfit is 0.08 a b / (a + b). At 1.5 mm that
    # allows a = b = 37.5 (75 tall) or, against one end of the wall, b = 50 and a = 30 (80 tall).
    wall = Wall((0.0, 50.0, 100.0), (226.0, 230.0, 226.0))
    low, height = tallest_band(wall, 1.5)
    assert (low, height) == (0.0, 80.0)
    assert tallest_band(wall, 2.0) == (0.0, 100.0)


@given(walls(), st.floats(0.2, 3.0))
@settings(max_examples=25, derandomize=True, deadline=None)
def test_the_tallest_band_fits_and_none_on_the_grid_is_taller(wall: Wall, tolerance: float) -> None:
    low, height = tallest_band(wall, tolerance)
    if height > 0:
        band = wall.between(low, low + height)
        assert misfit_of(band, best_line(band)) <= tolerance + 1e-9
    if height == wall.length_mm:
        return
    for start in np.arange(wall.from_mm, wall.to_mm - height - 0.5, 0.5)[::7]:
        taller = wall.between(float(start), float(start) + height + 0.5)
        assert misfit_of(taller, best_line(taller)) > tolerance - 1e-9


def test_the_wall_between_readings_is_straight() -> None:
    wall = Wall((0.0, 40.0, 90.0), (226.0, 231.0, 229.0))
    assert wall.girth_at(20.0) == pytest.approx(228.5)
    assert wall.girth_at(40.0) == 231.0
    assert wall.girth_at(90.0) == 229.0
    part = wall.between(20.0, 65.0)
    assert part.positions_mm == (20.0, 40.0, 65.0)
    assert part.girths_mm == pytest.approx((228.5, 231.0, 230.0))
