"""Decisions about rows: problems accepted, rows skipped, cells changed over the file, and all that taken back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.names.decisions import Decisions, decided, is_group_settled, is_settled, undecided
from wrapwright.core.names.rules.repeats import Seen
from wrapwright.core.names.values import Cells, Problem
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import group_problems
from wrapwright.jobs.names.examining import examined
from wrapwright.jobs.names.opening import NamesList, no_row, open_list
from wrapwright.jobs.names.values import ROW_RULES, DecideNames, NamesDecided, Read


def decide_names(request: DecideNames, bench: Bench, watch: Watch) -> NamesDecided:
    """Return how many rows were decided about; the decisions are kept beside the job file, all of them or none.

    Accepting says yes to the problems that a row has now, one that comes later is asked about anew. A question about
    several rows is accepted at any of them.

    Raises:
        WrapwrightError: usage, for a rule that is none; missing, for a row that is not there; unusable, for a problem
            that cannot be accepted, a column that is not there, or a file that cannot be written.
    """
    from wrapwright.outside.tables.decided import decisions_file, write_decisions

    _known(request.rule)
    watch.step("reading the job", 0.0)
    names = open_list(request.job, None, bench)
    file = decisions_file(request.job)
    if request.verb == "forget":
        rows = tuple(names.decisions.rows) if request.rows is None else request.rows
        known = [row for row in rows if row in names.decisions.rows]
        after, rows_done, problems_done = undecided(names.decisions, known), len(known), 0
    elif request.verb == "edit":
        edits = request.edits or dict.fromkeys(request.rows or (), request.cells)
        after, rows_done, problems_done = _edited(names, edits), len(edits), 0
    else:
        after, rows_done, problems_done = _answered(names, request, bench, watch)
    if rows_done:
        write_decisions(file, after)
    return NamesDecided(rows_done, problems_done, file)


def _known(rule: str | None) -> None:
    if rule is not None and rule not in ROW_RULES:
        near = nearest(rule, ROW_RULES, alike=0.5)
        remedy = f'Did you mean "{near}"?' if near else "names check says the rule of each problem."
        raise WrapwrightError(Kind.USAGE, f'there is no rule "{rule[:60]}" for rows.', remedy=remedy, where="--rule")


def _edited(names: NamesList, edits: Mapping[int, Mapping[str, str]]) -> Decisions:
    header = {name.casefold(): name for name in names.mapping.header if name}
    fields = {name.casefold(): names.mapping.header[at] for name, at, _ in names.mapping.fields}
    problems: list[WrapwrightError] = []

    def column_of(words: str) -> str:
        said = " ".join(words.split()).casefold()
        found = header.get(said) or fields.get(said)
        if found is None:
            near = nearest(words, list(header.values()))
            remedy = f'Did you mean "{near}"?' if near else f"There are: {', '.join(header.values())}."
            problems.append(unusable(f'the table has no column "{words[:60]}".', remedy=remedy, where="--edit"))
        return found or ""

    asked = {row: {column_of(words): text for words, text in cells.items()} for row, cells in edits.items()}
    raise_all(problems)
    after = names.decisions
    for cells in _records(names, set(asked)):
        after = decided(after, cells, names.table.taken.sha256, edits=asked[cells.number])
    return after


def _records(names: NamesList, wanted: set[int]) -> Sequence[Cells]:
    """Return the records of some rows as the file has them."""
    found = [cells for cells in names.table.records() if cells.number in wanted and not cells.empty]
    lost = sorted(wanted - {cells.number for cells in found})
    raise_all([no_row(number, names.asked.file) for number in lost[:20]])
    return found


def _answered(names: NamesList, request: DecideNames, bench: Bench, watch: Watch) -> tuple[Decisions, int, int]:
    """Return the decisions with rows skipped or their problems accepted, and how many rows and problems that were."""
    waiting = _waiting(names, request, bench, watch)
    if request.verb == "skip" and request.rows is not None and request.rule is None:
        chosen = set(request.rows)
    else:
        chosen = set(waiting)
    if request.verb == "accept":
        never = [one for row in sorted(chosen) for one in waiting[row] if not one.acceptable]
        raise_all([never_accepted(one) for one in never[:20]])
    keys = {row: [one.key for one in waiting.get(row, ()) if one.acceptable] for row in chosen}
    rows = dict(names.decisions.rows)
    for cells in _records(names, chosen):
        before = rows.get(cells.number)
        old = Decisions({} if before is None else {cells.number: before})
        accepted = keys[cells.number] if request.verb == "accept" else ()
        choice = "skip" if request.verb == "skip" else "make"
        one = decided(old, cells, names.table.taken.sha256, choice=choice, accepted=accepted)  # type: ignore[arg-type]
        rows[cells.number] = one.rows[cells.number]
    return Decisions(rows, names.table.taken.sha256), len(chosen), sum(map(len, keys.values()))


def never_accepted(one: Problem) -> WrapwrightError:
    """Return the error for a problem that cannot be accepted."""
    return unusable(f"row {one.row}: {one.problem} That cannot be accepted.", remedy=one.remedy, where=one.field)


def _waiting(names: NamesList, request: DecideNames, bench: Bench, watch: Watch) -> Mapping[int, list[Problem]]:
    """Return the waiting problems, by row, that the request is about; those of several rows at the first asked for."""
    wanted = None if request.rows is None else set(request.rows)
    found: dict[int, list[Problem]] = {}
    reads: dict[int, Read] = {}
    seen = Seen(names.mapping.who)
    for one, problems in examined(names, bench, watch):
        seen.add(one.row)
        number = one.row.number
        if one.decision is not None:
            reads[number] = one
        if wanted is None or number in wanted:
            mine = [p for p in problems if not is_settled(p, one.decision) and request.rule in (None, p.rule)]
            if mine:
                found[number] = mine
    for problem in group_problems(names, seen):
        members = [reads[row].decision if row in reads else None for row in problem.rows]
        asked = [row for row in problem.rows if wanted is None or row in wanted]
        if asked and request.rule in (None, problem.rule) and not is_group_settled(problem, members):
            found.setdefault(asked[0], []).append(problem)
    if wanted is not None:
        _records(names, wanted)
    return found
