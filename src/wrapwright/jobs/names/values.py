"""What is asked about a list of names, and what comes back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.values import Cells, Decision, Problem, Row, Taken

State = Literal["waits", "accepted", "note"]
ROW_RULES: tuple[str, ...] = (
    "glyph-missing",
    "text-does-not-fit",
    "crosses-seam",
    "over-handle",
    "off-wrap",
    "over-keepout",
    "uncoated",
    "code-wide",
    "code-module",
    "text-small",
    "stroke-thin",
    "text-too-long",
    "text-empty",
    "text-unset",
    "empty-field",
    "decided-before",
    "row-twice",
    "same-name",
    "spaces",
    "lines",
    "hidden-signs",
    "look-alikes",
    "digit-in-word",
    "marks-stacked",
    "long",
    "right-to-left",
    "letters-misread",
    "letters-lost",
    "control-character",
    "formula",
    "cell-error",
    "cell-form",
    "cells-too-many",
    "quantity",
    "colour",
    "shown",
    "picture-outside",
    "picture-missing",
)
Verb = Literal["accept", "skip", "edit", "forget"]


@dataclass(frozen=True)
class CheckNames:
    """Check all rows of a job's list; `text` as in CheckRequest."""

    job: Path | None
    text: str | None = None


@dataclass(frozen=True)
class ShowNames:
    """Show a list's columns and first rows, or one row."""

    job: Path | None
    text: str | None = None
    row: int | None = None


@dataclass(frozen=True)
class DecideNames:
    """Decide about rows.

    Attributes:
        job: the job file, beside which the decisions are kept.
        verb: "accept" their problems, "skip" them, "edit" cells of them, "forget" what was decided.
        rows: numbers of rows; None: all that the verb could be for.
        rule: only problems of this rule are accepted, only rows with such a problem skipped; None: any.
        cells: for "edit", by column (or by the field that it gives) the new text.
        edits: for "edit" of several rows, the cells of each; in the place of rows and cells.
    """

    job: Path
    verb: Verb
    rows: tuple[int, ...] | None
    rule: str | None = None
    cells: Mapping[str, str] = field(default_factory=dict)
    edits: Mapping[int, Mapping[str, str]] = field(default_factory=dict)


@dataclass(frozen=True)
class Read:
    """One row as the list has it, decisions put in.

    Attributes:
        row: the row, with the cells that were changed.
        cells: its record, with the same changes.
        problems: what in its own cells keeps it from being made.
        decision: what was decided about it, None when nothing.
        lost: what was decided about the row when it held something else, and does not count any more.
    """

    row: Row
    cells: Cells
    problems: tuple[Problem, ...] = ()
    decision: Decision | None = None
    lost: Decision | None = None

    @property
    def skipped(self) -> bool:
        """Whether the user said that no piece is made of it."""
        return self.decision is not None and self.decision.choice == "skip"


@dataclass(frozen=True)
class Listed:
    """One problem and whether it still waits for a decision."""

    problem: Problem
    state: State


@dataclass(frozen=True)
class Counted:
    """How many problems of one rule wait, and how many were accepted or are notes."""

    waiting: int = 0
    settled: int = 0


@dataclass(frozen=True)
class NamesChecked:
    """What the check of a list found.

    Attributes:
        title: the job's.
        taken: how the table was understood.
        fields: by field, the column that gives it.
        rows, empty: rows with something in them, and rows without, which make no piece.
        pieces: how many would be made: of all rows that are not skipped.
        skipped, edited: rows that the user left out or changed cells of.
        stale: decisions about rows that are others by now; they count for nothing.
        problems: in the rows' order, those that wait before all others; at most `MOST_LISTED` of each.
        counts: by rule, all of them.
        sha256: hash of the table and of all that was decided; another hash is another list.
        signed: who signed the list off, and what was changed since, a sentence each; nothing where nobody did.
    """

    title: str
    taken: Taken
    fields: Mapping[str, str]
    rows: int
    empty: int
    pieces: int
    skipped: int
    edited: int
    stale: int
    problems: tuple[Listed, ...]
    counts: Mapping[str, Counted]
    sha256: str
    signed: tuple[str, ...] = ()

    @property
    def waiting(self) -> int:
        """How many problems wait for a decision; nothing is made before there is none."""
        return sum(one.waiting for one in self.counts.values())


@dataclass(frozen=True)
class NamesShown:
    """A list's columns and first rows, or the one row asked for.

    Attributes:
        taken: how the table was understood.
        fields: by field, the column that gives it.
        rows: the rows; each with its problems.
    """

    taken: Taken
    fields: Mapping[str, str]
    rows: tuple[tuple[Read, tuple[Listed, ...]], ...]


@dataclass(frozen=True)
class NamesDecided:
    """How many rows were decided about, and the file that keeps it."""

    rows: int
    problems: int
    file: Path


class NamesWaitError(WrapwrightError):
    """Rows wait for a decision, so that nothing is made; `checked` holds all that was found."""

    def __init__(self, checked: NamesChecked) -> None:
        rules = sorted(rule for rule, count in checked.counts.items() if count.waiting)
        number = "1 problem waits" if checked.waiting == 1 else f"{checked.waiting} problems wait"
        remedy = "Mend the table, or decide row by row: wrapwright names decide JOB --accept ROW, --skip ROW or --edit."
        super().__init__(Kind.CHECKS, f"{number} for a decision: {', '.join(rules)}.", remedy=remedy, where="names")
        self.checked = checked
        self.told: Mapping[str, Any] = {}  # what a face adds to the document of the failure

    def __reduce__(self) -> tuple[object, ...]:
        """Keep what was found when the error crosses a process border."""
        return (NamesWaitError, (self.checked,))
