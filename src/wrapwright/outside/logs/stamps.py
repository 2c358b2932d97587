"""The time stamps of a log: seconds, minutes and seconds, dates with times, serial days; what a column's are like."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal

from wrapwright.outside.logs.figures import figure
from wrapwright.outside.logs.values import Order

Kind = Literal["number", "clock", "date", "stamp"]

DAY_S = 86400.0
_NAMED = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTHS = {name: at for at, name in enumerate(_NAMED, 1)}
_DATE = r"(\d{1,4})[-/. ]+(\d{1,2}|[A-Za-z]{3,9})[-/. ]+(\d{2,4})"
_CLOCK = r"(\d{1,4}):(\d{1,2})(?::(\d{1,2})(?:[.,:](\d{1,9}))?)?\s*([AaPp]\.?[Mm]\.?)?"
_ZONE = r"\s*(Z|[+-]\d{2}:?\d{2})?"
_ONLY_DATE = re.compile(rf"{_DATE}\.?")
_ONLY_CLOCK = re.compile(_CLOCK)
_STAMP = re.compile(rf"{_DATE}[T ,]+{_CLOCK}{_ZONE}")


def kind_of(cell: str) -> Kind | None:
    """Return what sort of time a cell may be, or None."""
    text = cell.strip().strip("\"'")
    if _ONLY_CLOCK.fullmatch(text):
        return "clock"
    if _STAMP.fullmatch(text):
        return "stamp"
    if _ONLY_DATE.fullmatch(text):
        return "date"
    value = figure(text)
    return "number" if value is not None and value == value else None


def usual_kind(cells: Sequence[str]) -> Kind | None:
    """Return what sort of time most cells of a column may be, or None."""
    kinds = Counter(one for one in map(kind_of, cells) if one is not None)
    return kinds.most_common(1)[0][0] if kinds else None


@dataclass(frozen=True)
class Clock:
    """How a log's stamps become seconds.

    Attributes:
        kind: what they are.
        scale: seconds of one unit, for plain numbers; of the two parts of a clock without seconds: 1 for minutes and
            seconds, 60 for hours and minutes.
        order: which of day and month comes first.
    """

    kind: Kind
    scale: float = 1.0
    order: Order = "day-first"

    def seconds(self, cell: str) -> float | None:
        """Return a stamp in seconds since some moment that all of them share, or None where it is none."""
        text = cell.strip().strip("\"'")
        if self.kind == "number":
            value = figure(text)
            return None if value is None or value != value else value * self.scale
        if self.kind == "clock":
            found = _ONLY_CLOCK.fullmatch(text)
            return None if found is None else _clock(found.groups(), self.scale)
        found = _STAMP.fullmatch(text)
        if found is None:
            return None
        parts = found.groups()
        day = _day(parts[:3], self.order)
        clock = _clock(parts[3:8], 60.0)
        if day is None or clock is None:
            return None
        return day.timestamp() + clock - _zone(parts[8])


def _clock(parts: Sequence[str | None], scale: float) -> float | None:
    first, second, third, rest, half = parts
    one, two = int(first or 0), int(second or 0)
    if two > 59 or int(third or 0) > 59:
        return None
    if third is None and half is None:
        return (one * 60.0 + two) * scale
    if half:
        if not 1 <= one <= 12:
            return None
        one = one % 12 + (12 if half[0] in "Pp" else 0)
    return one * 3600.0 + two * 60.0 + int(third or 0) + (float(f"0.{rest}") if rest else 0.0)


def _zone(text: str | None) -> float:
    if not text or text == "Z":
        return 0.0
    digits = text[1:].replace(":", "")
    return (1 if text[0] == "+" else -1) * (int(digits[:2]) * 3600.0 + int(digits[2:]) * 60.0)


def _day(parts: Sequence[str | None], order: Order) -> datetime | None:
    one, two, three = (part or "" for part in parts)
    named = _MONTHS.get(two[:3].lower())
    if two.isalpha() and named is None:
        return None
    if len(one) == 4:
        year, month, day = int(one), named or int(two), int(three)
    elif named:
        year, month, day = int(three), named, int(one)
    elif order == "day-first":
        year, month, day = int(three), int(two), int(one)
    else:
        year, month, day = int(three), int(one), int(two)
    try:
        return datetime(year + 2000 if year < 100 else year, month, day, tzinfo=UTC)
    except ValueError:
        return None


def orders_of(cells: Sequence[str]) -> set[Order]:
    """Return which orders of day and month all dates of a column allow."""
    both: tuple[Order, Order] = ("day-first", "month-first")
    return {one for one in both if all(Clock("stamp", order=one).seconds(cell) is not None for cell in cells)}


def number_scale(values: Sequence[float], name: str) -> float:
    """Return the seconds of one unit of a column of plain numbers: by its name, else by its size."""
    words = name.lower()
    if re.search(r"\b(ms|msec|milli\w*)\b", words):
        return 0.001
    if re.search(r"\b(min|mins|minutes?|minuten)\b", words):
        return 60.0
    if re.search(r"\b(h|hr|hrs|hours?|stunden)\b", words):
        return 3600.0
    whole = all(value == int(value) for value in values)
    if values and min(values) > 20000.0 and max(values) < 80000.0 and not whole and max(values) - min(values) < 2.0:
        return DAY_S  # days since 1899-12-30, as spreadsheets count
    return 0.001 if values and min(values) > 1e11 else 1.0


def clock_scale(cells: Sequence[str], rows: int, name: str) -> float:
    """Return 1 where a clock of two parts is minutes and seconds, 60 where it is hours and minutes.

    It is minutes and seconds where it counts from nought, where hours and minutes would make the log longer than half
    a day, or where there is no such hour.
    """
    words = name.lower()
    if "mm:ss" in words or "m:s" in words:
        return 1.0
    if "hh:mm" in words or "h:m" in words:
        return 60.0
    seconds = [one for one in (Clock("clock").seconds(cell) for cell in cells) if one is not None]
    if len(seconds) < 2:
        return 1.0
    whole = (max(seconds) - min(seconds)) / max(len(cells) - 1, 1) * max(rows - 1, 1)
    counts = min(seconds) < 60.0 or max(seconds) >= 24.0 * 60.0
    return 1.0 if counts or whole * 60.0 > DAY_S / 2.0 else 60.0


def over_midnight(before: float, now: float) -> bool:
    """Return whether a clock without dates has passed midnight between two readings."""
    return now - before < -20.0 * 3600.0
