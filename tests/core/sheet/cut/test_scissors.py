"""Centimetres of scissors from plane geometry."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.values import ScissorWork, Trimmer
from wrapwright.core.sheet.lay.values import SIDES, Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock

HOUSE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (20.0, 50.0), (0.0, 30.0))


def work_of(shape: Shape, *, trimmed: bool, true: frozenset[str] = frozenset(SIDES)) -> ScissorWork | None:
    """Return the scissor work of one piece on a sheet."""
    part = Part(shape, true=true)
    cell = Cell(5.0, 5.0, 500.0, 500.0, part=0, copy=0) if trimmed else None
    sheet = LaidSheet(0, 510.0, 510.0, (Laid(0, 0, 20.0, 20.0, 0),), cell)
    cuts = cut_list(Layout(LayRequest((part,), (Stock("paper", 510.0, 510.0),)), (sheet,)), Trimmer(longest_mm=600.0))
    assert len(cuts.strokes) == (len(true) if trimmed else 0)
    return cuts.scissors[0] if cuts.scissors else None


def sector(inner: float, outer: float, half_deg: float) -> Shape:
    half = math.radians(half_deg)
    return Shape("sector", 2 * outer * math.sin(half), outer - inner * math.cos(half), inner, outer, half_deg)


def test_a_rectangle_needs_none_after_the_trimmer() -> None:
    assert work_of(Shape("rectangle", 80.0, 50.0), trimmed=True) is None
    by_hand = work_of(Shape("rectangle", 80.0, 50.0), trimmed=False)
    assert by_hand is not None
    assert by_hand.length_cm == pytest.approx(26.0)


@pytest.mark.parametrize("trimmed", [True, False])
def test_a_sectors_arcs_and_slanting_ends(*, trimmed: bool) -> None:
    work = work_of(sector(300.0, 400.0, 15.0), trimmed=trimmed)
    assert work is not None
    assert work.length_cm == pytest.approx((math.pi / 6 * 700.0 + 200.0) / 10)
    assert "slanting ends" in work.what


def test_the_ends_of_half_a_ring_lie_square_and_go_with_the_box() -> None:
    work = work_of(sector(50.0, 120.0, 90.0), trimmed=True)
    assert work is not None
    assert work.length_cm == pytest.approx(math.pi * 170.0 / 10)
    by_hand = work_of(sector(50.0, 120.0, 90.0), trimmed=False)
    assert by_hand is not None
    assert by_hand.length_cm == pytest.approx((math.pi * 170.0 + 140.0) / 10)


def test_a_circle() -> None:
    work = work_of(Shape("circle", 95.0, 95.0), trimmed=True)
    assert work is not None
    assert work.length_cm == pytest.approx(math.pi * 9.5)


def test_an_outlines_straight_sides_on_its_box_go_with_the_box() -> None:
    house = Shape("outline", 40.0, 50.0, ring=HOUSE)
    slopes = 2 * math.hypot(20.0, 20.0)
    work, by_hand = work_of(house, trimmed=True), work_of(house, trimmed=False)
    assert work is not None
    assert by_hand is not None
    assert work.length_cm == pytest.approx(slopes / 10)
    assert by_hand.length_cm == pytest.approx((slopes + 100.0) / 10)
    partly = work_of(house, trimmed=True, true=frozenset({"left", "right"}))
    assert partly is not None
    assert partly.length_cm == pytest.approx((slopes + 40.0) / 10)
