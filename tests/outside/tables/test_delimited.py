"""CSV read: the examples of RFC 4180, what the csv module writes, and what no reader should choke on."""

from __future__ import annotations

import csv
import io
import tracemalloc
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.tables import delimited
from wrapwright.outside.tables.delimited import form_of, records

# RFC 4180, section 2, the example of each rule.
RFC_4180 = [
    ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
    ("aaa,bbb,ccc\r\nzzz,yyy,xxx", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
    ('"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
    ('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "b\r\nbb", "ccc"), ("zzz", "yyy", "xxx")]),
    ('"aaa","b""bb","ccc"', [("aaa", 'b"bb', "ccc")]),
]


def cells(file: Path, **asked: str) -> list[tuple[str, ...]]:
    return [one.cells for one in records(file, form_of(file, **asked))]  # type: ignore[arg-type]


@pytest.mark.parametrize(("text", "expected"), RFC_4180)
def test_rfc_4180(tmp_path: Path, text: str, expected: list[tuple[str, ...]]) -> None:
    file = tmp_path / "a.csv"
    file.write_bytes(text.encode("ascii"))
    assert cells(file) == expected


_CELL = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=8)


@settings(derandomize=True, max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.lists(_CELL, min_size=2, max_size=4), min_size=1, max_size=5),
    st.sampled_from([",", ";", "\t", "|"]),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
    st.sampled_from([csv.QUOTE_ALL, csv.QUOTE_MINIMAL]),
)
def test_what_the_csv_module_writes_is_read(
    tmp_path: Path, rows: list[list[str]], sign: str, codec: str, quoting: int
) -> None:
    words = {",": "comma", ";": "semicolon", "\t": "tab", "|": "bar"}
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=sign, quoting=quoting).writerows(rows)  # type: ignore[arg-type]
    if quoting == csv.QUOTE_MINIMAL and out.getvalue().startswith("\ufeff"):
        return  # a byte order mark of the text's own cannot be told from the file's
    file = tmp_path / "a.csv"
    file.write_bytes(out.getvalue().encode(codec))
    encoding = "utf-16" if codec == "utf-16" else "utf-8"
    assert cells(file, separator=words[sign], encoding=encoding) == [tuple(row) for row in rows]


def test_rows_are_counted_as_spreadsheets_do_and_lines_as_editors_do(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text('name;note\n\nAda;"one\ntwo"\n;;\nEve;x\n', encoding="utf-8", newline="\n")
    found = list(records(file, form_of(file)))
    assert [(one.number, one.line, one.empty) for one in found] == [
        (1, 1, False), (2, 2, True), (3, 3, False), (4, 5, True), (5, 6, False),
    ]  # fmt: skip


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_every_system(tmp_path: Path, end: str) -> None:
    file = tmp_path / "a.csv"
    file.write_bytes(end.join(["name,team", "Ada,Red", "Eve,Blue"]).encode())
    assert cells(file) == [("name", "team"), ("Ada", "Red"), ("Eve", "Blue")]


def test_a_line_that_names_the_separator_is_no_row(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text("sep=|\nname|team\nAda|Red, blue\n", encoding="utf-8")
    found = list(records(file, form_of(file)))
    assert [(one.number, one.line, one.cells) for one in found] == [
        (1, 2, ("name", "team")),
        (2, 3, ("Ada", "Red, blue")),
    ]


def test_formulas_are_text_and_told(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text('name,nr\n=1+1,"=""007"""\n-Ada,+1\n', encoding="utf-8")
    _, first, second = records(file, form_of(file))
    assert (first.cells, dict(first.kinds)) == (("=1+1", '="007"'), {0: "formula", 1: "formula"})
    assert (second.cells, dict(second.kinds)) == (("-Ada", "+1"), {})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('name,team\n"Ada,Red\nEve,Blue\n', "row 2 (line 2) has a quote that is not closed"),
        ('name,team\n"Ada" Lovelace,Red\n', "row 2 (line 2) has a quote that ends inside a cell"),
        ("name,team\n" + "a" * 40_000 + ",x\n", "a cell in row 2 (line 2) has 40000 characters"),
        ('name,team\n"' + "a\n" * 100_000, "a cell in row 2 (line 2) has 131072 characters or more"),
        ("name,team\nAda" + "," * 1000 + "\n", "row 2 (line 2) has 1001 columns or more; at most 1000"),
        ("name\nAda" + "," * 2_000_000 + "\n", "row 2 (line 2) has 999998 columns or more; at most 1000"),
    ],
)
def test_what_is_refused(tmp_path: Path, text: str, said: str) -> None:
    file = tmp_path / "a.csv"
    file.write_text(text, encoding="utf-8", newline="\n")
    with pytest.raises(WrapwrightError) as caught:
        cells(file, separator="comma")
    assert said in str(caught.value)


class _Endless(io.TextIOBase):
    """A line without an end, as a file of a gigabyte in one field or two million columns is to its reader."""

    def __init__(self, word: str) -> None:
        self.word = word
        self.given = 0

    def readline(self, size: int | None = -1, /) -> str:
        assert size is not None
        assert 0 < size <= delimited.LONGEST_LINE
        self.given += size
        return (self.word * size)[:size]


@pytest.mark.parametrize(
    ("word", "said"),
    [("a", "a cell in row 1 (line 1) has 1000000 characters or more"), ("a,", "500001 columns or more; at most 1000")],
)
def test_a_line_without_end_is_refused_after_a_million_characters(word: str, said: str) -> None:
    endless = _Endless(word)
    tracemalloc.start()
    try:
        with pytest.raises(WrapwrightError) as caught:
            _drain(delimited._lines(endless, ",", "a.csv"))
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert said in str(caught.value)
    assert endless.given == 1_000_000
    assert peak < 8_000_000


def _drain(found: Iterable[object]) -> None:
    for _ in found:
        pass


def test_memory_stays_the_same_however_long_the_table(tmp_path: Path) -> None:
    def peak(rows: int) -> int:
        file = tmp_path / f"{rows}.csv"
        file.write_text("name,team\n" + "Ada Lovelace,Red\n" * rows, encoding="utf-8")
        form = form_of(file)
        found: Iterator[object] = records(file, form)
        tracemalloc.start()
        try:
            _drain(found)
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()

    assert peak(12_000) < 1.3 * peak(1_500)
