"""What a list of names is made of: cells as read, how columns become fields, rows, and what is doubtful in them."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from wrapwright.core.base.findings import Severity

Case = Literal["as typed", "capitals", "small letters", "first capitals"]
# What a cell is beside its text: a formula or an error is shown as written and told, nothing is ever worked out.
CellKind = Literal["formula", "error", "unshown"]


@dataclass(frozen=True)
class Cells:
    """One record of a table as read, before anything is made of it.

    Attributes:
        number: counted from 1 as a spreadsheet counts, the header's row and empty rows included.
        line: line of the file in which it begins, from 1; the same as `number` unless a cell holds a line end.
        cells: texts in the columns' order; shorter than the header where the record is.
        kinds: for cells that are not plain text, by their place: a formula, an error, or ("unshown") a number or date
            whose form in the spreadsheet is not known here, so that it is written plainly.
    """

    number: int
    line: int
    cells: tuple[str, ...]
    kinds: Mapping[int, CellKind] = field(default_factory=dict)

    @property
    def empty(self) -> bool:
        """Whether nothing but white space stands in it: it is no piece then."""
        return not any(cell.strip() for cell in self.cells)


@dataclass(frozen=True)
class Column:
    """What a field takes from a column, and the changes that are asked for; without any, cells stay as typed.

    Attributes:
        column: the column's header.
        trim: white space at both ends goes, and stretches inside become one blank.
        case: "capitals" (all), "small letters" (all), "first capitals" (of each word, the rest stays as typed).
        otherwise: what stands in the place of an empty cell; None: the field is then empty.
    """

    column: str
    trim: bool = False
    case: Case = "as typed"
    otherwise: str | None = None


@dataclass(frozen=True)
class NamesRequest:
    """What a job asks of its list of names.

    Attributes:
        file: the table as the job writes it.
        sheet: of a workbook, the sheet's name; None: its first.
        header: number of the record that holds the columns' names.
        encoding, separator: "auto", or what the user says they are.
        who: the field by which rows are told apart; None: `name`, or else the first that a text uses.
        fields: by field, the column it takes and the changes; a header that is not mentioned is the field's own name.
        quantity: column that says how many of each are made; None: one.
        pictures, colours, shown: by element's name, the column with its file, its colour, and whether it is there.
    """

    file: str
    sheet: str | None = None
    header: int = 1
    encoding: str = "auto"
    separator: str = "auto"
    who: str | None = None
    fields: Mapping[str, Column] = field(default_factory=dict)
    quantity: str | None = None
    pictures: Mapping[str, str] = field(default_factory=dict)
    colours: Mapping[str, str] = field(default_factory=dict)
    shown: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Row:
    """One piece of the list, or `quantity` pieces that are the same.

    Attributes:
        number, line: as in Cells.
        fields: values for {name} in texts, NFC, changed only as the job asks; the job's own [fields] are not in it.
        quantity: how many of it, 1 or more.
        pictures: by element's name, the file it shows instead of its own, as written.
        colours: by element's name, its colour as #rrggbb.
        hidden: names of elements that are left out.
        digest: SHA-256 of the record as read, edits included: another digest is another row.
        edited: columns whose cells were changed over the file.
    """

    number: int
    line: int
    fields: Mapping[str, str]
    quantity: int = 1
    pictures: Mapping[str, str] = field(default_factory=dict)
    colours: Mapping[str, str] = field(default_factory=dict)
    hidden: frozenset[str] = frozenset()
    digest: str = ""
    edited: tuple[str, ...] = ()


@dataclass(frozen=True)
class Problem:
    """Something doubtful in a row, for the table that a person decides by.

    Attributes:
        row: the row's number; of several rows with one problem the first.
        field: the field, column or element it is about; "" for the whole row.
        problem: one sentence.
        figure: what was found, with its unit or its limit: "31 mm of 26 mm", "U+0430"; may be "".
        remedy: what to do.
        severity: an error or a warning waits for a decision; a note does not.
        rule: its public name.
        acceptable: whether the piece can be made in spite of it; if not, it is mended or skipped.
        rows: all rows it is about, when there are several; asked about once.
    """

    row: int
    field: str
    problem: str
    figure: str
    remedy: str
    severity: Severity
    rule: str
    acceptable: bool = True
    rows: tuple[int, ...] = ()

    @property
    def key(self) -> str:
        """What an acceptance names: the rule, what it is about, and of several rows which they are."""
        about = [self.field] if self.field else []
        if self.rows:
            listed = ",".join(map(str, self.rows)).encode("ascii")
            about.append(f"{len(self.rows)} rows {hashlib.sha256(listed).hexdigest()[:12]}")
        return ": ".join([self.rule, *about])

    @property
    def waits(self) -> bool:
        """Whether somebody has to decide about it."""
        return self.severity is not Severity.NOTE


@dataclass(frozen=True)
class Taken:
    """How a table was understood.

    Attributes:
        kind: "csv" or "xlsx".
        encoding: "utf-8", "utf-16" or "windows-1252"; "" for a workbook.
        separator: the character between cells; "" for a workbook.
        sheet: name of the workbook's sheet; "" otherwise.
        header: the columns' names, NFC, in order.
        sha256: of the file.
        remarks: sentences about what was taken, and why, where there was a choice.
    """

    kind: Literal["csv", "xlsx"]
    encoding: str
    separator: str
    sheet: str
    header: tuple[str, ...]
    sha256: str
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Decision:
    """What the user decided about one row.

    Attributes:
        row: the row's number.
        digest: SHA-256 of the record as the file had it when it was decided: another record is asked about anew.
        choice: "make" in spite of the problems in `accepted`, or "skip": no piece of it is made.
        cells: by column's header, texts that stand in the place of the file's.
        accepted: keys of the problems that were seen and accepted; a problem that comes later is asked about anew.
    """

    row: int
    digest: str
    choice: Literal["make", "skip"] = "make"
    cells: Mapping[str, str] = field(default_factory=dict)
    accepted: frozenset[str] = frozenset()
