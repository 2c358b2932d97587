"""How a log is written: its separator, decimal sign and header, found from its first lines."""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Sequence

from wrapwright.core.base.errors import unusable
from wrapwright.outside.logs.columns import named_columns
from wrapwright.outside.logs.figures import figure, has_comma
from wrapwright.outside.logs.stamps import kind_of
from wrapwright.outside.logs.values import Layout

SEPARATORS = ("\t", ";", ",", "|", " ")
LOOKED_AT = 200  # lines
MOST_COLUMNS = 64


def split(line: str, separator: str) -> list[str]:
    """Return the cells of a line."""
    plain = line.rstrip("\r\n")
    if separator == " ":
        return plain.split()
    if '"' in plain:
        return next(csv.reader([plain], delimiter=separator), [])
    return plain.split(separator)


def layout_of(lines: Sequence[str], encoding: str, name: str) -> Layout:
    """Return how a log is written, from its first lines.

    Raises:
        WrapwrightError: unusable, when no rows of readings are in it, or they have one column only.
    """
    looked = list(lines[:LOOKED_AT])
    separator = max(SEPARATORS, key=lambda one: (_worth(looked, one), -SEPARATORS.index(one)))
    rows = [split(line, separator) for line in looked]
    usual = _usual_width(rows)
    if usual < 2 or _worth(looked, separator) == 0.0:
        raise _one_column(looked, name)
    first = next((at for at, row in enumerate(rows) if len(row) == usual and _is_data(row)), None)
    if first is None:
        raise unusable("The log has no rows of readings.", remedy="Save it as CSV from the logger.", where=name)
    if usual > MOST_COLUMNS:
        raise unusable(f"The log has {usual} columns; at most {MOST_COLUMNS} are read.", where=name)
    data = [row for row in rows[first:] if len(row) == usual]
    comma = separator != "," and any(has_comma(cell) for row in data for cell in row)
    return Layout(encoding, separator, comma, first, named_columns(_header(rows[:first], usual), data))


def _worth(lines: Sequence[str], separator: str) -> float:
    """Return how well a separator parts the lines: readings and times in lines of the usual width."""
    rows = [split(line, separator) for line in lines if line.strip()]
    usual = _usual_width(rows)
    if usual < 2:
        return 0.0
    like = [row for row in rows if len(row) == usual]
    read = sum(sum(_known(cell) for cell in row) for row in like if _is_data(row))
    # A decimal comma taken for a separator makes twice as many cells: whole cells count, not their number.
    return read / (usual * len(rows)) * min(usual, 3) if read else 0.0


def _usual_width(rows: Sequence[Sequence[str]]) -> int:
    counts = Counter(len(row) for row in rows if any(cell.strip() for cell in row))
    return max(counts, key=lambda width: (counts[width], width)) if counts else 0


def _known(cell: str) -> bool:
    return kind_of(cell) is not None or figure(cell) is not None


def _is_data(row: Sequence[str]) -> bool:
    """Return whether a line is a row of readings: at least two cells, or half of them, are numbers or times."""
    known = [kind_of(cell) for cell in row]
    return sum(one is not None for one in known) >= max(1, (len([c for c in row if c.strip()]) + 1) // 2) and any(
        one is not None for one in known
    )


def _header(above: Sequence[Sequence[str]], width: int) -> list[str]:
    """Return the columns' names: the last lines above the readings that are as wide, a line of units joined on."""
    names = [""] * width
    for row in list(above)[-2:]:
        cells = [cell.strip().strip('"') for cell in row]
        if len([cell for cell in cells if cell]) * 2 < width or not width - 1 <= len(cells) <= width + 1:
            names = [""] * width
            continue
        cells = (cells + [""] * width)[:width]
        names = [" ".join(part for part in pair if part) for pair in zip(names, cells, strict=True)]
    return [re.sub(r"\s+", " ", one) for one in names]


def _one_column(lines: Sequence[str], name: str) -> Exception:
    numbers = [line for line in lines if figure(line) is not None and line.strip()]
    if len(numbers) > len(lines) / 2:
        message = "The log has one column; times and temperatures are needed, in two columns or more."
        return unusable(message, remedy="Have the logger write the time beside each reading.", where=name)
    message = "The file has no rows of times and temperatures that can be read."
    return unusable(message, remedy="Save the log as CSV: a time and a temperature in each row.", where=name)
