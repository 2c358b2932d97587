"""A tidied sheet holds the same pieces, needs no more strokes, and keeps what is pinned."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.sheet.cut.layouts import laid_out
from tests.core.sheet.cut.test_replaying import check

from wrapwright.core.sheet.cut.listing import cut_list, strokes_of
from wrapwright.core.sheet.cut.tidying import rest_of, rests, tidied, tidied_layout
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock

TRIMMER = Trimmer(longest_mm=1000.0, least_mm=0.0)


def check_cells(cell: Cell, pieces: dict[tuple[int, int], Laid], parts: tuple[Part, ...]) -> None:
    """Assert that children fill their cell and that every copy lies in its leaf with its clear room."""
    if not cell.children:
        if cell.part >= 0:
            laid = pieces.pop((cell.part, cell.copy))
            part = parts[cell.part]
            clear = part.clear_mm[0]
            size = part.shape.width_mm, part.shape.height_mm
            width, height = size if laid.turn_deg % 180 == 0 else size[::-1]
            assert laid.turn_deg == cell.turn_deg
            assert cell.x_mm - 1e-6 <= laid.x_mm - clear
            assert laid.x_mm + width + clear <= cell.x_mm + cell.width_mm + 1e-6
            assert cell.y_mm - 1e-6 <= laid.y_mm - clear
            assert laid.y_mm + height + clear <= cell.y_mm + cell.height_mm + 1e-6
        return
    at = cell.x_mm if cell.along == "x" else cell.y_mm
    for child in cell.children:
        assert (child.x_mm if cell.along == "x" else child.y_mm) == pytest.approx(at)
        assert (child.height_mm if cell.along == "x" else child.width_mm) == pytest.approx(
            cell.height_mm if cell.along == "x" else cell.width_mm
        )
        at += child.width_mm if cell.along == "x" else child.height_mm
        check_cells(child, pieces, parts)
    assert at == pytest.approx(cell.x_mm + cell.width_mm if cell.along == "x" else cell.y_mm + cell.height_mm)


@settings(max_examples=35, deadline=None)
@given(st.integers(0, 10**9))
def test_the_same_pieces_no_more_strokes(seed: int) -> None:
    layout = laid_out(Random(seed), most=14)
    (sheet,) = layout.sheets
    if not sheet.pieces:
        return
    after = tidied(layout.request, sheet, TRIMMER)
    before_strokes, after_strokes = (strokes_of(layout.request, one, TRIMMER) for one in (sheet, after))
    assert before_strokes is not None
    assert after_strokes is not None
    assert after_strokes <= before_strokes
    assert after.cell is not None
    pieces = {(one.part, one.copy): one for one in after.pieces}
    assert len(pieces) == len(sheet.pieces)
    check_cells(after.cell, pieces, layout.request.parts)
    assert not pieces
    now = Layout(layout.request, (after,))
    check(now, cut_list(now, TRIMMER))


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**9))
def test_what_is_pinned_stays(seed: int) -> None:
    random = Random(seed)
    layout = laid_out(random, most=14)
    (sheet,) = layout.sheets
    if not sheet.pieces:
        return
    kept = random.choice(sheet.pieces)
    after = tidied(layout.request, sheet, TRIMMER, pinned=frozenset({(kept.part, kept.copy)}))
    assert kept in after.pieces


def rows() -> tuple[LayRequest, LaidSheet]:
    """Return tall and low pieces in turn, in a row with waste in its middle, under a wide strip of waste."""
    parts = (Part(Shape("rectangle", 30.0, 50.0), copies=2), Part(Shape("rectangle", 30.0, 40.0), copies=2))
    cells, pieces, x = [], [], 10.0
    for part, copy, width in ((1, 0, 30.0), (0, 0, 30.0), (-1, -1, 10.0), (1, 1, 30.0), (0, 1, 30.0)):
        cells.append(Cell(x, 10.0, width, 50.0, part=part, copy=copy))
        if part >= 0:
            pieces.append(Laid(part, copy, x, 10.0, 0))
        x += width
    row = Cell(10.0, 10.0, 130.0, 50.0, "x", tuple(cells))
    cell = Cell(10.0, 10.0, 130.0, 140.0, "y", (row, Cell(10.0, 60.0, 130.0, 90.0)))
    request = LayRequest(parts, (Stock("paper", 150.0, 160.0, (10.0,) * 4),))
    return request, LaidSheet(0, 150.0, 160.0, tuple(pieces), cell)


def test_a_row_is_sorted_and_its_waste_gathered() -> None:
    request, sheet = rows()
    # Left, bottom, right, top; the gap's two sides; between the two pairs; over each low piece.
    assert strokes_of(request, sheet, TRIMMER) == 4 + 2 + 2 + 2
    after = tidied(request, sheet, TRIMMER)
    assert [one.part for one in sorted(after.pieces, key=lambda one: one.x_mm)] == [0, 0, 1, 1]
    # Left, bottom, right, top; three between the pieces; the two low ones are trimmed together.
    assert strokes_of(request, after, TRIMMER) == 4 + 3 + 1
    assert after.rest == (0.0, 60.0, 150.0, 160.0)


def test_the_rest_is_what_the_strokes_leave_whole() -> None:
    request, sheet = rows()
    rest = rest_of(request, sheet, TRIMMER)
    assert rest is not None
    cuts = cut_list(Layout(request, (sheet,)), TRIMMER)
    last = {layer.box for stroke in cuts.strokes for layer in stroke.layers}
    assert rest not in last
    assert rest_of(request, replace(sheet, pieces=()), TRIMMER) == (0.0, 0.0, 150.0, 160.0)


def test_a_layout_is_tidied_only_where_the_whole_list_is_no_longer() -> None:
    request, sheet = rows()
    layout = Layout(request, (sheet,))
    after = tidied_layout(layout, TRIMMER)
    assert len(cut_list(after, TRIMMER).strokes) <= len(cut_list(layout, TRIMMER).strokes)
    assert after.sheets[0].rest == (0.0, 60.0, 150.0, 160.0)
    everything = frozenset((one.part, one.copy) for one in sheet.pieces)
    kept = tidied_layout(layout, TRIMMER, pinned={0: everything})
    assert kept.sheets[0].pieces == sheet.pieces


def test_what_a_whole_list_leaves_is_found_by_sheet() -> None:
    request, sheet = rows()
    layout = Layout(request, (sheet, replace(sheet, pieces=(), cell=None)))
    assert rests(layout, cut_list(layout, TRIMMER)) == {0: (0.0, 60.0, 150.0, 160.0), 1: (0.0, 0.0, 150.0, 160.0)}
