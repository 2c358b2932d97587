"""A log read: times in seconds, air and wall in degrees Celsius, with what was assumed said in sentences."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.units import ABSOLUTE_ZERO_C, to_celsius
from wrapwright.outside.logs.columns import chosen, unit_of
from wrapwright.outside.logs.figures import figure
from wrapwright.outside.logs.layout import layout_of, split
from wrapwright.outside.logs.stamps import (
    DAY_S,
    Clock,
    clock_scale,
    kind_of,
    number_scale,
    orders_of,
    over_midnight,
    usual_kind,
)
from wrapwright.outside.logs.text import count_lines, head_of, lines_of
from wrapwright.outside.logs.values import Column, Layout, LogAsked, LogLook, LogRead, Unit

MOST_ROWS = 50_000
SHOWN_ROWS = 8
ROOM_C = 45.0  # no workshop is warmer: a log that starts above is in F, or began hot


@dataclass(frozen=True)
class Reader:
    """How the cells of a row become a time and temperatures."""

    layout: Layout
    time: Column
    date: Column | None
    air: Column | None
    wall: Column | None
    clock: Clock

    def row(self, line: str) -> tuple[float, float, float] | None:
        """Return time, air and wall (in the log's own unit) of a line; None where it is no row of readings."""
        cells = split(line, self.layout.separator)
        if len(cells) < len(self.layout.columns) and len(cells) < self._needed():
            return None
        stamp = cells[self.time.number - 1]
        since = self.clock.seconds(f"{cells[self.date.number - 1].strip()} {stamp.strip()}" if self.date else stamp)
        if since is None:
            return None
        return since, self._value(cells, self.air), self._value(cells, self.wall)

    def _needed(self) -> int:
        return max(one.number for one in (self.time, self.date, self.air, self.wall) if one is not None)

    def _value(self, cells: Sequence[str], column: Column | None) -> float:
        value = figure(cells[column.number - 1]) if column is not None else None
        return math.nan if value is None else value


def look_at_log(file: Path, asked: LogAsked) -> LogLook:
    """Return the columns of a log with what they are taken for, its first rows, and what must be asked.

    Raises:
        WrapwrightError: missing or unusable, when it is no log at all.
    """
    lines, encoding, _ = head_of(file)
    layout = layout_of(lines, encoding, file.name)
    rows = [split(line, layout.separator) for line in lines[layout.lines_before : layout.lines_before + SHOWN_ROWS]]
    questions: list[str] = []
    unit: Unit | None = None
    try:
        reader = reader_of(lines, layout, asked, file.name)
        unit = unit_for(reader, _first_rows(reader, lines), asked)[0]
    except WrapwrightError as problem:
        questions.append(str(problem))
    columns = tuple(layout.columns)
    return LogLook(columns, tuple(tuple(one.strip() for one in row) for row in rows), unit or "", tuple(questions))


def reader_of(lines: Sequence[str], layout: Layout, asked: LogAsked, name: str) -> Reader:
    """Return how the rows of a log are read.

    Raises:
        WrapwrightError: unusable, when that must be asked: which column is which, day or month first.
    """
    time, air, wall = chosen(layout.columns, asked, name)
    data = [split(line, layout.separator) for line in lines[layout.lines_before :]]
    data = [row for row in data if len(row) >= len(layout.columns)]
    date = None
    cells = [row[time.number - 1] for row in data]
    kind = usual_kind(cells)
    if kind == "date" or kind is None:
        raise unusable(f"{_capital(time.called)} holds no times.", remedy="Say which column is the time.", where="time")
    if kind == "clock":
        date = next((one for one in layout.columns if one.role == "date"), None)
        if date is not None:
            cells, kind = [f"{row[date.number - 1].strip()} {row[time.number - 1].strip()}" for row in data], "stamp"
    if kind == "number":
        values = [one for one in map(figure, cells) if one is not None and one == one]
        return Reader(layout, time, None, air, wall, Clock("number", number_scale(values, time.name)))
    if kind == "clock":
        return Reader(layout, time, None, air, wall, Clock("clock", clock_scale(cells, len(data), time.name)))
    return Reader(layout, time, date, air, wall, _dated(cells, asked))


def _dated(cells: Sequence[str], asked: LogAsked) -> Clock:
    """Return the clock of stamps with dates; day or month first is told by what is possible, then by what is short."""
    if asked.dates:
        return Clock("stamp", order=asked.dates)
    known = [cell for cell in cells if kind_of(cell) == "stamp"]
    orders = sorted(orders_of(known))
    if len(orders) == 1:
        return Clock("stamp", order=orders[0])
    spans = {}
    for order in orders:
        seconds = [one for one in (Clock("stamp", order=order).seconds(cell) for cell in known) if one is not None]
        back = any(later < before for before, later in pairwise(seconds))
        spans[order] = math.inf if back else seconds[-1] - seconds[0]
    likely = [order for order in orders if spans[order] < 2.0 * DAY_S]
    if likely:
        return Clock("stamp", order=likely[0])  # where both are as short, all rows are of one day and it is all one
    message = "The log's dates can be read with the day or the month first, and both are long."
    raise unusable(message, remedy="Say which comes first: day or month.", where="dates")


def _first_rows(reader: Reader, lines: Sequence[str]) -> list[tuple[float, float, float]]:
    found = (reader.row(line) for line in lines[reader.layout.lines_before :])
    return [one for one in found if one is not None]


def read_log(file: Path, asked: LogAsked) -> LogRead:
    """Return a log: at most MOST_ROWS rows, thinned evenly where it has more, and said so.

    Raises:
        WrapwrightError: missing or unusable, one sentence: no log, one column, a clock that goes back, units or columns
            that must be asked about, rows that cannot be read.
    """
    lines, encoding, _ = head_of(file)
    layout = layout_of(lines, encoding, file.name)
    reader = reader_of(lines, layout, asked, file.name)
    rows = max(count_lines(file) - layout.lines_before - 1, 1)
    every = -(-rows // MOST_ROWS)
    words: list[str] = []
    taken = list(lines_of(file, encoding, skip=layout.lines_before, every=every))
    read = [(number, reader.row(line)) for number, line in taken if line.strip()]
    good = [(number, row) for number, row in read if row is not None]
    if len(good) < len(read) / 2 or not good:
        message = f"{len(read) - len(good)} of {len(read)} rows of the log cannot be read."
        raise unusable(message, remedy="Save it again as CSV, or say which columns are which.", where=file.name)
    if len(good) < len(read):
        words.append(f"{len(read) - len(good)} of {len(read)} rows cannot be read and were left out.")
    if every > 1:
        words.insert(0, f"The log has {rows:,} rows; every {every}th was used, {len(good):,} in all.")
    times = _times([(number, row[0]) for number, row in good], reader.clock, words, file.name)
    unit, said = unit_for(reader, [row for _, row in good], asked)
    words += said
    air = tuple(in_celsius(row[1], unit) for _, row in good) if reader.air else ()
    wall = tuple(in_celsius(row[2], unit) for _, row in good) if reader.wall else ()
    words += list(_columns_words(reader))
    return LogRead(times, air, wall, rows, every, tuple(words))


def _columns_words(reader: Reader) -> Iterator[str]:
    said = [f"{column.called} is the {role}" for role, column in (("air", reader.air), ("wall", reader.wall)) if column]
    said.insert(0, f"{reader.time.called} is the time")
    yield f"{_capital('; '.join(said))}."
    used = {one.number for one in (reader.air, reader.wall) if one}
    idle = [one.called for one in reader.layout.columns if one.role == "temperature" and one.number not in used]
    if idle:
        verb = "was" if len(idle) == 1 else "were"
        yield f"{_capital(' and '.join(idle))} {verb} left out: nothing says what is measured there."


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _times(stamps: Sequence[tuple[int, float]], clock: Clock, words: list[str], name: str) -> tuple[float, ...]:
    """Return seconds since the first row; days are added at midnight, rows of one stamp are spread evenly."""
    days, made = 0.0, [stamps[0][1]]
    for number, stamp in stamps[1:]:
        now = stamp + days
        if now < made[-1] and clock.kind == "clock" and over_midnight(made[-1], now):
            days += DAY_S
            now += DAY_S
        if now < made[-1]:
            message = f"In row {number} of the log the clock goes back by {made[-1] - now:.0f} s."
            remedy = "Cut the log in two there and read one part, or mend the stamps."
            raise unusable(message, remedy=remedy, where=name)
        made.append(now)
    if made[-1] <= made[0]:
        raise unusable("All rows of the log have the same time.", remedy="Say which column is the time.", where="time")
    same = sum(later == before for before, later in pairwise(made))
    if same:
        made = spread(made)
        words.append(f"{same} rows share their time with the row before; they were spread evenly over it.")
    return tuple(one - made[0] for one in made)


def spread(times: Sequence[float]) -> list[float]:
    """Return times in which runs of equal ones are spread evenly up to the next; the last as wide as the one before.

    A first run that is shorter than the second began in the middle of its stamp: it is laid before the second.
    """
    starts = [at for at in range(len(times)) if at == 0 or times[at] != times[at - 1]]
    ends = [*starts[1:], len(times)]
    made = list(times)
    for which, (begin, end) in enumerate(zip(starts, ends, strict=True)):
        last = which + 1 == len(starts)
        if not last:
            step = (times[end] - times[begin]) / (end - begin)
        elif which:
            step = (times[begin] - times[starts[which - 1]]) / (begin - starts[which - 1])
        else:
            step = 0.0
        for at in range(begin, end):
            made[at] = times[begin] + (at - begin) * step
    if len(starts) > 2 and 1 < ends[0] < ends[1] - starts[1]:
        step = (times[ends[1]] - times[starts[1]]) / (ends[1] - starts[1])
        made[: ends[0]] = [times[ends[0]] - (ends[0] - at) * step for at in range(ends[0])]
    return made


def unit_for(
    reader: Reader, rows: Sequence[tuple[float, float, float]], asked: LogAsked
) -> tuple[Unit, tuple[str, ...]]:
    """Return the unit of the temperatures: as asked, as the log says, else as its figures can only be meant.

    Raises:
        WrapwrightError: unusable, when neither says it, or what is said makes figures that cannot be.
    """
    values = sorted(one for row in rows for one in row[1:] if one == one)
    if not values:
        raise unusable("The columns of temperatures hold no numbers.", remedy="Say which they are.", where="columns")
    low, high = values[len(values) // 500], values[-1 - len(values) // 500]
    said = asked.unit or unit_of((reader.air, reader.wall))
    if said:
        if said == "C" and high > 300.0 and not asked.unit:
            message = (
                f"The log says C and goes up to {high:.0f}; no oven for blanks is as hot, and {high:.0f} F is likely."
            )
            raise unusable(message, remedy="Say whether it is C or F.", where="unit")
        return said, ()
    if low < ROOM_C and high <= 300.0:
        return "C", ("The log names no unit; it was read in C.",)
    if ROOM_C <= low <= 115.0 and high > 300.0:
        return "F", (f"The log names no unit; from {low:.0f} to {high:.0f} it can only be F.",)
    if low > 115.0 and high <= 260.0:
        return "C", ("The log names no unit; it was read in C.",)
    message = f"The log names no unit, and {low:.0f} to {high:.0f} may be C or F."
    raise unusable(message, remedy="Say whether it is C or F.", where="unit")


def in_celsius(value: float, unit: Unit) -> float:
    """Return a reading in degrees C."""
    return to_celsius(value) if unit == "F" else value + ABSOLUTE_ZERO_C if unit == "K" else value
