"""A table of names opened: what it is, its columns, and its rows one at a time."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.values import Cells, NamesRequest, Taken
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.tables.delimited import Form, form_of, records, words_of
from wrapwright.outside.tables.kinds import kind_of
from wrapwright.outside.tables.workbook import Sheet, read_sheet, sheet_records


@dataclass(frozen=True)
class Table:
    """A table that can be read again and again, a row at a time.

    Attributes:
        file: where it lies.
        taken: how it was understood.
        header_row: number of the record that holds the columns' names.
        form, sheet: how its records are read; one of the two.
    """

    file: Path
    taken: Taken
    header_row: int
    form: Form | None = None
    sheet: Sheet | None = None

    def records(self) -> Iterator[Cells]:
        """Yield the records below the header; of a text table empty ones too.

        Raises:
            WrapwrightError: unusable, where a record cannot be read.
        """
        found = records(self.file, self.form) if self.form is not None else self._rows()
        return (one for one in found if one.number > self.header_row)

    def _rows(self) -> Iterator[Cells]:
        return sheet_records(self.sheet) if self.sheet is not None else iter(())


def open_table(file: Path, asked: NamesRequest, *, cache: Path) -> Table:
    """Return a table ready to be read; a workbook is read in a child, once.

    Args:
        file: text with separators or a workbook, told by its content.
        asked: its sheet, the header's row, encoding and separator where the user says them.
        cache: where a workbook as read is kept.

    Raises:
        WrapwrightError: unusable, with the file's name; not a table, unreadable letters, no header, no rows, or two
            columns of one name.
    """
    kind = kind_of(file)
    digest = file_sha256(file)
    if kind == "csv":
        form = form_of(file, encoding=asked.encoding, separator=asked.separator, header=asked.header)
        header = _header(records(file, form), asked, file.name)
        remarks = [form.encoding.remark] if form.encoding.remark else []
        if len(header) > 1 and asked.separator == "auto":
            remarks.append(f"Cells are taken to be separated by a {words_of(form.separator)}: {len(header)} columns.")
        taken = Taken("csv", form.encoding.name, form.separator, "", header, digest, tuple(remarks))
        return Table(file, taken, asked.header, form=form)
    sheet = read_sheet(file, digest, sheet=asked.sheet, cache=cache)
    header = _header(sheet_records(sheet), asked, file.name)
    remarks = []
    if asked.sheet is None and len(sheet.sheets) > 1:
        remarks.append(f'Of its {len(sheet.sheets)} sheets "{sheet.name}" is read; another is named by sheet =.')
    taken = Taken("xlsx", "", "", sheet.name, header, digest, tuple(remarks))
    return Table(file, taken, asked.header, sheet=sheet)


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
