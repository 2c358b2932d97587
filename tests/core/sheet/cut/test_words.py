"""The sentences of a list: figures with one decimal, edges, turns, and what comes of every stroke."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.core.sheet.cut.layouts import grid, several

from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.cut.words import cut_words, how_words, names_of, ranges, summary_words
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock


def one_wrap(sheets: int = 1) -> Layout:
    part = Part(Shape("rectangle", 180.0, 95.0), copies=sheets, name="Weir wrap")
    stock = Stock("Letter", 215.9, 279.4, (4.0,) * 4)
    sheet = LaidSheet(0, 215.9, 279.4, (Laid(0, 0, 10.0, 12.0, 0),), Cell(4.0, 4.0, 207.9, 271.4, part=0, copy=0))
    return several(Layout(LayRequest((part,), (stock,)), (sheet,)), sheets)


def test_one_piece_stroke_by_stroke() -> None:
    layout = one_wrap()
    cuts = cut_list(layout, Trimmer())
    assert [one.sentence for one in cut_words(layout, cuts)] == [
        "1. Sheet 1: quarter turn right, cut on the printed line along the top edge, 215.9 mm long; waste off.",
        "2. Sheet 1: quarter turn left, cut on the printed line along the right edge, 107.0 mm long; waste off.",
        "3. Fence 95.0 mm. Sheet 1: quarter turn left, top edge to the fence, 190.0 mm long; waste off.",
        "4. Fence 180.0 mm. Sheet 1: quarter turn left, right edge to the fence, 95.0 mm long; waste off, "
        "Weir wrap done.",
    ]
    assert summary_words(layout, cuts) == "1 piece on 1 sheet, 4 strokes, 2 fence settings."


def test_stacks_are_named_with_their_sheets_and_layers() -> None:
    layout = one_wrap(3)
    last = cut_words(layout, cut_list(layout, Trimmer()))[-1]
    assert last.layers == 3
    assert last.what == "Sheets 1–3"
    assert last.then == "waste off, Weir wrap 1–3 done"
    assert "(3 layers)" in last.sentence


def test_turns_bring_the_named_edge_to_the_fence() -> None:
    """Turning the sheet by hand, as the words say, brings the named edge to the left at every stroke."""
    layout = grid(3, 4)
    cuts = cut_list(layout, replace(Trimmer(), stack_mm=0.12))
    at_left = {"": 0, "quarter turn left": 1, "half turn": 2, "quarter turn right": 3}
    # Counted anticlockwise, the side that comes to the left after so many quarter turns to the left.
    sides = ["left", "top", "right", "bottom"]
    lying: dict[tuple[float, ...], int] = {(0.0, 0.0, *cuts.sheets[0]): 0}
    for stroke in cuts.strokes:
        (layer,) = stroke.layers
        box = layer.box
        turned = (lying.pop(tuple(round(one, 3) for one in box)) + at_left[stroke.turn]) % 4
        assert layer.edge == sides[turned]
        left, bottom, right, top = (round(one, 3) for one in box)
        at = round(layer.at_mm, 3)
        upright = layer.edge in ("left", "right")
        halves = [(left, bottom, at, top), (at, bottom, right, top)]
        if not upright:
            halves = [(left, bottom, right, at), (left, at, right, top)]
        lying.update(dict.fromkeys(halves, turned))


@pytest.mark.parametrize(
    ("numbers", "words"), [([3, 1, 2], "1–3"), ([1, 2], "1, 2"), ([1, 3, 4, 5, 9], "1, 3–5, 9"), ([7], "7")]
)
def test_ranges(numbers: list[int], words: str) -> None:
    assert ranges(numbers) == words


def test_many_names_are_shortened_and_nameless_parts_numbered() -> None:
    shape = Shape("rectangle", 10.0, 10.0)
    parts = tuple(Part(shape, name=name) for name in ("Ada", "Ben", "Cy", "Dee", "Eve", ""))
    request = LayRequest(parts, ())
    assert names_of(request, [(i, 0) for i in range(5)]) == "Ada, Ben, Cy and 2 more"
    assert names_of(request, [(5, 0)]) == "piece 6"
    tags = LayRequest((Part(shape, copies=20, name="tag"),), ())
    assert names_of(tags, [(0, i) for i in (0, 2, 3, 4, 9)]) == "tag 1, 3–5, 10"
    assert names_of(tags, [(0, i) for i in range(0, 18, 2)]) == "9 × tag"


def test_a_paper_that_does_not_slip_needs_no_printed_lines() -> None:
    cuts = cut_list(one_wrap(), Trimmer(slip_mm=0.0))
    assert all(one.fence_mm is not None for one in cuts.strokes)
    assert not any("printed line" in one for one in how_words(cuts))
    assert any("1.5 mm" in one for one in how_words(replace(cuts, trimmer=Trimmer())))
