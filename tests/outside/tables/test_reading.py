"""Tables opened: their columns, and how they were understood."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from tests.outside.tables.books import crew_book

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.values import NamesRequest
from wrapwright.outside.tables.reading import Table, open_table


def table(folder: Path, content: bytes, **asked: object) -> Table:
    (folder / "crew.csv").write_bytes(content)
    return open_table(folder / "crew.csv", NamesRequest("crew.csv", **asked), cache=folder / "cache")  # type: ignore[arg-type]


def test_a_text_table(tmp_path: Path) -> None:
    content = "Name ; First  team\r\nZoë;Red\r\n;\r\nEve;Blue\r\n".encode("cp1252")
    found = table(tmp_path, content)
    taken = found.taken
    assert (taken.kind, taken.encoding, taken.separator, taken.header) == (
        "csv", "windows-1252", ";", ("Name", "First team"),
    )  # fmt: skip
    assert taken.sha256 == hashlib.sha256(content).hexdigest()
    assert len(taken.remarks) == 2
    assert 'line 2 says "Zoë"' in taken.remarks[0]
    assert taken.remarks[1] == "Cells are taken to be separated by a semicolon: 2 columns."
    for _ in range(2):  # again and again
        assert [one.cells for one in found.records()] == [("Zoë", "Red"), ("", ""), ("Eve", "Blue")]


def test_a_header_further_down(tmp_path: Path) -> None:
    found = table(tmp_path, b"The crew\n\nName,Team\nAda,Red\n", header=3)
    assert found.taken.header == ("Name", "Team")
    assert [(one.number, one.cells) for one in found.records()] == [(4, ("Ada", "Red"))]


def test_a_workbook(tmp_path: Path) -> None:
    crew_book(tmp_path / "crew.xlsx")
    found = open_table(tmp_path / "crew.xlsx", NamesRequest("crew.xlsx"), cache=tmp_path / "cache")
    assert (found.taken.kind, found.taken.sheet, found.taken.header[:2]) == ("xlsx", "Crew", ("Name", "Nr"))
    assert found.taken.remarks == ('Of its 2 sheets "Crew" is read; another is named by sheet =.',)
    assert [one.number for one in found.records()] == [2, 4, 5]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"name,team\n", "a header in row 1 and no row below it"),
        (b"\nname\nAda\n", "row 1, which should hold the columns' names, is empty"),
        (b"name,Name\nAda,Red\n", 'two columns are called "Name": 1 and 2'),
    ],
)
def test_tables_without_a_good_header(tmp_path: Path, content: bytes, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        table(tmp_path, content)
    assert said in str(caught.value)
