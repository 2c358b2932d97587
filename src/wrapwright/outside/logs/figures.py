"""The figures of a log's cells: numbers with point or comma, with or without their unit, or missing."""

from __future__ import annotations

import math
import re

MISSING = math.nan
_GONE = {
    *("", "-", "--", "---", "----", "-----", "nan", "null", "none", "na", "n/a", "#n/a", "ol", "o.l", "over", "open"),
    *("err", "error", "fault", "inf", "lo", "hi", "?", "----.-", "---.-", "--.-"),
}
_NUMBER = re.compile(r"([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(?:°|º|deg(?:rees)?)?\s*([CFKcfk])?")


def figure(cell: str) -> float | None:
    """Return the number in a cell, NaN where the cell says that there is none, None where it is something else."""
    text = cell.strip().strip("\"'").strip()
    if text.lower() in _GONE:
        return MISSING
    try:
        return _finite(float(text))
    except ValueError:
        found = _NUMBER.fullmatch(text.replace("\u2212", "-").replace("\u00a0", " "))
        return _finite(float(found[1].replace(",", "."))) if found else None


def _finite(value: float) -> float:
    return value if math.isfinite(value) else MISSING


def unit_in(cell: str) -> str:
    """Return C, F or K where a cell's figure says its unit, else nothing."""
    found = _NUMBER.fullmatch(cell.strip().strip("\"'").strip())
    return (found[2] or "").upper() if found else ""


def has_comma(cell: str) -> bool:
    """Return whether a cell is a number with a decimal comma."""
    return re.fullmatch(r"\s*[-+]?\d+,\d+\s*(?:°?\s*[CFK])?\s*", cell) is not None
