"""Tables opened: their columns, and how they were understood."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from tests.outside.tables.books import crew_book

from wrapwright.core.base.errors import Kind, WrapwrightError
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


def test_a_table_of_one_column_says_what_it_does_with_separators(tmp_path: Path) -> None:
    found = table(tmp_path, b"name\nAda\nSmith, Eve\n").taken
    assert found.remarks == (
        'It is taken to have one column: the comma in row 3, "Smith, Eve", is printed. '
        'Say separator = "comma" in [names] if it parts cells.',
    )
    assert table(tmp_path, b"name\nAda\n").taken.remarks == ()
    assert table(tmp_path, b"name\nSmith, Eve\n", separator="semicolon").taken.remarks == ()


def test_a_sheet_of_a_text_is_told(tmp_path: Path) -> None:
    assert 'sheet = "Crew" counts for nothing' in table(tmp_path, b"name\nAda\n", sheet="Crew").taken.remarks[0]


def test_a_table_that_changes_or_goes_while_it_is_read(tmp_path: Path) -> None:
    found = table(tmp_path, b"name\nAda\nEve\n")
    reading = found.records()
    assert next(reading).cells == ("Ada",)
    (tmp_path / "crew.csv").write_bytes(b"name\nAda\nEve\nBob\n")
    with pytest.raises(WrapwrightError, match=r"crew\.csv: the table was changed while it was being read") as caught:
        list(reading)
    assert caught.value.kind is Kind.REFUSED
    (tmp_path / "crew.csv").unlink()
    with pytest.raises(WrapwrightError, match=r"crew\.csv: the table cannot be read to its end") as caught:
        list(found.records())
    assert caught.value.kind is Kind.UNUSABLE


def test_a_workbook_needs_a_cache_that_can_be_written(tmp_path: Path) -> None:
    crew_book(tmp_path / "crew.xlsx")
    (tmp_path / "cache").write_bytes(b"")
    with pytest.raises(WrapwrightError, match="the cache cannot keep the table as read"):
        open_table(tmp_path / "crew.xlsx", NamesRequest("crew.xlsx"), cache=tmp_path / "cache")
