"""The sign-off of a list: who said that the pieces are right, when, and what each row was at that time."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.values import Row

FORMAT = 1
LONGEST_NAME = 200
_REMEDY = "Put the file away and have the list signed again."
_DIGITS = 16  # of a row's digest: 64 bits tell an edit from none


@dataclass(frozen=True)
class SignOff:
    """What was signed.

    Attributes:
        by: who did.
        on: the day, "2026-05-02".
        list_sha256: hash of the job, the table and all that was decided, as it was.
        design_sha256: hash of the job file and of the files that it names, the table aside.
        rows: how many rows the list had.
    """

    by: str
    on: str
    list_sha256: str
    design_sha256: str
    rows: int


@dataclass(frozen=True)
class SignedRow:
    """One row as it was signed: its number and the digest of what is made of it."""

    number: int
    digest: str


@dataclass(frozen=True)
class Since:
    """What has changed since a list was signed.

    Attributes:
        signed: the sign-off.
        design: whether the job itself is another.
        changed: numbers of rows that are others now, the first of them.
        added, gone: likewise of rows that are new, and of those that are no more.
        counts: how many there are of each in all.
    """

    signed: SignOff
    design: bool = False
    changed: tuple[int, ...] = ()
    added: tuple[int, ...] = ()
    gone: tuple[int, ...] = ()
    counts: tuple[int, int, int] = (0, 0, 0)

    @property
    def holds(self) -> bool:
        """Whether everything is as it was signed."""
        return not self.design and not any(self.counts)

    @property
    def rows(self) -> frozenset[int]:
        """The numbers of the rows that nobody has signed as they are now, the first of each kind."""
        return frozenset((*self.changed, *self.added))


def row_digest(row: Row, *, skipped: bool, pictures: Iterable[str] = ()) -> str:
    """Return the digest of all that a row says about its pieces: another digest means other pieces.

    A column that nothing uses does not count. `pictures` are the hashes of what its picture files hold.
    """
    told = [
        sorted(row.fields.items()),
        row.quantity,
        sorted(row.pictures.items()),
        sorted(row.colours.items()),
        sorted(row.hidden),
        skipped,
        *pictures,
    ]
    text = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:_DIGITS]


def since_signed(
    signed: SignOff, then: Iterable[SignedRow], now: Iterable[SignedRow], *, design_sha256: str, most: int = 1000
) -> Since:
    """Return what has changed since the sign-off, in constant memory; of each kind `most` rows are named.

    Args:
        signed: the sign-off.
        then: the rows as signed, ascending.
        now: the rows as they are, ascending.
        design_sha256: hash of the job and its files now.
        most: how many rows of each kind are named.
    """
    found: tuple[list[int], list[int], list[int]] = ([], [], [])
    counts = [0, 0, 0]
    for kind, number in _differences(iter(then), iter(now)):
        counts[kind] += 1
        if len(found[kind]) < most:
            found[kind].append(number)
    changed, added, gone = (tuple(one) for one in found)
    return Since(signed, signed.design_sha256 != design_sha256, changed, added, gone, (counts[0], counts[1], counts[2]))


def _differences(then: Iterator[SignedRow], now: Iterator[SignedRow]) -> Iterator[tuple[int, int]]:
    """Yield (0 changed, 1 added or 2 gone, number) of two ascending runs of rows."""
    old, new = next(then, None), next(now, None)
    while old is not None or new is not None:
        if new is not None and (old is None or new.number < old.number):
            yield 1, new.number
            new = next(now, None)
        elif old is not None and (new is None or old.number < new.number):
            yield 2, old.number
            old = next(then, None)
        elif old is not None and new is not None:
            if old.digest != new.digest:
                yield 0, new.number
            old, new = next(then, None), next(now, None)


def head_line(signed: SignOff) -> str:
    """Return the first line of a sign-off's file; one line a row follows."""
    return json.dumps({"format": FORMAT, **vars(signed)}, ensure_ascii=False)


def row_line(row: SignedRow) -> str:
    """Return a row's line in a sign-off's file."""
    return json.dumps([row.number, row.digest])


def head_of(line: str, *, where: str = "") -> SignOff:
    """Return the sign-off that a file's first line holds.

    Raises:
        WrapwrightError: unusable; it is no such line.
    """
    said = _read(line)
    if not isinstance(said, dict) or said.get("format") != FORMAT:
        message = f"the file of the sign-off is not of format {FORMAT}."
        raise unusable(message, remedy=_REMEDY, where=where)
    try:
        found = SignOff(**{key: said[key] for key in SignOff.__dataclass_fields__})
    except KeyError as lacking:
        raise unusable(f"the file of the sign-off lacks {lacking}.", remedy=_REMEDY, where=where) from None
    texts = (found.by, found.on, found.list_sha256, found.design_sha256)
    if not all(isinstance(one, str) for one in texts) or not isinstance(found.rows, int):
        raise unusable("the file of the sign-off says no name, day or hash.", remedy=_REMEDY, where=where)
    return found


def row_of_line(line: str, *, where: str = "") -> SignedRow:
    """Return the row that a line of a sign-off's file holds.

    Raises:
        WrapwrightError: unusable; it is no such line.
    """
    said = _read(line)
    good = isinstance(said, list) and len(said) == 2 and isinstance(said[0], int) and isinstance(said[1], str)
    if not good:
        raise unusable(f"a line of the sign-off is no row: {line[:40]!r}.", remedy=_REMEDY, where=where)
    return SignedRow(said[0], said[1])


def _read(line: str) -> Any:
    try:
        return json.loads(line)
    except (ValueError, RecursionError):
        return None
