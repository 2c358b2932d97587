"""What a screen gets of a design's list of names: plain frozen values, ready to be sent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

RowState = Literal["waits", "fine", "accepted", "skipped", "unchecked"]
Order = Literal["problems", "rows", "changed", "skipped"]


@dataclass(frozen=True)
class TableView:
    """How the table was understood: as Taken, the separator in words; `header_row` holds the columns' names."""

    file: str
    kind: str
    encoding: str
    separator: str
    sheet: str
    header_row: int
    remarks: tuple[str, ...]


@dataclass(frozen=True)
class ColumnView:
    """A column: its name, and in words what takes from it ("field name", "number of pieces"); "" for an unused one."""

    name: str
    feeds: tuple[str, ...]


@dataclass(frozen=True)
class FieldView:
    """A field that the design's texts use.

    Attributes:
        name: as in {name}.
        column: the column that gives it, "" for none.
        given: what the design itself says for it where no column does; None when it says nothing.
        trim, case, otherwise: the changes that are asked for.
    """

    name: str
    column: str
    given: str | None
    trim: bool = False
    case: str = "as typed"
    otherwise: str | None = None


@dataclass(frozen=True)
class ElementView:
    """An element of the design, of which a row could exchange something; `own` says whether rows do."""

    name: str
    kind: str
    own: bool


@dataclass(frozen=True)
class TroubleView:
    """Why the list cannot be used as it is; `where` as the screen calls it."""

    message: str
    remedy: str
    where: str


@dataclass(frozen=True)
class RuleView:
    """How many problems of a rule wait, are settled, and whether those that wait could be accepted."""

    rule: str
    severity: str
    waiting: int
    settled: int
    acceptable: bool


@dataclass(frozen=True)
class CheckView:
    """How far the check of all rows is, and what it found so far.

    Attributes:
        checked, rows: rows looked at, of so many.
        empty: rows with nothing in them, which make no piece.
        pieces: how many would be made.
        skipped, changed: rows left out, rows with changed cells.
        stale: decisions about rows that are others by now.
        waiting: problems that wait for a decision.
        rules: by rule.
        trouble: why the check ended early; None when it did not.
    """

    checked: int
    rows: int
    empty: int
    pieces: int
    skipped: int
    changed: int
    stale: int
    waiting: int
    rules: tuple[RuleView, ...]
    trouble: TroubleView | None = None


@dataclass(frozen=True)
class ListView:
    """A design's list as its screen shows it.

    Attributes:
        design, revision: the design's numbers; list_revision: of table and mapping.
        table, columns, mapping: how the table was understood, and what [names] of a job file would say.
        fields, elements: what takes from columns.
        check: None while the mapping cannot be used.
        troubles: why it cannot.
    """

    design: int
    revision: int
    list_revision: int
    table: TableView
    columns: tuple[ColumnView, ...]
    mapping: Mapping[str, object]
    fields: tuple[FieldView, ...]
    elements: tuple[ElementView, ...]
    check: CheckView | None
    troubles: tuple[TroubleView, ...]


@dataclass(frozen=True)
class ProblemView:
    """A problem of a row: as Problem; `columns` are the places of the cells it is about, `state` waits or accepted."""

    rule: str
    severity: str
    field: str
    problem: str
    figure: str
    remedy: str
    acceptable: bool
    state: str
    columns: tuple[int, ...]
    rows: tuple[int, ...]


@dataclass(frozen=True)
class RowView:
    """A row: its cells in the columns' order as they count now, and by column what the file has where that differs."""

    number: int
    state: RowState
    cells: tuple[str, ...]
    file_cells: Mapping[str, str]
    quantity: int
    problems: tuple[ProblemView, ...]


@dataclass(frozen=True)
class RowsView:
    """A page of rows: `total` are those that the order and the words leave, of which these begin at `first`."""

    total: int
    first: int
    rows: tuple[RowView, ...]
