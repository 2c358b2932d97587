"""Joins lie where they show least, panels fit, and together they are the wrap."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import inside_trim
from wrapwright.core.sheet.panels.joins import STEP_DEG, JoinsAsked, panels_of, place_costs

WRAP = FlatWrap(240.0, 240.0, 100.0, overlap_mm=6.0)


def within(width_mm):
    return lambda panel: panel.trim_width_mm <= width_mm


def joins(panels):
    return [panel.to_turn for panel in panels[:-1]]


def test_one_panel_when_it_fits_and_two_halves_joined_at_the_right_when_not():
    assert panels_of(JoinsAsked(WRAP, 5.0), within(246.0)) == (WRAP,)
    two = panels_of(JoinsAsked(WRAP, 5.0), within(150.0))
    assert [(one.from_turn, one.to_turn, one.overlap_mm) for one in two] == [(0.0, 180.0, 5.0), (180.0, 360.0, 6.0)]
    assert two[0].at_of(two[0].to_turn) == 90.0  # the seam is at the left, so the join lies at the right


def test_a_join_keeps_out_of_elements_and_of_busy_places():
    [first, _] = panels_of(JoinsAsked(WRAP, 5.0, busy=((170.0, 200.0),)), within(200.0))
    assert first.to_turn == 200.0 or first.to_turn < 170.0
    shows = np.full(720, 30.0)
    shows[2 * 150 : 2 * 154] = 0.0
    [first, _] = panels_of(JoinsAsked(WRAP, 5.0, shows=shows), within(200.0))
    assert 150.0 <= first.to_turn <= 154.0


def test_joins_that_are_asked_for_are_taken_as_they_are():
    three = panels_of(JoinsAsked(WRAP, 5.0, joins_deg=(0.0, 90.0, 270.0)), within(150.0))
    assert joins(three) == [90.0, 180.0]
    with pytest.raises(WrapwrightError, match=r"panel 2 of 2 would be 186\.0 mm wide"):
        panels_of(JoinsAsked(WRAP, 5.0, joins_deg=(0.0,)), within(150.0))
    with pytest.raises(WrapwrightError, match="make 2 panels, and 3 are asked for"):
        panels_of(JoinsAsked(WRAP, 5.0, count=3, joins_deg=(0.0,)), within(250.0))
    with pytest.raises(WrapwrightError, match="100 mm"):
        panels_of(JoinsAsked(WRAP, 5.0), within(10.0))


@settings(max_examples=20)
@given(
    st.lists(st.floats(0.0, 20.0), min_size=36, max_size=36),
    st.floats(70.0, 200.0),
    st.sampled_from([0.0, 24.0]),
    st.sampled_from([2, 3]),
)
def test_no_other_joins_on_the_grid_cost_less(shows, width, gap, count):
    wrap = replace(WRAP, gap_mm=gap, overlap_mm=0.0 if gap else 6.0)
    asked = JoinsAsked(wrap, 5.0, count=count, shows=np.asarray(shows))
    turns = np.arange(0.0, 360.0 + STEP_DEG / 2.0, STEP_DEG)
    costs = place_costs(asked, turns)

    def fit(ends):
        found = []
        for first, last in itertools.pairwise(ends):
            overlap = wrap.overlap_mm if last == 360.0 else 5.0
            found.append(replace(wrap, from_turn=first, to_turn=last, overlap_mm=overlap).trim_width_mm <= width)
        return all(found)

    coarse = range(24, 720, 24)
    ways = [way for way in itertools.combinations(coarse, count - 1) if fit([0.0, *turns[list(way)], 360.0])]
    try:
        found = [round(turn / STEP_DEG) for turn in joins(panels_of(asked, within(width)))]
    except WrapwrightError:
        assert not ways
        return
    assert len(found) == count - 1
    assert fit([0.0, *turns[found], 360.0])
    assert all(sum(costs[found]) <= sum(costs[list(way)]) + 0.01 for way in ways)


@settings(max_examples=40)
@given(st.floats(0.0, 0.6), st.integers(2, 5))
def test_panels_without_overlap_cover_the_wrap_once(taper, count):
    wrap = FlatWrap(220.0, 220.0 + taper * 110.0, 110.0, overlap_mm=0.0)
    panels = panels_of(JoinsAsked(wrap, 0.0, count=count), lambda _: True)
    x, y = wrap.to_flat(*np.meshgrid(np.linspace(0.13, 359.87, 98), np.linspace(0.5, 109.5, 7)))
    assert np.array_equal(sum(inside_trim(panel, x, y).astype(int) for panel in panels), np.ones(x.shape))
