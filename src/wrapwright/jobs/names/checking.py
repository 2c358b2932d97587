"""The check of all rows of a list: nothing is made, everything doubtful is told, and what waits is counted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.findings import Severity
from wrapwright.core.names.decisions import is_group_settled, is_settled
from wrapwright.core.names.rules.repeats import Seen, repeat
from wrapwright.core.names.values import Decision, Problem
from wrapwright.jobs.bench import Bench, HeldPool, Watch
from wrapwright.jobs.names.examining import examined
from wrapwright.jobs.names.opening import NamesList, open_list
from wrapwright.jobs.names.values import CheckNames, Counted, Listed, NamesChecked, NamesWaitError, Read, State

MOST_LISTED = 10_000  # problems that wait, and as many others; all are counted


def check_names(request: CheckNames, bench: Bench, watch: Watch) -> NamesChecked:
    """Return all that is doubtful in the rows of a job's list, and how much of it waits for a decision.

    Every row is looked at, in bounded memory: 24 bytes a row to find those that are the same, and what is listed.

    Raises:
        WrapwrightError: the job or its table cannot be read.
    """
    watch.step("reading the job", 0.0)
    return checked_list(open_list(request.job, request.text, bench), bench, watch)


def ready_names(request: CheckNames, bench: Bench, watch: Watch) -> tuple[NamesList, NamesChecked]:
    """Return a list opened, and its check; as `ready_list`.

    Raises:
        WrapwrightError: the job or its table cannot be read.
    """
    names = open_list(request.job, request.text, bench)
    return names, ready_list(names, bench, watch)


def ready_list(names: NamesList, bench: Bench, watch: Watch, pool: HeldPool | None = None) -> NamesChecked:
    """Return the check of a list of which every row is either to be made or skipped by the user; `pool` measures them.

    Raises:
        NamesWaitError: kind checks, when a problem waits for a decision.
        WrapwrightError: the table cannot be read.
    """
    checked = checked_list(names, bench, watch, pool)
    if checked.waiting:
        raise NamesWaitError(checked)
    return checked


@dataclass
class Tally:
    """What is gathered while the rows go by."""

    seen: Seen
    rows: int = 0
    pieces: int = 0
    skipped: int = 0
    edited: int = 0
    last: int = 0
    decisions: dict[int, Decision] = field(default_factory=dict)
    counts: dict[str, Counted] = field(default_factory=dict)
    waiting: list[Listed] = field(default_factory=list)
    others: list[Listed] = field(default_factory=list)

    def take(self, one: Read) -> None:
        """Count a row in."""
        self.rows += 1
        self.last = one.row.number
        self.edited += bool(one.row.edited)
        if one.decision is not None:
            self.decisions[one.row.number] = one.decision
        if one.skipped:
            self.skipped += 1
        else:
            self.pieces += one.row.quantity
        self.seen.add(one.row)

    def tell(self, problem: Problem, *, settled: bool) -> None:
        """Count a problem, and list it while there is room."""
        state: State = "note" if problem.severity is Severity.NOTE else "accepted" if settled else "waits"
        old = self.counts.get(problem.rule, Counted())
        waits = state == "waits"
        self.counts[problem.rule] = Counted(old.waiting + waits, old.settled + (not waits))
        chosen = self.waiting if waits else self.others
        if len(chosen) < MOST_LISTED:
            chosen.append(Listed(problem, state))


def checked_list(names: NamesList, bench: Bench, watch: Watch, pool: HeldPool | None = None) -> NamesChecked:
    """Return the check of an opened list; as `check_names`."""
    from wrapwright.jobs.names.signing import signed_words, since

    tally = Tally(Seen(names.mapping.who))
    for one, problems in examined(names, bench, watch, pool):
        tally.take(one)
        for problem in problems:
            tally.tell(problem, settled=is_settled(problem, one.decision))
    if not tally.rows:
        raise unusable("the table has a header and no row with something in it.", where=names.asked.file)
    watch.step("looking for rows that are the same", 0.95)
    for problem in group_problems(names, tally.seen):
        members = [tally.decisions.get(number) for number in problem.rows]
        tally.tell(problem, settled=is_group_settled(problem, members))
    listed = [*sorted(tally.waiting, key=_order), *sorted(tally.others, key=_order)]
    return NamesChecked(
        title=names.opened.job.title,
        taken=names.table.taken,
        fields=columns_of(names),
        rows=tally.rows,
        empty=max(0, tally.last - names.table.header_row - tally.rows),
        pieces=tally.pieces,
        skipped=tally.skipped,
        edited=tally.edited,
        stale=len(names.decisions.rows) - len(tally.decisions),
        problems=tuple(listed),
        counts=dict(sorted(tally.counts.items())),
        sha256=names.sha256,
        signed=signed_words(since(names)),
    )


def group_problems(names: NamesList, seen: Seen) -> Iterator[Problem]:
    """Yield one question for the rows that have a name in common; the table is read again for the names themselves."""
    groups = {numbers[0]: (numbers, same) for numbers, same in seen.groups()}
    if not groups:
        return
    who = names.mapping.who
    for one in names.rows():
        found = groups.get(one.row.number)
        if found is not None:
            numbers, same = found
            yield repeat(numbers, one.row.fields.get(who, ""), who, same=same)


def columns_of(names: NamesList) -> Mapping[str, str]:
    """Return by field the header of the column that gives it."""
    return {name: names.mapping.header[at] for name, at, _ in names.mapping.fields}


def _order(one: Listed) -> int:
    return one.problem.row
