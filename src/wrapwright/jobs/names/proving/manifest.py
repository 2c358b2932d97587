"""The manifest read back and held against the list: every row of the one stands in the other, in the same state."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import chain, groupby
from pathlib import Path

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.values import Row
from wrapwright.jobs.names.making.parts import COLUMNS, MANIFEST
from wrapwright.jobs.names.proving.values import Flaw, Flaws
from wrapwright.jobs.names.values import Read

_STATES = ("made", "skipped", "refused")


@dataclass(frozen=True)
class Entry:
    """One line of the manifest.

    Attributes:
        row, piece: numbers; piece 0 for a row that was skipped.
        code: what its Data Matrix says.
        state: "made", "skipped" or "refused".
        name: the row's.
        sheet: from 1; 0 for none, as of all that follows.
        file, page: where it stands.
        box: left, bottom, width and height of its trim, page mm.
        turn_deg: anticlockwise, after mirroring.
        row_sha256: of the row's record.
        line: of the manifest.
    """

    row: int
    piece: int
    code: str
    state: str
    name: str
    sheet: int
    file: str
    page: int
    box: tuple[float, float, float, float]
    turn_deg: int
    row_sha256: str
    line: int

    @property
    def who(self) -> str:
        """The piece as sentences call it."""
        return f'piece {self.piece} (row {self.row}, "{self.name}")'

    @property
    def head(self) -> str:
        """The same at a sentence's beginning."""
        return f"P{self.who[1:]}"


def entries_of(file: Path, flaws: Flaws) -> Iterator[Entry]:
    """Yield the manifest's lines; one that cannot be read is a flaw.

    Raises:
        WrapwrightError: unusable, when it cannot be read at all or has other columns.
    """
    try:
        with file.open(encoding="utf-8", newline="") as stream:
            reader = csv.reader(stream)
            if tuple(next(reader, ())) != COLUMNS:
                raise unusable(f"{MANIFEST} has other columns than a manifest.", where=MANIFEST)
            for cells in reader:
                entry = _entry(cells, reader.line_num)
                if entry is None:
                    flaws.add(Flaw(f"Line {reader.line_num} of {MANIFEST} is no line of a manifest.", "manifest"))
                else:
                    yield entry
    except (OSError, UnicodeDecodeError, csv.Error) as problem:
        said = getattr(problem, "strerror", None) or problem
        raise unusable(f"{MANIFEST} cannot be read: {said}.", where=MANIFEST) from problem


def _entry(cells: list[str], line: int) -> Entry | None:
    if len(cells) != len(COLUMNS):
        return None
    said = dict(zip(COLUMNS, cells, strict=True))
    try:
        if said["state"] not in _STATES:
            return None
        made = said["state"] == "made"
        turn = int(said["turn_deg"]) if made else 0
        if turn not in (0, 90, 180, 270) or (made and not said["piece"]):
            return None
        figures = [float(said[key]) if made else 0.0 for key in ("x_mm", "y_mm", "width_mm", "height_mm")]
        return Entry(
            row=int(said["row"]),
            piece=int(said["piece"] or 0),
            code=said["code"],
            state=said["state"],
            name=said["name"],
            sheet=int(said["sheet"]) if made else 0,
            file=said["file"],
            page=int(said["page"]) if made else 0,
            box=(figures[0], figures[1], figures[2], figures[3]),
            turn_deg=turn,
            row_sha256=said["row_sha256"],
            line=line,
        )
    except ValueError:
        return None


@dataclass(frozen=True)
class Expected:
    """A piece that should stand in the sheets: its line of the manifest, and its row as the list has it now."""

    entry: Entry
    row: Row


@dataclass
class Held:
    """Holds the manifest against the list while both are read.

    Attributes:
        who: the field by which rows are told apart.
        whole: whether every row of the list was asked for.
        flaws: what does not agree.
        rows: how many rows were held against each other.
        made: how many pieces the manifest tells of.
        ended: how many rows the manifest says were made, skipped or refused.
    """

    who: str
    whole: bool
    flaws: Flaws
    rows: int = 0
    made: int = 0
    ended: dict[str, int] = field(default_factory=lambda: dict.fromkeys(_STATES, 0))

    def expected(self, entries: Iterable[Entry], rows: Iterable[Read]) -> Iterator[Expected]:
        """Yield the pieces that should stand in the sheets, in the list's order, in constant memory."""
        listed = iter(rows)
        now = next(listed, None)
        last = 0
        for number, group in groupby(entries, key=lambda one: one.row):
            if number <= last:
                words = f"Row {number} stands in {MANIFEST} after row {last}: lines were moved or stand twice."
                self.flaws.add(Flaw(words, "manifest", number))
                continue
            last = number
            lines = list(group)
            self.ended[lines[0].state] += 1
            while now is not None and now.row.number < number:
                self._absent(now)
                now = next(listed, None)
            if now is None or now.row.number != number:
                words = f"{MANIFEST} tells of row {number}, and the list has no such row."
                self.flaws.add(Flaw(words, "manifest", number))
                continue
            yield from self._held(lines, now)
            now = next(listed, None)
        while now is not None:
            self._absent(now)
            now = next(listed, None)

    def _absent(self, one: Read) -> None:
        if self.whole:
            name = one.row.fields.get(self.who, "")
            words = f'Row {one.row.number} ("{name}") of the list stands nowhere in {MANIFEST}.'
            self.flaws.add(Flaw(words, "manifest", one.row.number))

    def _held(self, group: list[Entry], one: Read) -> Iterator[Expected]:
        self.rows += 1
        row, first = one.row, group[0]
        name = row.fields.get(self.who, "")
        before = self.flaws.count
        if first.row_sha256 != row.digest:
            words = f'Row {row.number} is "{name}" now, and was another when its pieces were made ("{first.name}").'
            self.flaws.add(Flaw(words, "list", row.number))
        elif any(each.name != name for each in group):
            other = next(each.name for each in group if each.name != name)
            words = f'{MANIFEST} calls row {row.number} "{other}", and the list calls it "{name}".'
            self.flaws.add(Flaw(words, "manifest", row.number))
        states = {each.state for each in group}
        wanted = 1 if states == {"skipped"} else row.quantity
        if one.skipped != (states == {"skipped"}):
            is_now = "is skipped" if one.skipped else "is to be made"
            words = f'Row {row.number} ("{name}") {is_now}, and {MANIFEST} says {" and ".join(sorted(states))}.'
            self.flaws.add(Flaw(words, "list", row.number))
        elif len(group) != wanted and self.flaws.count == before:
            words = f'Row {row.number} ("{name}") makes {wanted} pieces, and {MANIFEST} tells of {len(group)}.'
            self.flaws.add(Flaw(words, "manifest", row.number))
        for entry in group:
            if entry.state == "made":
                self.made += 1
                yield Expected(entry, row)


class Window:
    """The expected pieces by number, read as far as they are asked for; what is never asked for is missing.

    Pieces stand in the sheets nearly in the list's order, so that a few are held at any time, however long the list.
    """

    MOST = 20_000  # held; of more, the oldest are given up as missing
    AHEAD = 20_000  # numbers: a piece that far ahead of all others is none of the list's

    def __init__(self, expected: Iterator[Expected], missed: Callable[[Expected], None]) -> None:
        """Take the pieces in the list's order, and what is to be called for each that is never found."""
        self.coming = expected
        self.missed = missed
        self.waiting: dict[int, Expected] = {}
        self.taken = bytearray()
        self.reached = 0

    def take(self, number: int) -> Expected | None:
        """Return the piece of a number and count it as found; None when there is none, or it was found before."""
        while number > self.reached and number <= self.reached + self.AHEAD:
            following = next(self.coming, None)
            if following is None:
                break
            self.reached = max(self.reached, following.entry.piece)
            self.waiting[following.entry.piece] = following
        found = self.waiting.pop(number, None)
        if found is not None:
            self._mark(number)
        while len(self.waiting) > self.MOST:
            self.missed(self.waiting.pop(next(iter(self.waiting))))
        return found

    def was_taken(self, number: int) -> bool:
        """Return whether a piece was found before: one bit a piece."""
        return number // 8 < len(self.taken) and bool(self.taken[number // 8] & 1 << number % 8)

    def close(self) -> None:
        """Tell of all pieces that were never found."""
        for one in chain(self.waiting.values(), self.coming):
            self.missed(one)

    def _mark(self, number: int) -> None:
        if number // 8 >= len(self.taken):
            self.taken.extend(bytes(number // 8 + 1024 - len(self.taken)))
        self.taken[number // 8] |= 1 << number % 8
