"""Lists of names told: as a table to read, and as a document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wrapwright.core.names.values import Problem, Taken
    from wrapwright.jobs.names.values import Listed, NamesChecked, NamesShown, Read

HEAD = ("row", "field", "what", "problem", "figure", "remedy", "rule")
_SHOWN = 5  # rows with one problem that are listed each; the others of many are named in one line
_FOLDED = 12  # so many and more are many


def taken_row(taken: Taken) -> dict[str, Any]:
    """Return how a table was understood, as a document says it."""
    return {
        "kind": taken.kind,
        "encoding": taken.encoding or None,
        "separator": taken.separator or None,
        "sheet": taken.sheet or None,
        "columns": list(taken.header),
        "sha256": taken.sha256,
        "remarks": list(taken.remarks),
    }


def problem_row(problem: Problem, state: str) -> dict[str, Any]:
    """Return a problem as a document says it, keys in their published order."""
    return {
        "row": problem.row,
        "rows": list(problem.rows) or [problem.row],
        "field": problem.field or None,
        "rule": problem.rule,
        "severity": problem.severity.value,
        "state": state,
        "problem": problem.problem,
        "figure": problem.figure or None,
        "remedy": problem.remedy,
        "acceptable": problem.acceptable,
    }


def checked_row(checked: NamesChecked) -> dict[str, Any]:
    """Return what the check of a list found, as a document says it."""
    return {
        "title": checked.title,
        "table": taken_row(checked.taken),
        "fields": dict(checked.fields),
        "rows": checked.rows,
        "empty_rows": checked.empty,
        "pieces": checked.pieces,
        "skipped": checked.skipped,
        "edited": checked.edited,
        "stale_decisions": checked.stale,
        "waiting": checked.waiting,
        "sha256": checked.sha256,
        "signed": list(checked.signed),
        "rules": {rule: {"waiting": one.waiting, "settled": one.settled} for rule, one in checked.counts.items()},
        "problems": [problem_row(one.problem, one.state) for one in checked.problems],
    }


def checked_lines(checked: NamesChecked, *, whole: bool) -> Iterable[str]:
    """Yield what the check of a list found, line by line; `whole` with what is settled and the notes."""
    yield from (f"note     {remark}" for remark in checked.taken.remarks)
    shown = [one for one in checked.problems if whole or one.state == "waits"]
    if shown:
        yield from _columns([HEAD, *(_cells(one) for one in shown)] if whole else [HEAD, *map(_cells, _first(shown))])
    if not whole:
        yield from _folded(shown, checked.rows)
    listed = sum(one.state == "waits" for one in checked.problems)
    if listed < checked.waiting:
        yield f"and {checked.waiting - listed} more that wait"
    if checked.stale:
        one = checked.stale == 1
        about = "decision is about a row that is another" if one else "decisions are about rows that are others"
        yield f"{checked.stale} {about} by now, and {'counts' if one else 'count'} for nothing."
    yield from checked.signed
    empty = f", {checked.empty} empty" if checked.empty else ""
    changed = f", {checked.edited} changed" if checked.edited else ""
    yield (
        f"{counted(checked.rows, 'row')}{empty}, {checked.skipped} skipped{changed}, "
        f"{counted(checked.pieces, 'piece')}; "
        f"{checked.waiting or 'nothing'} {'wait' if checked.waiting > 1 else 'waits'} for a decision."
    )


def _kinds(shown: Sequence[Listed]) -> dict[tuple[str, str], list[Listed]]:
    """Return problems by rule and field."""
    found: dict[tuple[str, str], list[Listed]] = {}
    for one in shown:
        found.setdefault((one.problem.rule, one.problem.field), []).append(one)
    return found


def _first(shown: Sequence[Listed]) -> list[Listed]:
    """Return the problems without those that are folded, in their order."""
    many = [one for kind in _kinds(shown).values() if len(kind) >= _FOLDED for one in kind[_SHOWN:]]
    folded = set(map(id, many))
    return [one for one in shown if id(one) not in folded]


def _folded(shown: Sequence[Listed], rows: int) -> Iterable[str]:
    """Yield a line for each kind of problem that very many rows have: which other rows these are."""
    from wrapwright.jobs.names.signing import named_rows

    for (rule, name), kind in _kinds(shown).items():
        if len(kind) >= _FOLDED:
            rest = tuple(one.problem.row for one in kind[_SHOWN:])
            where = f" in {name}" if name else ""
            most = " Most rows have it: look at the job first." if 2 * len(kind) > rows else ""
            said = f"and {len(rest)} more with {rule}{where}, rows {named_rows(rest, len(rest))}; --all lists them."
            yield said + most


def counted(number: int, what: str) -> str:
    """Return a number with what it counts: "1 row", "2 rows"."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _cells(one: Listed) -> tuple[str, ...]:
    problem = one.problem
    what = problem.severity.value if one.state == "waits" else one.state
    return (str(problem.row), problem.field, what, problem.problem, problem.figure, problem.remedy, problem.rule)


def _columns(rows: list[tuple[str, ...]]) -> Iterable[str]:
    """Yield rows in columns as wide as their longest cell, the three long ones one after the other."""
    narrow = [max(len(row[at]) for row in rows) for at in range(3)]
    for row in rows[1:]:
        start = "  ".join(cell.ljust(width) for cell, width in zip(row[:3], narrow, strict=True))
        figure = f" ({row[4]})" if row[4] and row[4] not in row[3] else ""
        yield f"{start}  {row[3]}{figure} {row[5]} [{row[6]}]"


def row_document(one: Read, problems: tuple[Listed, ...]) -> dict[str, Any]:
    """Return one row as a document says it."""
    row = one.row
    return {
        "row": row.number,
        "line": row.line,
        "fields": dict(row.fields),
        "quantity": row.quantity,
        "pictures": dict(row.pictures),
        "colours": dict(row.colours),
        "hidden": sorted(row.hidden),
        "edited": list(row.edited),
        "decision": None if one.decision is None else one.decision.choice,
        "problems": [problem_row(each.problem, each.state) for each in problems],
    }


def shown_row(shown: NamesShown) -> dict[str, Any]:
    """Return a list's columns and rows, as a document says them."""
    rows = [row_document(one, problems) for one, problems in shown.rows]
    return {"table": taken_row(shown.taken), "fields": dict(shown.fields), "rows": rows}


def shown_lines(shown: NamesShown) -> Iterable[str]:
    """Yield a list's columns and rows, line by line."""
    yield from (f"note     {remark}" for remark in shown.taken.remarks)
    yield f"columns  {', '.join(name or '(no name)' for name in shown.taken.header)}"
    yield from (f'{{{name}}}  from column "{column}"' for name, column in shown.fields.items())
    for one, problems in shown.rows:
        yield f"row {one.row.number}{_said(one)}"
        yield from (f"  {name}: {value!r}" for name, value in one.row.fields.items())
        yield from (f"  {name}: {value}" for name, value in _more(one).items())
        yield from (f"  {each.state}: {each.problem.problem} {each.problem.remedy}" for each in problems)


def _said(one: Read) -> str:
    edited = f" (changed: {', '.join(one.row.edited)})" if one.row.edited else ""
    return f"{' skipped' if one.skipped else ''}{edited}"


def _more(one: Read) -> Mapping[str, str]:
    row = one.row
    found = {"pieces": str(row.quantity)} if row.quantity != 1 else {}
    found |= {f"picture of {name}": file for name, file in row.pictures.items()}
    found |= {f"colour of {name}": colour for name, colour in row.colours.items()}
    return found | ({"left out": ", ".join(sorted(row.hidden))} if row.hidden else {})
