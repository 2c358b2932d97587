"""Which rows stand on the contact sheet: all of a short list; of a long one a sample, and every exception."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from wrapwright.core.names.making.places import Places
from wrapwright.core.names.values import Decision, Row
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.names.values import Read

ALL_UP_TO = 500  # rows
SAMPLE = 120  # rows of a longer list, beside the exceptions
LONGEST = 20  # of them those with the longest names
MOST_EXCEPTIONS = 2000  # that are drawn; all are counted
# What was accepted, as a customer reads it; other rules by their names.
_SAID = {
    "text-small": "small letters",
    "stroke-thin": "thin strokes",
    "text-too-long": "long text",
    "digit-in-word": "a figure in a word",
    "look-alikes": "letters that look like others",
    "code-module": "a fine code",
    "right-to-left": "right-to-left text",
    "cell-error": "an error in a cell",
}


@dataclass(frozen=True)
class Why:
    """Why a row is to be looked at twice: a sentence's end, and how grave that is."""

    words: str
    tone: str  # "error", "warning" or "note"


@dataclass(frozen=True)
class Shown:
    """One row on the contact sheet.

    Attributes:
        row: the row.
        name: by which rows are told apart.
        piece: the number of its first piece.
        at: the index of that piece among those that are made, from 0.
        whys: what to look at.
        absent: why there is no piece, "" where there is one.
    """

    row: Row
    name: str
    piece: int
    at: int
    whys: tuple[Why, ...] = ()
    absent: str = ""


@dataclass(frozen=True, eq=False)
class Choice:
    """What stands on the contact sheet, and what of the list does not.

    Attributes:
        shown: rows in the file's order.
        rows, pieces: how many are made in all.
        skipped: the first rows that the user left out; `skipped_count` of all.
        exceptions: how many rows are to be looked at twice.
        left: exceptions that are not drawn.
        whole: whether every row stands on it.
    """

    shown: tuple[Shown, ...]
    rows: int
    pieces: int
    skipped: tuple[int, ...]
    skipped_count: int
    exceptions: int
    left: int
    whole: bool


def chosen(
    names: NamesList, wanted: frozenset[int] | None, refused: Mapping[int, str], since: frozenset[int]
) -> Choice:
    """Return what stands on the contact sheet; the list is read twice, in bounded memory.

    Args:
        names: the list.
        wanted: rows that are made; None: all.
        refused: rows that could not be made, with the reason.
        since: rows that were edited after the sign-off.
    """
    count = _Count(names, wanted, refused, since)
    for one in names.rows():
        count.take(one)
    picked = count.picked()
    shown: list[Shown] = []
    for at, piece, one in _made(names, wanted):
        if picked is None or one.row.number in picked:
            name = one.row.fields.get(names.mapping.who, "")
            whys = count.whys(one)
            shown.append(Shown(one.row, name, piece, at, whys, refused.get(one.row.number, "")))
    left = len(count.exceptions) - MOST_EXCEPTIONS if picked is not None else 0
    return Choice(
        tuple(shown), count.rows, count.pieces, tuple(count.skipped), count.skipped_count,
        len(count.exceptions), max(0, left), picked is None,
    )  # fmt: skip


def _made(names: NamesList, wanted: frozenset[int] | None) -> Iterator[tuple[int, int, Read]]:
    """Yield (index of its first piece among those made, that piece's number, row) of every row that is made."""
    at, number = 0, 1
    for one in names.rows():
        if one.skipped:
            continue
        if wanted is None or one.row.number in wanted:
            yield at, number, one
            at += one.row.quantity
        number += one.row.quantity


@dataclass
class _Count:
    """What the first reading of a list finds; 4 numbers an exception, and a few for the sample."""

    names: NamesList
    wanted: frozenset[int] | None
    refused: Mapping[int, str]
    since: frozenset[int]
    rows: int = 0
    pieces: int = 0
    skipped: list[int] = field(default_factory=list)
    skipped_count: int = 0
    exceptions: list[int] = field(default_factory=list)
    longest: list[tuple[int, int]] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)
    step: int = 1

    def take(self, one: Read) -> None:
        number = one.row.number
        if self.wanted is not None and number not in self.wanted:
            return
        if one.skipped:
            self.skipped_count += 1
            if len(self.skipped) < ALL_UP_TO:
                self.skipped.append(number)
            return
        if self.rows % self.step == 0:
            self.numbers.append(number)
            if len(self.numbers) > 2 * ALL_UP_TO:  # thinned out evenly, so that it never holds the list
                self.numbers, self.step = self.numbers[::2], self.step * 2
        self.rows += 1
        self.pieces += one.row.quantity
        if self.whys(one) or number in self.refused:
            self.exceptions.append(number)
        length = max((len(value) for value in one.row.fields.values()), default=0)
        self.longest = sorted([*self.longest, (-length, number)])[:LONGEST]

    def whys(self, one: Read) -> tuple[Why, ...]:
        number, found = one.row.number, []
        if number in self.refused:
            found.append(Why(f"not made: {self.refused[number]}", "error"))
        if number in self.since:
            found.append(Why("edited after the sign-off", "error"))
        if one.row.edited:
            found.append(Why(f"changed over the table: {', '.join(one.row.edited)}", "warning"))
        found += [Why(f"accepted: {said}", "warning") for said in _accepted(one.decision)]
        if one.row.pictures:
            found.append(Why("its own picture", "note"))
        return tuple(found)

    def picked(self) -> frozenset[int] | None:
        """Return the rows that are drawn, None for all."""
        if self.rows <= ALL_UP_TO:
            return None
        even = [self.numbers[round(i * (len(self.numbers) - 1) / (SAMPLE - 1))] for i in range(SAMPLE)]
        sample = [*even, *(number for _, number in self.longest)]
        return frozenset((*sample, *_evenly(self.exceptions, MOST_EXCEPTIONS)))


def _evenly(numbers: list[int], most: int) -> list[int]:
    if len(numbers) <= most:
        return numbers
    return [numbers[i * len(numbers) // most] for i in range(most)]


def _accepted(decision: Decision | None) -> list[str]:
    """Return what the user accepted about a row, by rule and field."""
    if decision is None:
        return []
    keys = sorted(key.rpartition(": ")[0] if " rows " in key.rpartition(": ")[2] else key for key in decision.accepted)
    found = [key.partition(": ")[::2] for key in keys]
    several = len({about for _, about in found}) > 1
    said = [_said(rule, about if several else "") for rule, about in found]
    return [", ".join(dict.fromkeys(said))] if said else []


def _said(rule: str, about: str) -> str:
    words = _SAID.get(rule, rule.replace("-", " "))
    return f"{words} in {about}" if about else words


def cut_key(places: Places, index: int) -> tuple[int, int, int]:
    """Return (stack, place on a sheet, how deep in the stack) of a piece, all from 0: so it comes from the cutter."""
    deep = max(1, places.stack)
    if places.order == "rows" or deep == 1:
        sheet, place = divmod(index, places.a_sheet)
        return sheet // deep, place, sheet % deep
    stack, offset = divmod(index, deep * places.a_sheet)
    full = min(deep, places.sheets - stack * deep)
    place, down = divmod(offset, full)
    return stack, place, down


def sheet_of(places: Places, index: int) -> int:
    """Return the sheet, from 1, on which a piece lies."""
    stack, _, down = cut_key(places, index)
    return stack * max(1, places.stack) + down + 1
