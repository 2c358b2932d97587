"""What a line about a list names: rows as 5, 5-9, 5,7 or all, and the job as a file."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError

MOST_ROWS = 100_000  # that one line may name
_RANGE = re.compile(r"([0-9]{1,9})(?:\s*[-–]\s*([0-9]{1,9}))?")


def _a_file(job: Path) -> Path:
    """Return the job's path.

    Raises:
        WrapwrightError: usage, for a job on standard input.
    """
    if str(job) == "-":
        message = "this needs the job as a file: what is decided and signed is kept beside it."
        raise WrapwrightError(Kind.USAGE, message, remedy="Write it to a file, and name that.", where="JOB")
    return job


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).", callback=_a_file)]


def rows_named(words: str, option: str) -> tuple[int, ...] | None:
    """Return the rows that an option names, None for all.

    Raises:
        WrapwrightError: usage, when the words name no rows, or more than 100 000.
    """
    if words.strip().casefold() == "all":
        return None
    found: dict[int, None] = {}
    for part in words.split(","):
        match = _RANGE.fullmatch(part.strip())
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (1, 0)
        if not 1 <= first <= last:
            message = f'--{option} "{words[:60]}" names no rows.'
            raise WrapwrightError(Kind.USAGE, message, remedy="Write 5, 5-9, 5,7 or all.")
        if last - first >= MOST_ROWS or len(found) + last - first >= MOST_ROWS:
            message = f'--{option} "{words[:60]}" names more than {MOST_ROWS} rows.'
            raise WrapwrightError(Kind.USAGE, message, remedy="Name fewer, or all.")
        found.update(dict.fromkeys(range(first, last + 1)))
    return tuple(found)
