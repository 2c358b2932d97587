"""The search against the proven least, on grids, within the trimmer's limits, and in stacks."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.cut.layouts import grid, laid_out, several
from tests.core.sheet.cut.test_replaying import check

from wrapwright.core.sheet.cut.blocks import Block, Rect
from wrapwright.core.sheet.cut.least import least_strokes
from wrapwright.core.sheet.cut.listing import cut_list, strokes_of
from wrapwright.core.sheet.cut.pieces import copies_in, rects_of, sheet_block
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import SIDES, Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock

WIDE = Trimmer(longest_mm=5000.0, least_mm=0.0)


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from([0.0, 3.0, 5.0]), st.integers(1, 12))
def test_no_order_of_strokes_needs_fewer(seed: int, gutter_mm: float, most: int) -> None:
    layout = laid_out(Random(seed), most=most, gutter_mm=gutter_mm)
    (sheet,) = layout.sheets
    assert len(sheet.pieces) <= 12
    block = sheet_block(layout.request, sheet, exact_paper=False)
    least = least_strokes(block.pieces, (0, 0, block.width, block.height))
    assert strokes_of(layout.request, sheet, WIDE) == least
    assert len(cut_list(layout, replace(WIDE, stack_mm=0.12)).strokes) == least


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from([0.0, 3.0]))
def test_many_pieces_need_no_more_than_the_layouts_own_tree(seed: int, gutter_mm: float) -> None:
    layout = laid_out(Random(seed), most=60, gutter_mm=gutter_mm)
    (sheet,) = layout.sheets
    block = sheet_block(layout.request, sheet, exact_paper=False)
    assert sheet.cell is not None
    by_tree = strokes_by_tree(sheet.cell, dict(zip(order(layout), rects(layout), strict=True)), block)
    ours = strokes_of(layout.request, sheet, WIDE)
    assert ours is not None
    assert ours <= by_tree


def order(layout: Layout) -> list[tuple[int, int]]:
    return [(one.part, one.copy) for one in layout.sheets[0].pieces]


def rects(layout: Layout) -> list[Rect]:
    return list(rects_of(layout.request, layout.sheets[0]))


def strokes_by_tree(cell: Cell, boxes: dict[tuple[int, int], Rect], block: Block) -> int:
    """Return the strokes when every cell is parted as the tree says, the outer waste of each taken off first."""
    return _parted(cell, boxes, [0, 0, block.width, block.height])


def _parted(cell: Cell, boxes: dict[tuple[int, int], Rect], edges: list[int]) -> int:
    inside = [boxes[one] for one in copies_in(cell)]
    if not inside:
        return 0
    strokes = 0
    for side in range(4):
        choose = min if side < 2 else max
        out = choose(one[side] for one in inside)
        if out != edges[side] and any(one[side] == out and one[4] & 1 << side for one in inside):
            strokes, edges[side] = strokes + 1, out
    axis = 0 if cell.along == "x" else 1
    groups = [child for child in cell.children if copies_in(child)]
    for i, child in enumerate(groups):
        own = list(edges)
        here = [boxes[one] for one in copies_in(child)]
        if i:
            before = [boxes[one] for one in copies_in(groups[i - 1])]
            end, begin = max(one[axis + 2] for one in before), min(one[axis] for one in here)
            true_end = any(one[axis + 2] == end and one[4] & 4 << axis for one in before)
            true_begin = any(one[axis] == begin and one[4] & 1 << axis for one in here)
            strokes += 2 if true_end and true_begin and begin > end else 1
            own[axis] = begin if true_begin else end
        if i + 1 < len(groups):
            own[axis + 2] = max(one[axis + 2] for one in here)
        strokes += _parted(child, boxes, own)
    return strokes


def test_the_proven_least_of_layouts_worked_out_by_hand() -> None:
    true = 15
    whole = ((0, 0, 10, 10, true),)
    assert least_strokes(whole, (0, 0, 10, 10)) == 0
    assert least_strokes(whole, (0, 0, 11, 11)) == 2
    two = ((0, 0, 5, 10, true), (5, 0, 10, 10, true))
    assert least_strokes(two, (0, 0, 10, 10)) == 1
    apart = ((0, 0, 4, 10, true), (6, 0, 10, 10, true))
    assert least_strokes(apart, (0, 0, 10, 10)) == 2
    # A windmill of four about a fifth: no cut from edge to edge parts it.
    windmill = ((0, 0, 2, 1, 15), (2, 0, 3, 2, 15), (1, 2, 3, 3, 15), (0, 1, 1, 3, 15), (1, 1, 2, 2, 15))
    assert least_strokes(windmill, (0, 0, 3, 3)) is None


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (1, 7), (3, 2), (4, 5), (9, 9)])
def test_a_grid_with_a_gutter(rows: int, columns: int) -> None:
    layout = grid(rows, columns)
    pieces = rows * columns
    strokes = strokes_of(layout.request, layout.sheets[0], WIDE)
    assert strokes == 2 + 2 * pieces
    assert strokes <= pieces * (2 + 2 / max(rows, columns))


def test_a_grid_without_a_gutter_shares_its_cuts() -> None:
    layout = grid(3, 4, gutter_mm=0.0)
    assert strokes_of(layout.request, layout.sheets[0], WIDE) == 4 + 11


def test_alike_sheets_and_alike_rows_lie_in_stacks() -> None:
    layout = grid(4, 3)
    singly = cut_list(layout, replace(WIDE, stack_mm=0.12))
    by_four = cut_list(layout, replace(WIDE, stack_mm=0.48))
    check(layout, singly)
    check(layout, by_four)
    assert len(singly.strokes) == 2 + 2 * 12
    # Four outer strokes, three between the rows; three rows keep a gutter, trimmed in one; then the four rows as one
    # stack: two strokes between three pieces, and in three stacks (8 pieces keep a gutter, 4 at a time) two to trim.
    assert len(by_four.strokes) == 4 + 3 + 1 + 2 + 2
    assert max(len(stroke.layers) for stroke in by_four.strokes) == 4


@pytest.mark.parametrize("sheets", [1, 2, 5, 9])
def test_each_sheet_is_squared_singly_before_it_is_stacked(sheets: int) -> None:
    parts = (Part(Shape("rectangle", 80.0, 50.0), copies=sheets),)
    cell = Cell(10.0, 10.0, 80.0, 50.0, part=0)
    laid = LaidSheet(0, 100.0, 70.0, (Laid(0, 0, 10.0, 10.0, 0),), cell)
    layout = several(Layout(LayRequest(parts, (Stock("paper", 100.0, 70.0),)), (laid,)), sheets)
    cuts = cut_list(layout, replace(WIDE, stack_mm=0.48))
    check(layout, cuts)
    stacks = -(-sheets // 4)
    assert [one.kind for one in cuts.strokes] == ["margin"] * (2 * sheets) + ["trim"] * (2 * stacks)
    assert cuts.settings == 2
    assert sum(len(one.frees) for one in cuts.strokes) == sheets


def test_one_cut_edge_is_enough_to_stack_what_is_cut_along_it() -> None:
    """Two pieces side by side whose upper and lower sides are folded: no edge squares the sheets the other way."""
    true = frozenset({"left", "right"})
    parts = tuple(Part(Shape("rectangle", width, 50.0), copies=4, true=true) for width in (60.0, 40.0))
    cells = (Cell(10.0, 10.0, 60.0, 50.0, part=0, copy=0), Cell(70.0, 10.0, 40.0, 50.0, part=1, copy=0))
    pieces = (Laid(0, 0, 10.0, 10.0, 0), Laid(1, 0, 70.0, 10.0, 0))
    sheet = LaidSheet(0, 120.0, 70.0, pieces, Cell(10.0, 10.0, 100.0, 50.0, "x", cells))
    layout = several(Layout(LayRequest(parts, (Stock("paper", 120.0, 70.0),)), (sheet,)), 4)
    cuts = cut_list(layout, WIDE)
    check(layout, cuts)
    assert [(one.kind, len(one.layers)) for one in cuts.strokes] == [("margin", 1)] * 4 + [("trim", 4), ("part", 4)]


def strips(widths: list[float], waste: float) -> Layout:
    """Return strips side by side with waste right of them, all of one height, on paper with a margin."""
    parts = tuple(Part(Shape("rectangle", width, 60.0)) for width in widths)
    x, cells, pieces = 10.0, [], []
    for i, width in enumerate(widths):
        cells.append(Cell(x, 10.0, width, 60.0, part=i, copy=0))
        pieces.append(Laid(i, 0, x, 10.0, 0))
        x += width
    cells.append(Cell(x, 10.0, waste, 60.0))
    stock = Stock("paper", x + waste + 10.0, 80.0, (10.0,) * 4)
    cell = Cell(10.0, 10.0, x + waste - 10.0, 60.0, "x", tuple(cells))
    sheet = LaidSheet(0, stock.width_mm, 80.0, tuple(pieces), cell)
    return Layout(LayRequest(parts, (stock,)), (sheet,))


def test_a_narrow_strip_is_cut_while_the_waste_can_still_be_held() -> None:
    layout = strips([18.0, 18.0], 60.0)
    cuts = cut_list(layout, replace(WIDE, least_mm=25.0))
    check(layout, cuts)
    assert not any(one.caution for one in cuts.strokes)
    for stroke in cuts.strokes:
        assert stroke.fence_mm is None or stroke.fence_mm >= 25.0


def test_what_the_clamp_cannot_hold_is_said_with_the_figures() -> None:
    layout = strips([18.0, 18.0], 0.0)
    cuts = cut_list(layout, replace(WIDE, least_mm=40.0))
    check(layout, cuts)
    assert [one for one in cuts.notes if "18.0 mm for the clamp" in one and "holds 40.0 mm at least" in one]


def test_an_order_within_the_trimmers_length_is_found_and_its_price_said() -> None:
    # Two pieces one above the other, 150 mm high together: upright strokes are too long until they are parted.
    parts = (Part(Shape("rectangle", 80.0, 70.0), copies=2),)
    cells = tuple(Cell(10.0, 10.0 + 70.0 * i, 80.0, 70.0, part=0, copy=i) for i in range(2))
    sheet = LaidSheet(
        0,
        100.0,
        160.0,
        tuple(Laid(0, i, 10.0, 10.0 + 70.0 * i, 0) for i in range(2)),
        Cell(10.0, 10.0, 80.0, 140.0, "y", cells),
    )
    layout = Layout(LayRequest(parts, (Stock("paper", 100.0, 160.0, (10.0,) * 4),)), (sheet,))
    assert len(cut_list(layout, WIDE).strokes) == 5
    cuts = cut_list(layout, replace(WIDE, longest_mm=120.0))
    check(layout, cuts)
    assert max(one.length_mm for one in cuts.strokes) <= 120.0
    # Bottom, top, between; then left and right of each: alike, but neither is squared when it is parted.
    assert sum(len(one.layers) for one in cuts.strokes) == 7
    assert any("2 strokes more" in one for one in cuts.notes)
    short = cut_list(layout, replace(WIDE, longest_mm=60.0))
    assert any("cuts 60.0 mm at most" in one for one in short.notes)


def test_sides_that_need_not_be_true_are_left() -> None:
    part = Part(Shape("rectangle", 80.0, 50.0), true=frozenset({"left", "right"}), bleed_mm=(0.0, 2.0, 0.0, 2.0))
    sheet = LaidSheet(0, 100.0, 70.0, (Laid(0, 0, 10.0, 10.0, 0),), Cell(5.0, 5.0, 90.0, 60.0, part=0, copy=0))
    layout = Layout(LayRequest((part,), (Stock("paper", 100.0, 70.0),)), (sheet,))
    cuts = cut_list(layout, WIDE)
    assert [one.layers[0].at_mm for one in cuts.strokes] == [90.0, 10.0]
    all_true = replace(part, true=frozenset(SIDES))
    assert len(cut_list(replace(layout, request=replace(layout.request, parts=(all_true,))), WIDE).strokes) == 4


def test_a_sheet_that_cannot_be_parted_is_for_scissors() -> None:
    sizes = [(20.0, 10.0, 0.0, 0.0), (10.0, 20.0, 20.0, 0.0), (20.0, 10.0, 10.0, 20.0), (10.0, 20.0, 0.0, 10.0)]
    parts = tuple(Part(Shape("rectangle", width, height)) for width, height, _, _ in sizes)
    pieces = tuple(Laid(i, 0, 5.0 + x, 5.0 + y, 0) for i, (_, _, x, y) in enumerate(sizes))
    sheet = LaidSheet(0, 40.0, 40.0, pieces, Cell(5.0, 5.0, 30.0, 30.0))
    layout = Layout(LayRequest(parts, (Stock("paper", 40.0, 40.0),)), (sheet,))
    cuts = cut_list(layout, WIDE)
    assert cuts.strokes == ()
    assert any("cannot be parted" in one for one in cuts.notes)
    assert cuts.scissors_cm == pytest.approx(4 * 6.0)
    assert strokes_of(layout.request, sheet, WIDE) is None
