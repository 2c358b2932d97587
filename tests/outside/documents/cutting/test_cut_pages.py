"""The cut list's pages as others read them: every stroke, its figures, the cautions; few pages; the same bytes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.core.sheet.cut.layouts import grid, several
from tests.outside.documents.reading import pages, spoken

from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.values import CutList, Trimmer
from wrapwright.core.sheet.cut.words import cut_words
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock
from wrapwright.outside.documents.cutting.cut_pages import (
    CutPages,
    cut_list_pdf,
    scissor_rows,
    scissor_words,
    table_rows,
)


def order() -> Layout:
    """Return twelve wraps on six sheets, two alike on each, and thirty tags with a coaster on a seventh."""
    wrap = Part(Shape("rectangle", 236.0, 95.0), copies=12, clear_mm=(3.0,) * 4, name="Wrap")
    tag = Part(Shape("rectangle", 34.0, 30.0), copies=30, clear_mm=(1.5,) * 4, name="Tag")
    coaster = Part(Shape("circle", 60.0, 60.0), clear_mm=(1.5,) * 4, name="Coaster")
    stock = Stock("A3", 297.0, 420.0, (5.0,) * 4)
    sheets = []
    for i in range(6):
        cells = tuple(Cell(5.0, 5.0 + 101.0 * j, 287.0, 101.0, part=0, copy=2 * i + j) for j in range(2))
        over = Cell(5.0, 207.0, 287.0, 208.0)
        pieces = tuple(Laid(0, 2 * i + j, 8.0, 8.0 + 101.0 * j, 0) for j in range(2))
        sheets.append(LaidSheet(0, 297.0, 420.0, pieces, Cell(5.0, 5.0, 287.0, 410.0, "y", (*cells, over))))
    rows, laid = [], []
    for row in range(5):
        y = 5.0 + 33.0 * row
        numbers = [(column, row * 6 + column) for column in range(6)]
        laid += [Laid(1, copy, 5.0 + 37.0 * column + 1.5, y + 1.5, 0) for column, copy in numbers]
        cells = tuple(Cell(5.0 + 37.0 * column, y, 37.0, 33.0, part=1, copy=copy) for column, copy in numbers)
        rows.append(Cell(5.0, y, 287.0, 33.0, "x", (*cells, Cell(227.0, y, 65.0, 33.0))))
    laid.append(Laid(2, 0, 6.5, 171.5, 0))
    rows.append(Cell(5.0, 170.0, 287.0, 245.0, part=2, copy=0))
    sheets.append(LaidSheet(0, 297.0, 420.0, tuple(laid), Cell(5.0, 5.0, 287.0, 410.0, "y", tuple(rows))))
    return Layout(LayRequest((wrap, tag, coaster), (stock,), gutter_mm=3.0), tuple(sheets))


@pytest.fixture(scope="module")
def cuts() -> CutList:
    return cut_list(order(), Trimmer())


@pytest.fixture(scope="module")
def pdf(cuts: CutList, cache: Path) -> bytes:
    return cut_list_pdf(CutPages("Weir Street regatta", order(), cuts, date="2026-05-02"), cache=cache)


def test_twelve_wraps_and_thirty_tags_fit_two_pages(pdf: bytes) -> None:
    sizes = pages(pdf)
    assert len(sizes) <= 2
    assert all(size == pytest.approx((215.9 * 72 / 25.4, 279.4 * 72 / 25.4), abs=0.1) for size in sizes)


def test_every_stroke_its_figures_and_the_cautions_can_be_read(pdf: bytes, cuts: CutList, tmp_path: Path) -> None:
    text = spoken(pdf, tmp_path)
    assert "Weir Street regatta" in text
    assert "2026-05-02" in text
    assert "43 pieces on 7 sheets" in text
    assert f"{cuts.settings} fence settings" in text
    assert "keep fingers behind the clamp" in text
    assert "Cut all marks away" in text
    assert "Sheets 1–6, alike" in text
    for stroke in cuts.strokes:
        if stroke.fence_mm is not None:
            assert f"{stroke.fence_mm:.1f}" in text
    for numbers, said in table_rows(order(), cuts):
        assert numbers.split(",")[0] in text
        assert said.what.split(",")[0] in text
    assert "18.8 cm" in text


def test_the_same_list_gives_the_same_bytes(pdf: bytes, cuts: CutList, cache: Path) -> None:
    again = cut_list_pdf(CutPages("Weir Street regatta", order(), cuts, date="2026-05-02"), cache=cache)
    assert again == pdf


def test_strokes_by_eye_on_sheets_alike_are_one_row(cuts: CutList) -> None:
    rows = table_rows(order(), cuts)
    by_eye = [(numbers, said) for numbers, said in rows if said.fence == "by eye"]
    assert len(by_eye) == 4
    assert [said.what for _, said in by_eye].count("Sheets 1–6, one at a time") == 2
    listed = [one for numbers, _ in rows for part in numbers.split(", ") for one in _span(part)]
    assert sorted(listed) == [stroke.number for stroke in cuts.strokes]


def _span(part: str) -> range:
    first, _, last = part.partition("–")
    return range(int(first), int(last or first) + 1)


def test_what_scissors_do_is_said_by_part(cuts: CutList) -> None:
    how = "the circle, 3 mm inside the dashes; where there are none, along the print's edge"
    assert scissor_rows(order(), cuts) == [["Coaster", how, "18.8 cm"]]


def test_scissors_are_told_how_far_inside_the_dashes_the_trim_is() -> None:
    arcs = scissor_words("two arcs and two slanting ends", (0.0, 2.5, 0.0, 2.5))
    assert arcs.startswith("the ends from corner mark to corner mark, the arcs 3.5 mm inside the dashes;")
    assert "2.5 mm inside the print's edge" in arcs
    assert "corner mark" in scissor_words("the sides", (0.0,) * 4)


def test_what_the_trimmer_cannot_do_stands_on_the_page(cache: Path, tmp_path: Path) -> None:
    layout = several(_one(grid(1, 1)), 2)
    cuts = cut_list(layout, Trimmer(longest_mm=35.0))
    text = spoken(cut_list_pdf(CutPages("Tags & <b>", layout, cuts, paper="A4"), cache=cache), tmp_path)
    assert "cuts 35.0 mm at most" in text
    assert "Tags & <b>" in text
    assert any("knife" in one.caution for one in cut_words(layout, cuts))


def _one(layout: Layout) -> Layout:
    return replace(layout, request=replace(layout.request, parts=(replace(layout.request.parts[0], copies=1),)))
