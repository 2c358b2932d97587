"""From records to rows: which column gives which field, how many, which picture, which colour, what is left out."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.findings import Severity
from wrapwright.core.base.nearest import nearest
from wrapwright.core.names.changes import changed
from wrapwright.core.names.values import Cells, Column, NamesRequest, Problem, Row

MOST_OF_ONE = 10_000
_WHOLE = re.compile(r"(\d{1,9})(?:[.,]0+)?")
YES = frozenset({"yes", "y", "x", "true", "1", "on"})
NO = frozenset({"no", "n", "false", "0", "off", ""})


@dataclass(frozen=True)
class Bound:
    """A list's mapping bound to a table's columns: for each use the column's place.

    Attributes:
        header: the columns' names.
        fields: (field, place, changes) of every field that texts use.
        quantity: place of the column with the number, or None.
        pictures, colours, shown: (element, place).
        who: the field by which rows are told apart, or "" where no field is used.
    """

    header: tuple[str, ...]
    fields: tuple[tuple[str, int, Column], ...]
    quantity: int | None = None
    pictures: tuple[tuple[str, int], ...] = ()
    colours: tuple[tuple[str, int], ...] = ()
    shown: tuple[tuple[str, int], ...] = ()
    who: str = ""
    used: frozenset[int] = field(default_factory=frozenset)


def bound(asked: NamesRequest, header: tuple[str, ...], needed: Iterable[str], given: Iterable[str] = ()) -> Bound:
    """Return the mapping for a table.

    Args:
        asked: the job's [names].
        header: the table's columns.
        needed: the fields that texts and codes use, in their order.
        given: the fields that the job's own [fields] have; a column of the same name stands before them.

    Raises:
        WrapwrightError: unusable; a column that is not there, a field that neither the table nor the job has.
    """
    places = {name.casefold(): at for at, name in enumerate(header) if name}
    own = asked.fields

    def place(column: str, where: str) -> int:
        at = places.get(" ".join(column.split()).casefold())
        if at is None:
            raise _no_column(column, header, where)
        return at

    fields = []
    for name in dict.fromkeys([*needed, *own]):
        if name in own:
            fields.append((name, place(own[name].column, f"names: fields {name}"), own[name]))
        elif name.casefold() in places:
            fields.append((name, places[name.casefold()], Column(name)))
        elif name not in set(given):
            raise _no_field(name, header)
    quantity = None if asked.quantity is None else place(asked.quantity, "names: quantity")
    uses = {
        use: tuple((element, place(column, f"names: {use} {element}")) for element, column in wanted.items())
        for use, wanted in (("pictures", asked.pictures), ("colours", asked.colours), ("shown", asked.shown))
    }
    return Bound(
        header,
        tuple(fields),
        quantity,
        uses["pictures"],
        uses["colours"],
        uses["shown"],
        _who(asked, [name for name, _, _ in fields]),
        frozenset(
            [at for _, at, _ in fields]
            + [at for pairs in uses.values() for _, at in pairs]
            + ([] if quantity is None else [quantity])
        ),
    )


def _who(asked: NamesRequest, fields: list[str]) -> str:
    if asked.who is not None:
        if asked.who not in fields:
            known = ", ".join(fields) or "none"
            raise unusable(f'no field is called "{asked.who[:60]}".', remedy=f"There are: {known}.", where="names: who")
        return asked.who
    return "name" if "name" in fields else fields[0] if fields else ""


def _no_column(column: str, header: tuple[str, ...], where: str) -> WrapwrightError:
    near = nearest(column, [name for name in header if name])
    known = ", ".join(f'"{name}"' for name in header[:20] if name)
    remedy = f'Did you mean "{near}"?' if near else f"There are: {known}."
    return unusable(f'the table has no column "{column[:60]}".', remedy=remedy, where=where)


def _no_field(name: str, header: tuple[str, ...]) -> WrapwrightError:
    near = nearest(name, [one for one in header if one])
    known = ", ".join(f'"{one}"' for one in header[:20] if one)
    hint = (
        f'Write {name} = "{near}" in [names.fields]' if near else f"The columns are {known}: name one in [names.fields]"
    )
    return unusable(
        f"texts use {{{name}}}, and neither a column nor [fields] gives it.", remedy=f"{hint}, or under [fields].",
        where="names",
    )  # fmt: skip


def record_digest(cells: Cells) -> str:
    """Return the SHA-256 of a record's texts; empty cells at its end do not count."""
    texts = list(cells.cells)
    while texts and not texts[-1]:
        texts.pop()
    return hashlib.sha256(json.dumps(texts, ensure_ascii=False).encode("utf-8", "surrogatepass")).hexdigest()


def edited(cells: Cells, header: tuple[str, ...], edits: Mapping[str, str]) -> Cells:
    """Return a record with cells replaced by column; what was told of a replaced cell is forgotten."""
    if not edits:
        return cells
    places = {name.casefold(): at for at, name in enumerate(header)}
    texts = [*cells.cells, *[""] * (len(header) - len(cells.cells))]
    kinds = dict(cells.kinds)
    for column, text in edits.items():
        at = places.get(column.casefold())
        if at is not None:
            texts[at] = text
            kinds.pop(at, None)
    return Cells(cells.number, cells.line, tuple(texts), kinds)


def row_of(cells: Cells, mapping: Bound, edits: tuple[str, ...] = ()) -> tuple[Row, tuple[Problem, ...]]:
    """Return the row that a record makes, and what in its own cells keeps it from being made.

    What cannot be understood is left at its default in the row, so that the rest can be checked as well. `edits` are
    the columns whose cells were changed.
    """
    problems: list[Problem] = []

    def cell(at: int) -> str:
        return cells.cells[at] if at < len(cells.cells) else ""

    quantity = 1
    if mapping.quantity is not None:
        quantity = _quantity(cell(mapping.quantity), cells.number, mapping.header[mapping.quantity], problems)
    colours = {}
    for element, at in mapping.colours:
        colour = _colour(cell(at), cells.number, element, problems)
        if colour:
            colours[element] = colour
    hidden = {element for element, at in mapping.shown if not _is_shown(cell(at), cells.number, element, problems)}
    row = Row(
        cells.number,
        cells.line,
        {name: changed(cell(at), column) for name, at, column in mapping.fields},
        quantity,
        {element: cell(at).strip() for element, at in mapping.pictures if cell(at).strip()},
        colours,
        frozenset(hidden),
        record_digest(cells),
        edits,
    )
    return row, (*problems, *_ragged(cells, mapping))


def _refused(row: int, where: str, problem: str, figure: str, remedy: str, rule: str) -> Problem:
    return Problem(row, where, problem, figure, remedy, Severity.ERROR, rule, acceptable=False)


def _quantity(text: str, row: int, column: str, problems: list[Problem]) -> int:
    """Return the whole number that a cell says; an empty one says 1."""
    words = text.strip()
    found = _WHOLE.fullmatch(words)
    if not words:
        return 1
    if found is None or not 1 <= int(found[1]) <= MOST_OF_ONE:
        message = f'"{words[:40]}" is not a number of pieces from 1 to {MOST_OF_ONE}.'
        problems.append(
            _refused(row, column, message, words[:40], "Write a whole number, or skip the row.", "quantity")
        )
        return 1
    return int(found[1])


def _colour(text: str, row: int, element: str, problems: list[Problem]) -> str:
    """Return the colour that a cell says as #rrggbb, "" for an empty one: the element keeps its own."""
    if not text.strip():
        return ""
    try:
        return hex_of(rgb_of(text))
    except WrapwrightError as problem:
        problems.append(_refused(row, element, problem.message, text.strip()[:40], problem.remedy, "colour"))
        return ""


def _is_shown(text: str, row: int, element: str, problems: list[Problem]) -> bool:
    word = text.strip().casefold()
    if word not in YES | NO:
        message = f'"{text.strip()[:40]}" does not say whether {element} is there.'
        problems.append(_refused(row, element, message, text.strip()[:40], "Write yes or no.", "shown"))
        return True
    return word in YES


def _ragged(cells: Cells, mapping: Bound) -> list[Problem]:
    extra = [cell for cell in cells.cells[len(mapping.header) :] if cell.strip()]
    if not extra:
        return []
    figure = f"{len(cells.cells)} of {len(mapping.header)} cells"
    message = (
        f'the row has {len(cells.cells)} cells and the header {len(mapping.header)}: "{extra[0][:40]}" has no column.'
    )
    remedy = "Put a cell with a separator in it in quotes, or give the column a name."
    return [_refused(cells.number, "", message, figure, remedy, "cells-too-many")]
