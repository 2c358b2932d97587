"""A list looked at: its columns, its first rows or one row, as they would be made."""

from __future__ import annotations

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.decisions import is_settled
from wrapwright.core.names.values import Problem
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import columns_of
from wrapwright.jobs.names.measuring import Measuring
from wrapwright.jobs.names.opening import no_row, open_list
from wrapwright.jobs.names.values import Listed, NamesShown, Read, ShowNames

FIRST_ROWS = 5


def show_names(request: ShowNames, bench: Bench, watch: Watch) -> NamesShown:
    """Return how a list was understood, with its first rows, or the one row asked for and what is doubtful in it.

    Raises:
        WrapwrightError: missing, when the list has no such row, or nothing stands in it; else as `open_list`.
    """
    watch.step("reading the job", 0.0)
    names = open_list(request.job, request.text, bench)
    rows: list[tuple[Read, tuple[Listed, ...]]] = []
    measuring = Measuring(names, bench)
    for one in names.rows():
        if request.row is None or one.row.number == request.row:
            problems = () if one.skipped else measuring.problems(one)
            rows.append((one, tuple(_listed(problem, one) for problem in problems)))
        if len(rows) == (FIRST_ROWS if request.row is None else 1):
            break
        if request.row is not None and one.row.number > request.row:
            break
    if request.row is not None and not rows:
        raise no_row(request.row, names.asked.file)
    return NamesShown(names.table.taken, columns_of(names), tuple(rows))


def _listed(problem: Problem, one: Read) -> Listed:
    if problem.severity is Severity.NOTE:
        return Listed(problem, "note")
    return Listed(problem, "accepted" if is_settled(problem, one.decision) else "waits")
