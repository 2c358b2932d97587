"""Deciding about a design's rows: cells changed over the file, problems accepted, rows left out, all taken back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from wrapwright.core.base.errors import raise_all, unusable
from wrapwright.core.names.decisions import Decisions, decided
from wrapwright.core.names.mapping import record_digest
from wrapwright.core.names.values import Cells, Decision, Problem
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.deciding import never_accepted
from wrapwright.jobs.names.live.showing import SeeRow, position_of, see_row
from wrapwright.jobs.names.live.surveying import Survey, survey_of, waiting_of, whole_or_refused
from wrapwright.jobs.names.live.values import RowView

LONGEST_CELL = 2000


@dataclass(frozen=True)
class ChangeCells:
    """Write cells of one row anew, by column; a cell written as the file has it is no change any more."""

    design: int
    row: int
    cells: Mapping[str, str]


@dataclass(frozen=True)
class DecideRows:
    """Decide about rows.

    Attributes:
        design: its number.
        verb: "accept" what waits in them, "skip" them, "make" them after all, "forget" all that was decided.
        rows: their numbers; None: all of which a problem waits ("accept", "skip") or that were decided about.
        rule: only problems of this rule are accepted, only rows of which one waits skipped.
    """

    design: int
    verb: Literal["accept", "skip", "make", "forget"]
    rows: tuple[int, ...] | None = None
    rule: str = ""


@dataclass(frozen=True)
class RowsDecided:
    """How many rows were decided about, and how many problems with them."""

    rows: int
    problems: int = 0
    numbers: tuple[int, ...] = field(default=())


def change_cells(request: ChangeCells, bench: Bench, watch: Watch) -> RowView:
    """Return the row as it is now, its problems looked for anew; the table itself stays as it is.

    Raises:
        WrapwrightError: missing for no such row; unusable for a column that is not there, or a text beyond the limit.
    """
    survey = survey_of(request.design, bench)
    header = survey.names.mapping.header
    columns = {name.casefold(): name for name in header if name}
    cells = _record(survey, request.row)
    edits: dict[str, str] = {}
    for column, text in request.cells.items():
        name = columns.get(column.casefold())
        if name is None:
            raise unusable(f'the table has no column "{column[:60]}".', where=survey.opened.kept.name)
        if len(text) > LONGEST_CELL:
            message = f"the cell has {len(text)} characters; at most {LONGEST_CELL} are taken here."
            raise unusable(message, remedy="Change it in the table.", where=name)
        edits[name] = text
    with survey.lock:
        before = Decisions(survey.decisions).of(cells)
        table = survey.opened.kept.sha256
        made = decided(_only(before), cells, table, edits=edits).rows[cells.number]
        own = dict(zip(header, (*cells.cells, *[""] * len(header)), strict=False))
        made = replace(made, cells={name: text for name, text in made.cells.items() if text != own.get(name, "")})
        _write(survey, {cells.number: None if _says_nothing(made) else made}, bench)
    return see_row(SeeRow(request.design, request.row), bench, watch)


def decide_rows(request: DecideRows, bench: Bench, watch: Watch) -> RowsDecided:
    """Return how many rows were decided about.

    Raises:
        WrapwrightError: missing for no such row; unusable for problems that cannot be accepted; refused while the check
            is under way, where all rows are meant.
    """
    del watch
    survey = survey_of(request.design, bench)
    raise_all(list(survey.opened.problems))
    if request.rows is None and request.verb in ("accept", "skip"):
        whole_or_refused(survey)
    with survey.lock:
        waiting = _waiting(survey, request)
        if request.verb == "accept":
            never = [one for problems in waiting.values() for one in problems if not one.acceptable]
            if request.rows is not None:
                raise_all([never_accepted(one) for one in never[:20]])
            waiting = {
                number: found
                for number, problems in waiting.items()
                if (found := [one for one in problems if one.acceptable])
            }
        chosen = _chosen(survey, request, waiting)
        made: dict[int, Decision | None] = {}
        for number in chosen:
            cells = _record(survey, number)
            made[number] = None if request.verb == "forget" else _one(survey, cells, request, waiting.get(number, []))
        _write(survey, made, bench)
    counted = sum(map(len, waiting.values())) if request.verb == "accept" else 0
    return RowsDecided(len(made), counted, tuple(sorted(made))[:200])


def _one(survey: Survey, cells: Cells, request: DecideRows, waiting: list[Problem]) -> Decision | None:
    before = Decisions(survey.decisions).of(cells)
    table = survey.opened.kept.sha256
    if request.verb == "make":
        made = replace(before or Decision(cells.number, record_digest(cells)), choice="make")
    elif request.verb == "skip":
        made = decided(_only(before), cells, table, choice="skip").rows[cells.number]
    else:
        keys = [one.key for one in waiting]
        made = decided(_only(before), cells, table, choice="make", accepted=keys).rows[cells.number]
    return None if _says_nothing(made) else made


def _chosen(survey: Survey, request: DecideRows, waiting: Mapping[int, list[Problem]]) -> list[int]:
    if request.verb == "accept" or (request.rule and request.verb == "skip"):
        return sorted(waiting)
    if request.rows is not None:
        for number in request.rows:
            position_of(survey, number)
        return sorted(set(request.rows))
    if request.verb == "skip":
        return sorted(waiting)
    return sorted(number for number in survey.decisions if survey.opened.index.position(number) is not None)


def _waiting(survey: Survey, request: DecideRows) -> dict[int, list[Problem]]:
    """Return the waiting problems that are meant, by row; a question about several rows at the first that is meant."""
    wanted = None if request.rows is None else set(request.rows)
    for number in wanted or ():
        position_of(survey, number)
    found: dict[int, list[Problem]] = {}
    own = survey.found.own
    for number in own if wanted is None else wanted & own.keys():
        mine = waiting_of(own[number], survey.found.decided.get(number))
        if some := [one for one in mine if request.rule in ("", one.rule)]:
            found[number] = some
    for one in survey.groups():
        asked = [number for number in one.rows if wanted is None or number in wanted]
        if asked and request.rule in ("", one.rule) and not survey.settled(one):
            # Of rows that are too many the first one is made; the others are those to be left out.
            for number in asked[1:] if request.verb == "skip" and wanted is None else asked[:1]:
                found.setdefault(number, []).append(one)
    return found


def _record(survey: Survey, number: int) -> Cells:
    return survey.opened.index.at([position_of(survey, number)])[0]


def _only(before: Decision | None) -> Decisions:
    return Decisions({} if before is None else {before.row: before})


def _says_nothing(one: Decision) -> bool:
    return one.choice == "make" and not one.cells and not one.accepted


def _write(survey: Survey, made: Mapping[int, Decision | None], bench: Bench) -> None:
    """Keep decisions in the store, all of them or none, and have their rows looked at again."""
    from wrapwright.outside.store.rows.names import put_decision_rows

    kept: Iterable[Decision] = [one for one in made.values() if one is not None]
    gone = [number for number, one in made.items() if one is None]
    with bench.kept().writing() as connection:
        counted = put_decision_rows(connection, survey.opened.design.id, kept, gone)
    survey.again_all(dict(made), counted)
