"""A job's list of names opened: its table, how columns become fields, and what was decided about its rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, noted, raise_all, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.design.elements import Picture, Tile
from wrapwright.core.names.decisions import Decisions, with_edits
from wrapwright.core.names.mapping import Bound, bound, row_of
from wrapwright.core.names.pieces import elements_in_doubt, elements_of, fields_of, fields_used
from wrapwright.core.names.values import Cells, NamesRequest, Row
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.values import Read
from wrapwright.jobs.work.opening import Opened
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.tables.reading import Table


@dataclass(frozen=True, eq=False)
class NamesList:
    """A list of names ready to be read, again and again, a row at a time.

    Attributes:
        opened: the job.
        asked: its [names].
        table: the table.
        mapping: which column gives what.
        decisions: what was decided about rows.
    """

    opened: Opened
    asked: NamesRequest
    table: Table
    mapping: Bound
    decisions: Decisions

    def rows(self) -> Iterator[Read]:
        """Yield every row that has something in it, in the file's order, in constant memory.

        Skipped rows are yielded too (`skipped`), so that whoever makes them can say so.

        Raises:
            WrapwrightError: unusable, where the table cannot be read.
        """
        for cells in self.table.records():
            if cells.empty:
                continue
            yield self.read(cells, self.decisions)

    def read(self, cells: Cells, decisions: Decisions) -> Read:
        """Return a record as a row, what was decided about it put in."""
        decision = decisions.of(cells) if decisions.rows else None
        lost = decisions.lost(cells, self.mapping.header) if decisions.rows and decision is None else None
        changed, edits = with_edits(cells, self.mapping.header, decision)
        row, problems = row_of(changed, self.mapping, edits)
        return Read(row, changed, problems, decision, lost)

    @property
    def sha256(self) -> str:
        """The hash of the job, of the table and of all that was decided."""
        import hashlib

        parts = (self.opened.sha256, self.table.taken.sha256, self.decisions.sha256)
        return hashlib.sha256(" ".join(parts).encode("ascii")).hexdigest()


def no_row(number: int, where: str) -> WrapwrightError:
    """Return the error for a row of which the list has nothing."""
    message = f"the list has no row {number} with something in it."
    remedy = "Rows are counted as the spreadsheet does, the header's row included."
    return WrapwrightError(Kind.MISSING, message, remedy=remedy, where=where)


def opened_of(opened: Opened, row: Row) -> Opened:
    """Return the job of one piece of a row: a job like any other, without a list.

    A file that is not there, and that the row exchanges or leaves out, is not told any more.
    """
    job = opened.job
    one = replace(
        job, names=None, quantity=1, fields=fields_of(job.fields, row), elements=elements_of(job.elements, row)
    )
    gone = _pictures(job) - _pictures(one)
    absent = {file: problem for file, problem in opened.absent.items() if file not in gone}
    return replace(opened, job=one, absent=absent)


def _pictures(job: Job) -> set[str]:
    """Return the files of a job's pictures and tiles, as written."""
    return {one.file for one in job.elements if isinstance(one, Picture | Tile)}


def open_list(path: Path | None, text: str | None, bench: Bench) -> NamesList:
    """Return the list of names of a job file, or of a job's text whose paths start at the working folder.

    Raises:
        WrapwrightError: as `opened` and `open_names`.
    """
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.work.opening import opened

    return open_names(opened(path, text, bench.folders.fonts, shelf_of(bench)), bench, path)


def open_names(opened: Opened, bench: Bench, path: Path | None) -> NamesList:
    """Return the list of names of an opened job; `path` is the job file's, beside which decisions are kept.

    Raises:
        WrapwrightError: unusable; the job has no list, a file it names is not there, the table cannot be read, a
            column, field or element that [names] mentions is not there.
    """
    from wrapwright.outside.tables.decided import decisions_file, read_decisions
    from wrapwright.outside.tables.reading import open_table

    asked = opened.job.names
    if asked is None:
        remedy = 'Write [names] with file = "crew.csv" in the job file.'
        raise unusable("this job has no list of names.", remedy=remedy, where="names")
    pictures = [one for one in opened.job.elements if isinstance(one, Picture | Tile)]
    exchanged = {one.file for one in pictures if one.name in asked.pictures}
    problems: list[WrapwrightError] = [one for file, one in opened.absent.items() if file not in exchanged]
    raise_all(problems)
    problems += elements_in_doubt(asked, opened.job.elements)
    table = noted(problems, lambda: open_table(opened.path_of(asked.file), asked, cache=bench.folders.cache))
    decisions = noted(problems, lambda: Decisions() if path is None else read_decisions(decisions_file(path)))
    if table is None:
        raise_all(problems)
        raise AssertionError("a table that cannot be read has left no problem")
    needed = fields_used(opened.job.elements)
    mapping = noted(problems, lambda: bound(asked, table.taken.header, needed, opened.job.fields))
    raise_all(problems)
    if mapping is None or decisions is None:  # pragma: no cover - raise_all left with the reason
        raise AssertionError("a step that failed has left no problem")
    return NamesList(opened, asked, _told(table, _idle(asked, needed, mapping.who)), mapping, decisions)


def _idle(asked: NamesRequest, needed: tuple[str, ...], who: str) -> list[str]:
    """Return a sentence for each field of [names.fields] that nothing uses: a name perhaps misspelt."""
    said = []
    for name in asked.fields:
        if name not in (*needed, who):
            near = nearest(name, [one for one in needed if one not in asked.fields])
            hint = f" Is {{{near}}} meant?" if near else ""
            said.append(f"[names.fields] gives {{{name}}}, which no text uses.{hint}")
    return said


def _told(table: Table, remarks: Sequence[str]) -> Table:
    """Return a table with more remarks about how it was taken."""
    return replace(table, taken=replace(table.taken, remarks=(*table.taken.remarks, *remarks)))
