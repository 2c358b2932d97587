"""Rows as an option names them: 5, 5-9, 5,7 or all."""

from __future__ import annotations

import re

from wrapwright.core.base.errors import Kind, WrapwrightError

MOST_ROWS = 100_000  # that one line may name
_RANGE = re.compile(r"(\d{1,9})(?:-(\d{1,9}))?")


def rows_named(words: str, option: str) -> tuple[int, ...] | None:
    """Return the rows that an option names, None for all.

    Raises:
        WrapwrightError: usage, when the words name no rows.
    """
    if words.strip().casefold() == "all":
        return None
    found: list[int] = []
    for part in words.split(","):
        match = _RANGE.fullmatch(part.strip())
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (1, 0)
        if not 1 <= first <= last or last - first >= MOST_ROWS:
            message = f'--{option} "{words[:60]}" names no rows.'
            raise WrapwrightError(Kind.USAGE, message, remedy="Write 5, 5-9, 5,7 or all.")
        found += range(first, last + 1)
    return tuple(dict.fromkeys(found))
