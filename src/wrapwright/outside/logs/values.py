"""What is asked of a log, what its columns are, and what came out of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Role = Literal["time", "date", "air", "wall", "temperature", "other"]
Unit = Literal["C", "F", "K"]
Order = Literal["day-first", "month-first"]


@dataclass(frozen=True)
class LogAsked:
    """What a person says about a log; empty where the log is to say it.

    Attributes:
        air, wall, time: a column's name, or its number counted from 1.
        unit: of the temperatures.
        dates: which of day and month comes first.
    """

    air: str = ""
    wall: str = ""
    time: str = ""
    unit: Unit | Literal[""] = ""
    dates: Order | Literal[""] = ""


@dataclass(frozen=True)
class Column:
    """One column of a log: its number from 1, its name (may be empty), what it is taken for, its unit if said."""

    number: int
    name: str
    role: Role
    unit: Unit | Literal[""] = ""

    @property
    def called(self) -> str:
        """What it is called in a sentence."""
        return f'column {self.number} ("{self.name}")' if self.name else f"column {self.number}"


@dataclass(frozen=True)
class Layout:
    """How a log is written.

    Attributes:
        encoding: of its text.
        separator: between columns; " " is any run of spaces.
        comma: whether numbers have a decimal comma.
        lines_before: lines above the first row of readings.
        columns: of a row.
    """

    encoding: str
    separator: str
    comma: bool
    lines_before: int
    columns: tuple[Column, ...]


@dataclass(frozen=True)
class LogLook:
    """A first look at a log, for a person to say what its columns are.

    Attributes:
        columns: with what they are taken for.
        rows: the first rows as they stand.
        unit: what the temperatures seem to be in; empty where that must be asked.
        questions: what must be asked before it can be read.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    unit: Unit | Literal[""]
    questions: tuple[str, ...]


@dataclass(frozen=True)
class LogRead:
    """A log as it was read; temperatures in degrees C, NaN where one is missing.

    Attributes:
        times_s: from the first row, never running back.
        air_c, wall_c: empty where the log has no such column.
        rows: how many the file has.
        every: of how many rows one was taken.
        words: what was assumed or mended.
    """

    times_s: tuple[float, ...]
    air_c: tuple[float, ...]
    wall_c: tuple[float, ...]
    rows: int
    every: int = 1
    words: tuple[str, ...] = field(default=())


@dataclass(frozen=True)
class FollowedRow:
    """A row that was added to a growing log: seconds since its first row, temperatures in degrees C or None."""

    since_s: float
    air_c: float | None
    wall_c: float | None


@dataclass(frozen=True)
class Followed:
    """What was added to a growing log; `next_byte` is where the next look begins, `anew` that it began again."""

    rows: tuple[FollowedRow, ...]
    next_byte: int
    anew: bool = False
