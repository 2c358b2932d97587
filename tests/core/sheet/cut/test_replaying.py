"""Every list, carried out on rectangles, gives exactly the pieces: each freed, each true side on its trim."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.cut.layouts import grid, laid_out, several

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.replaying import Rectangle, replay, states
from wrapwright.core.sheet.cut.values import CutList, Trimmer
from wrapwright.core.sheet.lay.values import SIDES, Box, Laid, Layout, Part

WITHIN_MM = 0.035  # sides nearer to each other than 0.03 mm are cut in one stroke
TRIMMERS = (
    Trimmer(longest_mm=1000.0, least_mm=0.0),
    Trimmer(longest_mm=1000.0, least_mm=45.0, stack_mm=0.4),
    Trimmer(longest_mm=230.0, least_mm=20.0),
    Trimmer(longest_mm=1000.0, least_mm=0.0, slip_mm=0.0),
)


def box_and_true(part: Part, laid: Laid) -> tuple[Box, set[int]]:
    """Return the trim's box and the indices (left, bottom, right, top) of its true sides, from the corners turned."""
    width, height = part.shape.width_mm, part.shape.height_mm
    turns = laid.turn_deg // 90
    size = (width, height) if turns % 2 == 0 else (height, width)
    # A quarter turn anticlockwise takes left to bottom, bottom to right, right to top, top to left.
    true = {(SIDES.index(side) + turns) % 4 for side in part.true}
    return (laid.x_mm, laid.y_mm, laid.x_mm + size[0], laid.y_mm + size[1]), true


def is_cut_out(part: Part, laid: Laid, paper: Rectangle) -> bool:
    """Return whether a rectangle of paper is the finished copy."""
    box, true = box_and_true(part, laid)
    for i, (want, have) in enumerate(zip(box, paper.box, strict=True)):
        out = (want - have) if i < 2 else (have - want)
        if out < -WITHIN_MM or (i in true and out > WITHIN_MM):
            return False
    return True


def check(layout: Layout, cuts: CutList) -> None:
    left = replay(cuts)
    used: set[Rectangle] = set()
    copies = 0
    for number, sheet in enumerate(layout.sheets):
        own = [one for one in left if one.sheet == number]
        area = sum((b[2] - b[0]) * (b[3] - b[1]) for b in (one.box for one in own))
        assert area == pytest.approx(sheet.width_mm * sheet.height_mm, rel=1e-9)
        for laid in sheet.pieces:
            found = [one for one in own if is_cut_out(layout.request.parts[laid.part], laid, one)]
            assert len(found) == 1, (number, laid)
            assert found[0] not in used
            used.add(found[0])
            copies += 1
    freed = [one for stroke in cuts.strokes for one in stroke.frees]
    assert len(set(freed)) == len(freed) <= copies


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from(TRIMMERS), st.integers(1, 4))
def test_replaying_gives_exactly_the_pieces(seed: int, trimmer: Trimmer, sheets: int) -> None:
    random = Random(seed)
    margin = 0.0 if trimmer.slip_mm == 0.0 else 6.0
    gutter = 0.0 if trimmer.slip_mm == 0.0 else None
    layout = several(laid_out(random, most=9, margin_mm=margin, gutter_mm=gutter), sheets)
    check(layout, cut_list(layout, trimmer))


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**9))
def test_sheets_of_different_patterns_share_one_list(seed: int) -> None:
    random = Random(seed)
    one, two = laid_out(random, most=20), several(laid_out(random, most=6), 2)
    shift = len(one.request.parts)
    moved = tuple(
        replace(sheet, pieces=tuple(replace(laid, part=laid.part + shift) for laid in sheet.pieces))
        for sheet in two.sheets
    )
    request = replace(one.request, parts=(*one.request.parts, *two.request.parts))
    layout = Layout(request, (*one.sheets, *moved))
    check(layout, cut_list(layout, TRIMMERS[0]))


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10**9), st.integers(1, 3))
def test_first_strokes_lie_on_printed_lines_and_no_fence_on_the_papers_edge(seed: int, sheets: int) -> None:
    layout = several(laid_out(Random(seed)), sheets)
    trimmer = Trimmer(longest_mm=1000.0, least_mm=0.0)
    paper = layout.sheets[0]
    raw = (0.0, 0.0, paper.width_mm, paper.height_mm)
    seen: set[int] = set()
    for stroke in cut_list(layout, trimmer).strokes:
        for layer in stroke.layers:
            if layer.sheet not in seen:
                assert stroke.kind == "margin"
            seen.add(layer.sheet)
            side = SIDES.index(layer.edge)
            if stroke.fence_mm is not None:
                assert layer.box[side] != raw[side]
        if stroke.kind == "margin":
            assert len(stroke.layers) == 1
        assert len(stroke.layers) <= trimmer.layers


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from([25.4 / 300 / 1.0035, 25.4 / 360, 25.4 / 720 / 0.997]))
def test_rows_that_differ_by_rounding_alone_are_all_cut(seed: int, step: float) -> None:
    """On a sheet's pixels, alike blocks differ by a micrometre or two: a cut goes along each block's own pieces."""
    random = Random(seed)
    size = (random.uniform(20.0, 60.0), random.uniform(20.0, 40.0))
    plain = grid(random.randint(2, 4), random.randint(2, 4), size=size, gutter_mm=random.choice([0.1, 1.0, 3.0]))
    (sheet,) = plain.sheets
    pieces = tuple(
        replace(one, x_mm=round(one.x_mm / step) * step, y_mm=round(one.y_mm / step) * step) for one in sheet.pieces
    )
    layout = replace(plain, sheets=(replace(sheet, pieces=pieces),))
    check(layout, cut_list(layout, TRIMMERS[0]))


def test_a_list_that_cannot_be_carried_out_is_refused() -> None:
    cuts = cut_list(grid(2, 3), Trimmer())
    moved = replace(cuts.strokes[5], fence_mm=(cuts.strokes[5].fence_mm or 0.0) + 1.0)
    wrong = replace(cuts, strokes=(*cuts.strokes[:5], moved, *cuts.strokes[6:]))
    with pytest.raises(WrapwrightError, match="fence"):
        replay(wrong)
    with pytest.raises(WrapwrightError, match="not there"):
        replay(replace(cuts, strokes=cuts.strokes[1:]))


def test_every_state_holds_the_same_paper() -> None:
    cuts = cut_list(grid(3, 2), Trimmer())
    number = 1
    for state in states(cuts):
        number += len(state.made) - len(state.cut)
        assert len(state.table) == number
        assert set(state.made) <= state.table
        assert not set(state.cut) & state.table
    assert number == len(cuts.sheets) + sum(len(one.layers) for one in cuts.strokes)
