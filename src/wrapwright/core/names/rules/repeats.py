"""Rows that say the same, or the same name: found by hashes of 8 bytes, asked about once."""

from __future__ import annotations

import hashlib
import json
from array import array
from collections.abc import Iterator, Sequence

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.rules.doubts import shown
from wrapwright.core.names.values import Problem, Row

_NAMED = 12  # row numbers that a sentence lists


class Seen:
    """The hashes of all rows, 16 bytes and a number each, in the list's order."""

    def __init__(self, who: str) -> None:
        self.who = who
        self.numbers = array("q")
        self.names = array("Q")
        self.wholes = array("Q")

    def add(self, row: Row) -> None:
        """Take a row in; one whose name is empty is told of elsewhere and never the same as another."""
        name = name_key(row, self.who)
        if name:
            self.numbers.append(row.number)
            self.names.append(_hash(name))
            self.wholes.append(_hash(whole_key(row)))

    def groups(self) -> Iterator[tuple[tuple[int, ...], bool]]:
        """Yield (row numbers, whether they are the same throughout) of rows with one name, by the first of them."""
        import numpy as np

        names, wholes = np.frombuffer(self.names, dtype=np.uint64), np.frombuffer(self.wholes, dtype=np.uint64)
        numbers = np.frombuffer(self.numbers, dtype=np.int64)
        if len(names) < 2:
            return
        order = np.argsort(names, kind="stable")
        ordered = names[order]
        cuts = np.flatnonzero(ordered[1:] != ordered[:-1]) + 1
        starts, ends = np.concatenate([[0], cuts]), np.concatenate([cuts, [len(ordered)]])
        several = np.flatnonzero(ends - starts > 1)
        firsts = order[starts[several]]
        for at in several[np.argsort(firsts, kind="stable")]:
            members = order[starts[at] : ends[at]]
            yield tuple(int(n) for n in numbers[members]), len(np.unique(wholes[members])) == 1


def name_key(row: Row, who: str) -> str:
    """Return what makes two rows have one name: the field, whatever its case and blanks."""
    return " ".join(row.fields.get(who, "").split()).casefold()


def whole_key(row: Row) -> str:
    """Return what makes two rows the same piece: all that prints, exactly; how many of it does not count."""
    parts = [dict(row.fields), dict(row.pictures), dict(row.colours), sorted(row.hidden)]
    return json.dumps(parts, ensure_ascii=False, sort_keys=True)


def repeat(numbers: Sequence[int], name: str, field: str, *, same: bool) -> Problem:
    """Return the one question about rows that have a name in common."""
    listed = ", ".join(str(number) for number in numbers[:_NAMED])
    more = f" and {len(numbers) - _NAMED} more" if len(numbers) > _NAMED else ""
    if same:
        said = f"the rows {listed}{more} are the same: {shown(name)}."
        remedy = "Skip those that are too many, or accept that the piece is made that often."
    else:
        said = f"the rows {listed}{more} have the same name: {shown(name)}."
        remedy = "Accept it when they are different people, or skip those that are too many."
    rule = "row-twice" if same else "same-name"
    return Problem(numbers[0], field, said, f"{len(numbers)} rows", remedy, Severity.WARNING, rule, rows=tuple(numbers))


def _hash(text: str) -> int:
    return int.from_bytes(hashlib.blake2b(text.encode("utf-8", "surrogatepass"), digest_size=8).digest(), "big")
