"""A table of names opened: what it is, its columns, and its rows one at a time."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.names.values import Cells, NamesRequest, Taken
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.tables.delimited import Form, form_of, records, words_of
from wrapwright.outside.tables.kinds import kind_of
from wrapwright.outside.tables.separators import WORDS
from wrapwright.outside.tables.workbook import Sheet, read_sheet, sheet_records

_LOOKED_AT = 1000  # records in which a table of one column is looked at for separators


@dataclass(frozen=True)
class Table:
    """A table that can be read again and again, a row at a time.

    Attributes:
        file: where it lies.
        taken: how it was understood.
        header_row: number of the record that holds the columns' names.
        form, sheet: how its records are read; one of the two.
        stamp: size and time of change of a text table when it was opened; None where that is looked at elsewhere.
    """

    file: Path
    taken: Taken
    header_row: int
    form: Form | None = None
    sheet: Sheet | None = None
    stamp: tuple[int, int] | None = None

    def records(self) -> Iterator[Cells]:
        """Yield the records below the header; of a text table empty ones too.

        Raises:
            WrapwrightError: unusable, where a record cannot be read; refused, when the file is another by now.
        """
        return (one for one in self._found() if one.number > self.header_row)

    def _found(self) -> Iterator[Cells]:
        if self.sheet is not None:
            yield from sheet_records(self.sheet)
        elif self.form is not None:
            with readable(self.file):
                self._unchanged()
                yield from records(self.file, self.form)
                self._unchanged()

    def _unchanged(self) -> None:
        if self.stamp is not None and stamp_of(self.file) != self.stamp:
            message = "the table was changed while it was being read."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Start again.", where=self.file.name)


def stamp_of(file: Path) -> tuple[int, int]:
    """Return a file's size and the time of its last change: another stamp means another content."""
    about = file.stat()
    return about.st_size, about.st_mtime_ns


@contextmanager
def readable(file: Path) -> Iterator[None]:
    """Turn a table's going away while it is read into a sentence.

    Raises:
        WrapwrightError: unusable.
    """
    try:
        yield
    except OSError as problem:
        message = f"the table cannot be read to its end: {problem.strerror or problem}."
        raise unusable(message, remedy="Put it back and start again.", where=file.name) from problem


def open_table(file: Path, asked: NamesRequest, *, cache: Path) -> Table:
    """Return a table ready to be read; a workbook is read in a child, once.

    Args:
        file: text with separators or a workbook, told by its content.
        asked: its sheet, the header's row, encoding and separator where the user says them.
        cache: where a workbook as read is kept.

    Raises:
        WrapwrightError: unusable, with the file's name; not a table, unreadable letters, no header, no rows, two
            columns of one name, or gone while it is read.
    """
    kind = kind_of(file)
    with readable(file):
        if kind == "csv":
            return _text_table(file, asked)
        digest = file_sha256(file)
    sheet = read_sheet(file, digest, sheet=asked.sheet, cache=cache)
    header = _header(sheet_records(sheet), asked, file.name)
    remarks = []
    if asked.sheet is None and len(sheet.sheets) > 1:
        remarks.append(f'Of its {len(sheet.sheets)} sheets "{sheet.name}" is read; another is named by sheet =.')
    taken = Taken("xlsx", "", "", sheet.name, header, digest, tuple(remarks))
    return Table(file, taken, asked.header, sheet=sheet)


def _text_table(file: Path, asked: NamesRequest) -> Table:
    stamp, digest = stamp_of(file), file_sha256(file)
    form = form_of(file, encoding=asked.encoding, separator=asked.separator, header=asked.header)
    header = _header(records(file, form), asked, file.name)
    remarks = [form.encoding.remark] if form.encoding.remark else []
    if asked.separator == "auto":
        if len(header) > 1:
            remarks.append(f"Cells are taken to be separated by a {words_of(form.separator)}: {len(header)} columns.")
        else:
            remarks += _one_column(records(file, form), asked.header)
    if asked.sheet is not None:
        remarks.append(f'It is text and has no sheets: sheet = "{asked.sheet[:60]}" counts for nothing.')
    taken = Taken("csv", form.encoding.name, form.separator, "", header, digest, tuple(remarks))
    return Table(file, taken, asked.header, form=form, stamp=stamp)


def _one_column(found: Iterator[Cells], header: int) -> list[str]:
    """Return a sentence about the first cell of a table of one column that looks like several."""
    for one in islice(found, header, header + _LOOKED_AT):
        for sign, word in WORDS.items():
            if any(sign in cell for cell in one.cells):
                cell = f'row {one.number}, "{one.cells[0][:40]}"'
                said = f"It is taken to have one column: the {word} in {cell}, is printed."
                return [f'{said} Say separator = "{word}" in [names] if it parts cells.']
    return []


def _header(found: Iterator[Cells], asked: NamesRequest, where: str) -> tuple[str, ...]:
    """Return the columns' names, white space in them made single blanks."""
    header: tuple[str, ...] | None = None
    for one in found:
        if one.number > asked.header:
            if header is None:
                break
            return header
        if one.number == asked.header and not one.empty:
            header = tuple(" ".join(unicodedata.normalize("NFC", cell).split()) for cell in one.cells)
            _told_apart(header, where)
    if header is None:
        message = f"row {asked.header}, which should hold the columns' names, is empty."
        raise unusable(message, remedy="Say which row does with header = in [names].", where=where)
    raise unusable(f"the table has a header in row {asked.header} and no row below it.", where=where)


def _told_apart(header: tuple[str, ...], where: str) -> None:
    seen: dict[str, int] = {}
    for number, name in enumerate(header, start=1):
        first = seen.setdefault(name.casefold(), number)
        if name and first != number:
            message = f'two columns are called "{name[:60]}": {first} and {number}.'
            raise unusable(message, remedy="Give each its own name in the table.", where=where)
