"""A table's records picked from anywhere in it."""

from __future__ import annotations

from pathlib import Path

from wrapwright.core.names.values import NamesRequest
from wrapwright.outside.tables.indexed import forget_table, indexed
from wrapwright.outside.tables.reading import open_table

TEXT = 'name;team\nAda;Öl\n\n"two\nlines";x\n;\n=1+1;"quo""te"\n'


def test_any_record_is_found_as_the_reader_gives_it(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    file.write_text(TEXT, encoding="utf-8", newline="")
    table = open_table(file, NamesRequest("crew.csv"), cache=tmp_path)
    read = [one for one in table.records() if not one.empty]
    found = indexed(table, tmp_path / "cache")
    assert list(found.all()) == read
    assert found.at([2, 0]) == [read[2], read[0]]
    assert [found.position(one.number) for one in read] == [0, 1, 2]
    assert found.position(3) is None
    assert found.position(99) is None
    assert found.empty == 2
    assert found.holding("ÖL") == [0]
    again = indexed(table, tmp_path / "cache")
    assert again.at([1]) == [read[1]]


def test_all_that_was_read_is_forgotten(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    file.write_text(TEXT, encoding="utf-8", newline="")
    table = open_table(file, NamesRequest("crew.csv"), cache=tmp_path)
    indexed(table, tmp_path / "cache")
    forget_table(table.taken.sha256, tmp_path / "cache")
    assert [one for one in (tmp_path / "cache").rglob("*") if one.is_file()] == []
