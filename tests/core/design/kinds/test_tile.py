"""Patterns all round: they close at the seam, and outlines and pixels repeat at the same places."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.elements import Tile
from wrapwright.core.design.kinds.tile import closing_repeat
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.supplies import Art, ArtShape

STRAIGHT = FlatWrap(235.0, 235.0, 102.0, overlap_mm=6.0)
CUP = FlatWrap(226.6, 283.1, 160.25, overlap_mm=6.0)
DOT = ArtShape(rectangle(0.25, 0.25, 0.75, 0.75), (0.0, 0.5, 0.0))
LEAF = Art("leaf", "outlines", 30, 20, shapes=(DOT,))
PIXELS = Art("leaf", "pixels", 300, 200)


def lay(tile, wrap, art):
    return lay_out([tile], wrap=wrap, bleed_mm=2.0, supplies={0: art})


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.floats(4.0, 400.0), st.floats(0.0, 20.0))
def test_a_whole_number_goes_round_with_the_least_change_of_size(width, gap):
    repeat = closing_repeat(CUP, Tile(name="t", file="f", width_mm=width, gap_mm=gap), 1.0, 80.125)
    middle = (226.6 + 283.1) / 2
    assert repeat.count * (width + gap) * repeat.scale == pytest.approx(middle)
    for other in (repeat.count - 1, repeat.count + 1):
        if other:
            change = middle / other / (width + gap)
            assert max(change, 1 / change) >= max(repeat.scale, 1 / repeat.scale) - 1e-9


def test_the_change_is_said():
    laid = lay(Tile(name="leaves", file="f", width_mm=30.0), STRAIGHT, PIXELS)
    # 235 / 30 = 7.83: eight repeats of 29.375 mm
    assert laid.remarks == (
        "leaves: 8 repeats go round; each is laid 29.38 mm wide instead of 30.00 mm (-2.1 %) "
        "so that the pattern closes at the seam.",
    )
    item = laid.draw_list.items[0]
    assert item.repeat == pytest.approx((29.375, 29.375 * 2 / 3, 0.0))
    assert (item.width_mm, item.height_mm) == pytest.approx((29.375, 29.375 * 2 / 3))
    (once,) = lay(Tile(name="leaves", file="f", width_mm=400.0), STRAIGHT, PIXELS).remarks
    assert once.startswith("leaves: 1 repeat goes round; each is laid 235.00 mm wide")
    with pytest.raises(WrapwrightError, match="cannot be laid"):
        lay(Tile(name="t", file="f", width_mm=0.0), STRAIGHT, PIXELS)


def test_a_change_of_size_over_10_percent_names_widths_that_close_without_one():
    # 235 / (100 + 4) = 2.26: two repeats of 113.5 + 4 mm, +13.0 %; 235 / 3 - 4 = 74.33
    (much,) = lay(Tile(name="t", file="f", width_mm=100.0, gap_mm=4.0), STRAIGHT, PIXELS).remarks
    assert "(+13.0 %)" in much
    assert much.endswith(
        "That is much: over 10 %. Without a change of size it closes at a width of 113.50 mm (2 round) or 74.33 mm "
        "(3 round)."
    )
    for width in (113.5, 235.0 / 3.0 - 4.0):
        (none,) = lay(Tile(name="t", file="f", width_mm=width, gap_mm=4.0), STRAIGHT, PIXELS).remarks
        assert "0.0 %)" in none
    # Nothing closes twice round with a gap as wide as half the girth.
    (once,) = lay(Tile(name="t", file="f", width_mm=80.0, gap_mm=120.0), STRAIGHT, PIXELS).remarks
    assert once.endswith("at a width of 115.00 mm (1 round).")


@pytest.mark.parametrize("wrap", [STRAIGHT, CUP, FlatWrap(300.0, 220.0, 110.0, overlap_mm=5.0)])
@pytest.mark.parametrize(("shift", "turn", "up"), [(0.0, 0.0, None), (0.5, 0.0, None), (0.5, 30.0, 20.0)])
def test_outlines_repeat_where_pixels_do_and_meet_at_the_seam(wrap, shift, turn, up):
    tile = Tile(name="t", file="f", width_mm=22.0, gap_mm=3.0, shift=shift, turn_deg=turn, up_mm=up)
    solid = lay(tile, wrap, LEAF).draw_list.items[0]
    pixels = lay(tile, wrap, PIXELS).draw_list.items[0]
    step_a, step_b, move = pixels.repeat
    # Corners of every dot, taken back to the pattern's own mm: they must be one dot's, up to whole steps.
    corners = np.concatenate(
        [sub.points[[0, 3, 6, 9]] if len(sub.points) == 13 else sub.points[:1] for sub in solid.path.subpaths]
    )
    a, b = pixels.placement.to_local(corners[:, 0], corners[:, 1])
    angle = np.radians(turn)
    dot = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (pixels.width_mm / 4, pixels.height_mm / 4)
    dot = dot @ np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    found = np.full(len(a), np.inf)
    for one in dot:
        row = (b - one[1]) / step_b
        off_b = np.abs(row - np.round(row)) * step_b
        along = (a - one[0]) / step_a - np.round(row) * move
        found = np.minimum(found, np.hypot(off_b, np.abs(along - np.round(along)) * step_a))
    assert found.max() < 1e-6
    # One whole turn on, the pattern lies on itself: every dot at the left end has its like at the right.
    starts = np.array([sub.points[0] for sub in solid.path.subpaths])
    turns, ups = wrap.from_flat(starts[:, 0], starts[:, 1])
    left = (turns > 1) & (turns < 5) & (ups > 3) & (ups < wrap.height_mm - 3)
    gaps = [np.hypot(*(starts - there).T).min() for there in
            np.c_[starts[left], np.ones(left.sum())] @ wrap.carried_round(1.0).T[:, :2]]  # fmt: skip
    assert max(gaps, default=0.0) < 1e-9


@pytest.mark.parametrize("wrap", [STRAIGHT, CUP])
def test_no_corner_of_the_wrap_is_left_without_tiles(wrap):
    whole = Art("w", "outlines", 10, 10, shapes=(ArtShape(rectangle(0, 0, 1, 1), (0.0, 0.0, 0.0)),))
    item = lay(Tile(name="t", file="f", width_mm=21.0, shift=0.3), wrap, whole).draw_list.items[0]
    border = bleed_outline(wrap, 2.0)
    assert item.clips[-1].box() == border.box()
    edge = border.subpaths[0].points[::3]
    left, bottom, right, top = np.array([sub_box(sub) for sub in item.path.subpaths]).T
    for x, y in edge:
        assert ((left <= x + 0.5) & (right >= x - 0.5) & (bottom <= y + 0.5) & (top >= y - 0.5)).any()


def sub_box(sub):
    return (*sub.points.min(axis=0), *sub.points.max(axis=0))


def test_parts_of_a_turn_add_up_to_the_seam_motion():
    part = CUP.carried_round(1 / 7)
    assert np.allclose(np.linalg.matrix_power(part, 7), CUP.carried_round(1.0), atol=1e-9)
    assert np.allclose(CUP.carried_round(-1 / 7) @ part, np.eye(3), atol=1e-9)


def test_far_too_many_tiles_are_refused():
    with pytest.raises(WrapwrightError, match="more than 20000 tiles"):
        lay(Tile(name="t", file="f", width_mm=0.5), STRAIGHT, LEAF)
