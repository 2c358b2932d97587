"""A design's list shown: how it was understood, what its check found so far, and any page of its rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.values import Problem
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.views.words import place_in_design
from wrapwright.jobs.names.live.surveying import Survey, survey_of, waiting_of
from wrapwright.jobs.names.live.values import (
    CheckView,
    ColumnView,
    ElementView,
    FieldView,
    ListView,
    Order,
    ProblemView,
    RowState,
    RowsView,
    RowView,
    RuleView,
    TableView,
    TroubleView,
)
from wrapwright.jobs.names.opening import no_row

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wrapwright.core.names.values import Cells
    from wrapwright.jobs.names.live.opening import OpenedList

MOST_ROWS = 200


@dataclass(frozen=True)
class SeeList:
    """A design's list."""

    design: int


@dataclass(frozen=True)
class SeeRows:
    """A page of a list's rows.

    Attributes:
        design: its number.
        order: "problems": those that wait first; "rows": the table's; "changed" and "skipped": those alone.
        first, most: which of them, from 0, and how many.
        search: only rows in which these words stand.
        rule: only rows of which a problem of this rule waits.
    """

    design: int
    order: Order = "problems"
    first: int = 0
    most: int = 100
    search: str = ""
    rule: str = ""


@dataclass(frozen=True)
class SeeRow:
    """One row of a list, by its number."""

    design: int
    row: int


def see_list(request: SeeList, bench: Bench, watch: Watch) -> ListView:
    """Return a design's list as it stands.

    Raises:
        WrapwrightError: missing, for no such design or list; unusable, when its table cannot be read any more.
    """
    from wrapwright.jobs.names.live.keeping import fields_needed
    from wrapwright.outside.jobfile.problems import element_names, element_tables
    from wrapwright.outside.tables.delimited import words_of

    del watch
    survey = survey_of(request.design, bench)
    opened = survey.opened
    taken, document = opened.table.taken, dict(opened.design.document)
    separator = words_of(taken.separator) if taken.separator else ""
    table = TableView(
        opened.kept.name, taken.kind, taken.encoding, separator, taken.sheet, opened.asked.header, taken.remarks
    )
    elements = [
        ElementView(
            name, str(one.get("kind", "")).casefold() if isinstance(one, dict) else "", _is_own(name, one, opened)
        )
        for name, one in zip(element_names(document), element_tables(document), strict=True)
    ]
    fields = _fields(survey, fields_needed(document))
    return ListView(
        design=opened.design.id,
        revision=opened.design.revision,
        list_revision=opened.kept.revision,
        table=table,
        columns=_columns(survey, fields),
        mapping=opened.kept.mapping,
        fields=fields,
        elements=tuple(elements),
        check=None if opened.names is None else check_view(survey),
        troubles=tuple(map(trouble_view, opened.problems)),
    )


def _is_own(name: str, table: object, opened: OpenedList) -> bool:
    """Return whether rows change an element: its text, picture or colour, or whether it is there."""
    from wrapwright.jobs.names.live.keeping import fields_needed

    uses = (opened.asked.pictures, opened.asked.colours, opened.asked.shown)
    return any(name in one for one in uses) or bool(fields_needed({"element": [table]}))


def _fields(survey: Survey, needed: Sequence[str]) -> tuple[FieldView, ...]:
    asked, header = survey.opened.asked, survey.opened.table.taken.header
    own = survey.opened.design.document.get("fields")
    given: dict[str, Any] = own if isinstance(own, dict) else {}
    places = {name.casefold(): name for name in header if name}
    found = []
    for name in dict.fromkeys([*needed, *asked.fields]):
        said = str(given[name]) if name in given else None
        column = asked.fields.get(name)
        if column is not None:
            found.append(FieldView(name, column.column, said, column.trim, column.case, column.otherwise))
        else:
            found.append(FieldView(name, places.get(name.casefold(), ""), said))
    return tuple(found)


def _columns(survey: Survey, fields: Sequence[FieldView]) -> tuple[ColumnView, ...]:
    asked = survey.opened.asked
    feeds: dict[str, list[str]] = {}
    for one in fields:
        feeds.setdefault(one.column.casefold(), []).append(f"{{{one.name}}}")
    if asked.quantity:
        feeds.setdefault(asked.quantity.casefold(), []).append("number of pieces")
    for words, uses in (("picture of", asked.pictures), ("colour of", asked.colours), ("shows", asked.shown)):
        for element, column in uses.items():
            feeds.setdefault(column.casefold(), []).append(f"{words} {element}")
    return tuple(ColumnView(name, tuple(feeds.get(name.casefold(), ()))) for name in survey.opened.table.taken.header)


def trouble_view(problem: WrapwrightError) -> TroubleView:
    """Return a problem as a screen shows it."""
    where = problem.where if problem.where.startswith("names") else place_in_design(problem.where)
    return TroubleView(problem.message[:1].upper() + problem.message[1:], problem.remedy, where)


def check_view(survey: Survey) -> CheckView:
    """Return how far the check is, and what it found so far."""
    with survey.lock:
        found = survey.found
        rules: dict[str, list[Any]] = {}
        for number, problems in found.own.items():
            decision = found.decided.get(number)
            if decision is None or decision.choice != "skip":
                waits = set(map(id, waiting_of(problems, decision)))
                for one in problems:
                    _count(rules, one, waits=id(one) in waits)
        for one in survey.groups():
            _count(rules, one, waits=not survey.settled(one))
        skipped = {number for number, one in found.decided.items() if one.choice == "skip"}
        positions = [survey.opened.index.position(number) for number in skipped]
        pieces = sum(found.quantities) - sum(found.quantities[at] for at in positions if at is not None)
        views = [RuleView(rule, *counts) for rule, counts in rules.items()]
        return CheckView(
            checked=survey.done,
            rows=len(survey.opened.index),
            empty=survey.opened.index.empty,
            pieces=pieces,
            skipped=len(skipped),
            changed=sum(bool(one.cells) for one in found.decided.values()),
            stale=len(survey.decisions) - len(found.decided) if survey.whole else 0,
            waiting=sum(one.waiting for one in views),
            rules=tuple(sorted(views, key=lambda one: (-one.waiting, one.severity, one.rule))),
            trouble=None if survey.trouble is None else trouble_view(survey.trouble),
        )


def _count(rules: dict[str, list[Any]], one: Problem, *, waits: bool) -> None:
    counts = rules.setdefault(one.rule, [one.severity.value, 0, 0, False])
    counts[1 if waits else 2] += 1
    counts[3] = counts[3] or (waits and one.acceptable)


def see_rows(request: SeeRows, bench: Bench, watch: Watch) -> RowsView:
    """Return a page of rows.

    Raises:
        WrapwrightError: as `see_list`.
    """
    del watch
    survey = survey_of(request.design, bench)
    with survey.lock:
        order = _ordered(survey, request)
        positions = [int(at) for at in order[request.first : request.first + min(request.most, MOST_ROWS)]]
        records = survey.opened.index.at(positions)
        groups = _by_row(survey)
        # Those that the check has not come to are not looked at here: a page of them would take half a second.
        rows = [
            _row_view(survey, at, cells, groups, look=at < survey.done)
            for at, cells in zip(positions, records, strict=True)
        ]
    return RowsView(len(order), request.first, tuple(rows))


def see_row(request: SeeRow, bench: Bench, watch: Watch) -> RowView:
    """Return one row, looked at now where the check has not come to it yet.

    Raises:
        WrapwrightError: missing, when nothing stands in that row; else as `see_list`.
    """
    del watch
    survey = survey_of(request.design, bench)
    with survey.lock:
        position = position_of(survey, request.row)
        cells = survey.opened.index.at([position])[0]
        return _row_view(survey, position, cells, _by_row(survey), look=True)


def position_of(survey: Survey, number: int) -> int:
    """Return where a row stands in the index.

    Raises:
        WrapwrightError: missing, when nothing stands in it.
    """
    position = survey.opened.index.position(number)
    if position is None:
        raise no_row(number, survey.opened.kept.name)
    return position


def _ordered(survey: Survey, request: SeeRows) -> NDArray[Any]:
    """Return the positions of the rows that are asked for, in their order."""
    import numpy as np

    index, decided = survey.opened.index, survey.found.decided
    wanted = np.ones(len(index), dtype=bool)
    if request.search.strip():
        wanted[:] = False
        wanted[_holding(survey, request.search.strip())] = True
    if request.order in ("changed", "skipped"):
        numbers = [
            number
            for number, one in decided.items()
            if (one.cells if request.order == "changed" else one.choice == "skip")
        ]
        wanted &= np.isin(index.numbers, np.array(numbers, dtype=np.int64))
    waiting = np.isin(index.numbers, np.array(sorted(_waiting(survey, request.rule)), dtype=np.int64))
    if request.rule:
        wanted &= waiting
    if request.order == "problems":
        return np.concatenate([np.flatnonzero(wanted & waiting), np.flatnonzero(wanted & ~waiting)])
    return np.flatnonzero(wanted)


def _holding(survey: Survey, words: str) -> list[int]:
    """Return the positions of the rows in which words stand, as the file has them or as they were changed."""
    index, folded = survey.opened.index, words.casefold()
    edited = [
        at
        for number, one in survey.decisions.items()
        if any(folded in text.casefold() for text in one.cells.values()) and (at := index.position(number)) is not None
    ]
    own = index.position(int(words)) if words.isascii() and words.isdecimal() and len(words) < 10 else None
    return [*index.holding(words), *edited, *([] if own is None else [own])]


def _waiting(survey: Survey, rule: str = "") -> set[int]:
    """Return the numbers of the rows of which a problem waits; of a question about several rows all that are made."""
    found = survey.found
    numbers = {
        number
        for number, problems in found.own.items()
        if any(rule in ("", one.rule) for one in waiting_of(problems, found.decided.get(number)))
    }
    for one in survey.groups() if survey.opened.names is not None else ():
        if rule in ("", one.rule) and not survey.settled(one):
            decided = {number: found.decided.get(number) for number in one.rows}
            numbers.update(number for number, said in decided.items() if said is None or said.choice != "skip")
    return numbers


def _by_row(survey: Survey) -> dict[int, Problem]:
    if survey.opened.names is None:
        return {}
    return {number: one for one in survey.groups() for number in one.rows}


def _row_view(survey: Survey, position: int, cells: Cells, groups: dict[int, Problem], *, look: bool) -> RowView:
    header = survey.opened.table.taken.header
    padded = (*cells.cells, *[""] * (len(header) - len(cells.cells)))
    if survey.opened.names is None:
        return RowView(cells.number, "unchecked", padded, {}, 1, ())
    one = survey.read(cells)
    looked = position < survey.done
    own = survey.found.own.get(cells.number, ()) if looked else survey.measured(one) if look else ()
    problems = [*(problem for problem in own if problem.waits), *_group(survey, groups, cells.number)]
    views = tuple(_problem_view(survey, problem) for problem in problems)
    state: RowState = "fine"
    if one.skipped:
        state = "skipped"
    elif any(view.state == "waits" for view in views):
        state = "waits"
    elif not looked:
        state = "unchecked"
    elif views:
        state = "accepted"
    changed = {name: at for at, name in enumerate(header) if name in one.row.edited}
    full = (*one.cells.cells, *[""] * (len(header) - len(one.cells.cells)))
    return RowView(
        cells.number, state, full, {name: padded[at] for name, at in changed.items()}, one.row.quantity, views
    )


def _group(survey: Survey, groups: dict[int, Problem], number: int) -> list[Problem]:
    """Return the question that a row shares with others, unless leaving those out has answered it."""
    one = groups.get(number)
    if one is None:
        return []
    decided = [survey.found.decided.get(row) for row in one.rows]
    accepted = any(said is not None and one.key in said.accepted for said in decided)
    return [one] if accepted or not survey.settled(one) else []


def _problem_view(survey: Survey, one: Problem) -> ProblemView:
    return ProblemView(
        one.rule,
        one.severity.value,
        one.field,
        one.problem[:1].upper() + one.problem[1:],
        one.figure,
        one.remedy,
        one.acceptable,
        "accepted" if survey.settled(one) else "waits",
        _columns_of(survey, one.field),
        one.rows,
    )


def _columns_of(survey: Survey, about: str) -> tuple[int, ...]:
    """Return the places of the cells that a problem is about: of a field, a column, or what an element uses."""
    from wrapwright.core.design.elements import Code, Text
    from wrapwright.core.design.fields import field_names

    mapping = survey.names.mapping
    fields = {name: at for name, at, _ in mapping.fields}
    if about in fields:
        return (fields[about],)
    if about in mapping.header and about:
        return (mapping.header.index(about),)
    for one in survey.names.opened.job.elements:
        if one.name == about:
            used = field_names(one.text) if isinstance(one, Text | Code) else frozenset[str]()
            own = [
                at
                for pairs in (mapping.pictures, mapping.colours, mapping.shown)
                for name, at in pairs
                if name == about
            ]
            return tuple(dict.fromkeys([*(fields[name] for name in sorted(used) if name in fields), *own]))
    return ()
