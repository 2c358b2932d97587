"""One row drawn: with its own values, pictures and colours, without what it leaves out."""

from __future__ import annotations

from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import DOCUMENT, QUIET

from wrapwright.core.names.values import Row
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.names.live.drawing import DrawRow, RowPicture, document_of_row, draw_row, row_picture


def test_a_row_is_drawn_as_a_design_of_its_values_is(bench: Bench, listed: Listed) -> None:
    design = listed("name,team\nAda,Weir\nBarbara,Lock\n")
    drawn = draw_row(DrawRow(design, 3), bench, QUIET)
    alone = draw_design(
        DrawDesign({**DOCUMENT, "fields": {"name": "Barbara", "team": "Lock"}}, bench.folders.data), bench, QUIET
    )
    assert [one.shapes for one in drawn.copies] == [one.shapes for one in alone.copies]
    assert drawn.copies[1].shapes != draw_row(DrawRow(design, 2), bench, QUIET).copies[1].shapes
    assert drawn.proof is not None
    assert drawn.proof.url.startswith(f"/api/designs/{design}/names/rows/3/proof.jpg?")
    assert row_picture(RowPicture(design, 3, 200), bench, QUIET).startswith(b"\xff\xd8")


def test_what_a_row_exchanges_and_leaves_out() -> None:
    elements = [
        {"kind": "picture", "file": "own.svg"},
        {"kind": "fill", "gradient": {"from": "#000000", "to": "#ffffff"}},
        {"kind": "text", "text": "{name}"},
    ]
    row = Row(2, 2, {"name": "Ada"}, 1, {"picture 1": "ada.svg"}, {"fill 1": "#ff0000"}, frozenset({"text 1"}))
    made = document_of_row({"format": 1, "fields": {"year": "2026"}, "element": elements}, row)
    assert made["fields"] == {"year": "2026", "name": "Ada"}
    assert made["element"] == [
        {"kind": "picture", "file": "ada.svg", "name": "picture 1"},
        {"kind": "fill", "colour": "#ff0000", "name": "fill 1"},
    ]
