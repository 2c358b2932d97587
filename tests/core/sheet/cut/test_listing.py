"""What is asked of a list beside its strokes: figures that cannot be, edges that cannot be cut, sheets alike."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.core.sheet.cut.layouts import grid, several

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.cut.listing import cut_list, sheets_alike
from wrapwright.core.sheet.cut.tidying import tidied
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock


@pytest.mark.parametrize(
    ("trimmer", "said"),
    [
        (Trimmer(longest_mm=0.0), "longest stroke is 0 mm"),
        (Trimmer(paper_mm=0.0), "paper's thickness is 0 mm"),
        (Trimmer(stack_mm=-1.0), "stack is -1 mm"),
        (Trimmer(least_mm=-2.5), "narrowest strip is -2.5 mm"),
        (Trimmer(slip_mm=-0.5), "slip of the image is -0.5 mm"),
        (Trimmer(longest_mm=float("nan")), "longest stroke is nan mm"),
    ],
)
def test_a_trimmer_that_cannot_be_is_refused_with_its_figure(trimmer: Trimmer, said: str) -> None:
    with pytest.raises(WrapwrightError, match=said) as caught:
        cut_list(grid(1, 2), trimmer)
    assert caught.value.kind is Kind.UNUSABLE
    assert "Give" in caught.value.remedy


def at_the_edge() -> Layout:
    part = Part(Shape("rectangle", 60.0, 40.0))
    sheet = LaidSheet(0, 100.0, 80.0, (Laid(0, 0, 0.0, 10.0, 0),), Cell(0.0, 0.0, 100.0, 80.0, part=0, copy=0))
    return Layout(LayRequest((part,), (Stock("paper", 100.0, 80.0),)), (sheet,))


def test_a_piece_at_the_papers_own_edge_is_said() -> None:
    cuts = cut_list(at_the_edge(), Trimmer())
    assert len(cuts.strokes) == 3
    assert any("1 piece reaches the paper's own edge" in one for one in cuts.notes)
    assert cut_list(at_the_edge(), Trimmer(slip_mm=0.0)).notes == ()


def test_no_sheets_no_strokes() -> None:
    layout = replace(grid(1, 1), sheets=())
    cuts = cut_list(layout, Trimmer())
    assert (cuts.strokes, cuts.settings, cuts.scissors, cuts.notes) == ((), 0, (), ())


def test_an_empty_sheet_stays_whole() -> None:
    layout = grid(1, 1)
    (sheet,) = layout.sheets
    empty = replace(sheet, pieces=(), cell=Cell(10.0, 10.0, 43.0, 33.0))
    assert cut_list(replace(layout, sheets=(empty,)), Trimmer()).strokes == ()
    assert tidied(layout.request, empty, Trimmer()) == empty


def test_sheets_alike_are_found_by_where_their_parts_lie() -> None:
    one = grid(1, 1)
    part = replace(one.request.parts[0], copies=3)
    three = several(replace(one, request=replace(one.request, parts=(part,))), 3)
    by_hand = replace(three.sheets[0], cell=None)
    assert sheets_alike([*three.sheets, by_hand]) == [[0, 1, 2], [3]]


def test_the_same_layout_gives_the_same_list() -> None:
    assert cut_list(grid(3, 4), Trimmer()) == cut_list(grid(3, 4), Trimmer())


def test_a_pixels_rounding_costs_no_stroke() -> None:
    """Pieces on a sheet's pixels: rows as far apart as ever, but for what is lost in writing them down."""
    layout = grid(3, 3)
    (sheet,) = layout.sheets
    jitter = [0.0, 0.004, -0.003, 0.002, 0.0, -0.004, 0.003, 0.001, -0.002]
    moved = tuple(
        replace(laid, x_mm=laid.x_mm + off, y_mm=laid.y_mm - off)
        for laid, off in zip(sheet.pieces, jitter, strict=True)
    )
    exact = cut_list(layout, Trimmer())
    rounded = cut_list(replace(layout, sheets=(replace(sheet, pieces=moved),)), Trimmer())
    assert len(rounded.strokes) == len(exact.strokes)
    assert [len(one.layers) for one in rounded.strokes] == [len(one.layers) for one in exact.strokes]


def test_no_stroke_goes_through_a_label() -> None:
    """Two discs of 40 mm beside each other; the right one's label has 6 mm left of its bleed: the cut is left of it."""
    disc = Part(Shape("circle", 40.0, 40.0, ring=()), 2, clear_mm=(9.5, 2.0, 2.0, 2.0), bleed_mm=(2.0,) * 4, turns=(0,),
                true=frozenset())  # fmt: skip
    stock = Stock("A4", 210.0, 297.0, (4.0,) * 4)
    halves = (Cell(4.0, 4.0, 51.5, 44.0, part=0, copy=0), Cell(55.5, 4.0, 51.5, 44.0, part=0, copy=1))
    cell = Cell(4.0, 4.0, 103.0, 44.0, "x", halves)
    pieces = (Laid(0, 0, 13.5, 6.0, 0), Laid(0, 1, 65.0, 6.0, 0))
    layout = Layout(LayRequest((disc,), (stock,), 3.0), (LaidSheet(0, 210.0, 297.0, pieces, cell),))
    (stroke,) = cut_list(layout, Trimmer()).strokes
    (layer,) = stroke.layers
    bleed_ends, label_begins = 13.5 + 40.0 + 2.0, 65.0 - 9.5 + 1.5
    assert bleed_ends < layer.at_mm < label_begins
