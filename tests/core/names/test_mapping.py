"""Columns bound to uses, and records made rows."""

from __future__ import annotations

import hashlib

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.mapping import bound, edited, record_digest, row_of
from wrapwright.core.names.values import Cells, Column, NamesRequest

HEADER = ("First name", "Team", "Pieces", "Crest", "Ink", "With crest")
ASKED = NamesRequest(
    "crew.csv",
    fields={"name": Column("first  NAME", trim=True)},
    quantity="Pieces",
    pictures={"crest": "Crest"},
    colours={"name": "Ink"},
    shown={"crest": "With crest"},
)


def row(*cells: str, number: int = 2) -> tuple[object, ...]:
    made, problems = row_of(Cells(number, number, cells), bound(ASKED, HEADER, ["name", "Team"]))
    return made, [(one.rule, one.field, one.figure, one.acceptable) for one in problems]


def test_a_row_with_everything() -> None:
    made, problems = row(" Ada ", "Red", "3", "ada.svg", "#ABC", "yes")
    assert problems == []
    assert made.fields == {"name": "Ada", "Team": "Red"}  # type: ignore[attr-defined]
    assert (made.quantity, made.pictures, made.colours, made.hidden) == (  # type: ignore[attr-defined]
        3, {"crest": "ada.svg"}, {"name": "#aabbcc"}, frozenset(),
    )  # fmt: skip


def test_what_is_empty_keeps_its_default() -> None:
    made, problems = row("Ada", "Red")
    assert problems == []
    assert (made.quantity, made.pictures, made.colours, made.hidden) == (1, {}, {}, frozenset({"crest"}))  # type: ignore[attr-defined]


@pytest.mark.parametrize("text", ["0", "-1", "2.5", "many", "10001", "1e3", "1,234"])
def test_what_is_no_number_of_pieces(text: str) -> None:
    made, problems = row("Ada", "Red", text, "", "", "no")
    assert problems == [("quantity", "Pieces", text, False)]
    assert made.quantity == 1  # type: ignore[attr-defined]


@pytest.mark.parametrize(("text", "count"), [("1", 1), ("12.0", 12), ("7,00", 7), (" 10000 ", 10000)])
def test_numbers_of_pieces(text: str, count: int) -> None:
    made, problems = row("Ada", "Red", text)
    assert (made.quantity, problems) == (count, [])  # type: ignore[attr-defined]


def test_what_cannot_be_understood_is_told_together() -> None:
    _, problems = row("Ada", "Red", "x", "", "blue", "perhaps", "more", "")
    assert problems == [
        ("quantity", "Pieces", "x", False),
        ("colour", "name", "blue", False),
        ("shown", "crest", "perhaps", False),
        ("cells-too-many", "", "8 of 6 cells", False),
    ]


@pytest.mark.parametrize(
    ("asked", "needed", "said"),
    [
        (ASKED, ["town"], "texts use {town}, and neither a column nor [fields] gives it"),
        (ASKED, ["teem"], 'Write teem = "Team" in [names.fields]'),
        (NamesRequest("c", quantity="Number"), [], 'the table has no column "Number"'),
        (NamesRequest("c", fields={"a": Column("Tem")}), [], 'Did you mean "Team"?'),
        (NamesRequest("c", who="nick"), ["Team"], 'no field is called "nick". There are: Team.'),
    ],
)
def test_what_is_not_there(asked: NamesRequest, needed: list[str], said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        bound(asked, HEADER, needed)
    assert said in str(caught.value)


def test_who_tells_rows_apart() -> None:
    assert bound(ASKED, HEADER, ["Team", "name"]).who == "name"
    assert bound(NamesRequest("c"), HEADER, ["Team"]).who == "Team"
    assert bound(NamesRequest("c"), HEADER, [], ["name"]).who == ""
    assert (
        bound(NamesRequest("c"), HEADER, ["name", "Team"], ["name"]).who == "Team"
    )  # the job's own is the same for all


def test_a_digest_is_of_the_cells_and_no_more() -> None:
    one = Cells(2, 2, ("Ada", "Red", ""))
    assert record_digest(one) == hashlib.sha256(b'["Ada", "Red"]').hexdigest()
    assert record_digest(one) == record_digest(Cells(9, 11, ("Ada", "Red")))
    assert record_digest(one) != record_digest(Cells(2, 2, ("Ada Red",)))


def test_edits_stand_in_the_place_of_cells() -> None:
    cells = edited(Cells(2, 2, ("=A1",), {0: "formula"}), HEADER, {"first name": "Ada", "Team": "Red"})
    assert (cells.cells, cells.kinds) == (("Ada", "Red", "", "", "", ""), {})
