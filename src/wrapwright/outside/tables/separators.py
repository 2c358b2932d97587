"""Which character stands between the cells of a text table."""

from __future__ import annotations

import csv

SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
WORDS = {sign: word for word, sign in SEPARATORS.items()}
SAMPLE = 1 << 16  # characters
_RECORDS = 60


def separator_of(sample: str, header: int = 1) -> str:
    """Return the separator that gives a table's first records the most even columns.

    `sample` is the beginning of the table, cut anywhere; `header` is the number of the record with the columns' names.
    A table of one column has none, and a tab is returned, so that commas in names stay in them.
    """
    best, rank = "\t", (0.0, 0)
    for sign in SEPARATORS.values():
        counts = _counts(sample, sign)[header - 1 :]
        if not counts or counts[0] < 2:
            continue
        filled = [count for count in counts if count]
        found = (sum(count == counts[0] for count in filled) / len(filled), counts[0])
        if found > rank:
            best, rank = sign, found
    return best


def announced(line: str) -> str | None:
    """Return the separator that a first line "sep=;" names, as spreadsheets write it, or None."""
    words = line.rstrip("\r\n").strip('"')
    return words[4] if len(words) == 5 and words[:4].casefold() == "sep=" else None


def _counts(sample: str, sign: str) -> list[int]:
    """Return the number of cells of each record of a sample, 0 for an empty line; the last may be cut and is left."""
    lines = sample.splitlines(keepends=True)
    counts = []
    try:
        for record in csv.reader(lines, delimiter=sign):
            counts.append(len(record))
            if len(counts) == _RECORDS:
                return counts
    except csv.Error:
        return counts
    return counts[:-1] if len(counts) > 1 and not sample.endswith(("\n", "\r")) else counts
