"""Text tables (RFC 4180 and what spreadsheets write), read a record at a time."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.names.values import CellKind, Cells
from wrapwright.outside.tables.encodings import SAVE_UTF8, Encoding, encoding_of, opened_text
from wrapwright.outside.tables.separators import SAMPLE, SEPARATORS, WORDS, announced, separator_of

LONGEST_LINE = 1_000_000  # characters; a thousand columns of a thousand each
MOST_COLUMNS = 1000
LONGEST_CELL = 32_767  # characters; no spreadsheet's cell holds more (ECMA-376 workbooks as commonly limited)
MOST_ROWS = 2_000_000


@dataclass(frozen=True)
class Form:
    """How a text table is written: its encoding, the character between cells, and lines before the first record."""

    encoding: Encoding
    separator: str
    skipped: int = 0


def form_of(file: Path, *, encoding: str = "auto", separator: str = "auto", header: int = 1) -> Form:
    """Return how a text table is written; `separator` is "auto" or one of SEPARATORS' words.

    Raises:
        WrapwrightError: unusable, when its letters cannot be read.
    """
    letters = encoding_of(file, encoding)
    try:
        with opened_text(file, letters) as stream:
            sample = stream.read(SAMPLE)
    except UnicodeDecodeError as problem:
        raise _undecoded(problem, letters, file) from None
    first = sample.splitlines(keepends=True)[:1]
    named = announced(first[0]) if first else None
    skipped = 0 if named is None else 1
    if separator != "auto":
        return Form(letters, SEPARATORS[separator], skipped)
    return Form(letters, named or separator_of(sample, header), skipped)


def records(file: Path, form: Form) -> Iterator[Cells]:
    """Yield the records of a text table, empty ones too, in constant memory; cells stand as typed, quotes undone.

    A cell that begins with "=" is told as a formula; it is text like any other.

    Raises:
        WrapwrightError: unusable, with the row and the line; a line over 1 000 000 characters, over 1000 columns, a
            cell over 32 767 characters, over 2 000 000 rows, a quote that is never closed or that ends inside a cell.
    """
    number, line = 0, form.skipped + 1
    with opened_text(file, form.encoding) as stream:
        for _ in range(form.skipped):
            stream.readline(LONGEST_LINE)
        reader = csv.reader(_lines(stream, form.separator, file.name), delimiter=form.separator, strict=True)
        try:
            for record in reader:
                number += 1
                yield _cells(record, number, line, file.name)
                line = form.skipped + reader.line_num + 1
        except csv.Error as problem:
            raise _misquoted(str(problem), number + 1, line, file.name) from None
        except UnicodeDecodeError as problem:
            raise _undecoded(problem, form.encoding, file) from None


def _cells(record: list[str], number: int, line: int, where: str) -> Cells:
    if len(record) > MOST_COLUMNS:
        raise _wide(len(record), number, line, where)
    if number > MOST_ROWS:
        remedy = "Split it into several lists."
        raise unusable(f"the table has more than {MOST_ROWS} rows.", remedy=remedy, where=where)
    kinds: dict[int, CellKind] = {}
    for at, cell in enumerate(record):
        if len(cell) > LONGEST_CELL:
            raise _long(len(cell), number, line, where)
        if cell.startswith("="):
            kinds[at] = "formula"
    return Cells(number, line, tuple(record), kinds)


def _lines(stream: TextIO, separator: str, where: str) -> Iterator[str]:
    """Yield lines with their ends; one that is too long ends the reading before it fills the memory."""
    number = 0
    while text := stream.readline(LONGEST_LINE):
        number += 1
        if len(text) == LONGEST_LINE and not text.endswith(("\n", "\r")):
            columns = max(text.count(sign) for sign in (separator, *WORDS)) + 1
            if columns > MOST_COLUMNS:
                raise _wide(columns, number, number, where)
            raise _long(len(text), number, number, where)
        yield text


def _wide(columns: int, number: int, line: int, where: str) -> WrapwrightError:
    message = f"row {number} (line {line}) has {columns} columns or more; at most {MOST_COLUMNS} are read."
    return unusable(message, remedy="Keep the columns that are used.", where=where)


def _long(length: int, number: int, line: int, where: str) -> WrapwrightError:
    message = f"a cell in row {number} (line {line}) has {length} characters or more; at most {LONGEST_CELL} are read."
    return unusable(message, remedy="Look for a quote that is not closed, or shorten it.", where=where)


def _misquoted(said: str, number: int, line: int, where: str) -> WrapwrightError:
    if "field limit" in said:
        return _long(csv.field_size_limit(), number, line, where)
    what = "has a quote that is not closed" if "end of data" in said else "has a quote that ends inside a cell"
    message = f"row {number} (line {line}) {what}."
    remedy = 'A cell with quotes in it is written "so ""to say"" them": save the table with a spreadsheet.'
    return unusable(message, remedy=remedy, where=where)


def _undecoded(problem: UnicodeDecodeError, letters: Encoding, file: Path) -> WrapwrightError:
    message = f"its letters are not {letters.name} throughout ({problem.reason})."
    return unusable(message, remedy=SAVE_UTF8, where=file.name)


def words_of(separator: str) -> str:
    """Return how a separator is called."""
    return WORDS.get(separator, f'"{separator}"')
