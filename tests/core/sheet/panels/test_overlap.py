"""The overlap of a join, from its own doubts; combined as JCGM 100:2008 (the GUM), 4.3.7 and 5.1.2."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.panels.joins import JoinsAsked, panels_of
from wrapwright.core.sheet.panels.overlap import join_budget, join_need, most_mm, with_overlaps

WRAP = FlatWrap(300.0, 300.0, 100.0, overlap_mm=6.5)


def test_the_doubts_of_a_join_are_rectangular_and_add_as_squares():
    terms = join_budget(150.0)
    assert [term.half_width_mm for term in terms] == [0.5, 0.5, pytest.approx(0.15)]
    need = join_need(150.0, 300.0, None)
    # By hand: 3.09 x sqrt((0.5^2 + 0.5^2 + 0.15^2) / 3) = 1.2895, above the sum of half-widths 1.15: the sum counts.
    assert need.doubt_mm == pytest.approx(min(3.09 * math.sqrt((0.25 + 0.25 + 0.0225) / 3.0), 1.15))
    assert need.growth_mm == pytest.approx(0.35)
    assert need.rounded_mm == 3.5  # 2 + 0.35 + 1.15 = 3.5


def test_each_join_has_its_own_overlap_and_the_last_keeps_the_seams():
    panels = panels_of(JoinsAsked(WRAP, most_mm(WRAP, 3.0), joins_deg=(20.0, 90.0)), lambda _: True)
    own = with_overlaps(panels, 3.0)
    assert [panel.overlap_mm for panel in own] == [
        join_need(300.0 * 110.0 / 360.0, 300.0, 3.0).rounded_mm,
        join_need(300.0 * 70.0 / 360.0, 300.0, 3.0).rounded_mm,
        6.5,
    ]
    assert max(panel.overlap_mm for panel in own[:2]) <= most_mm(WRAP, 3.0)
