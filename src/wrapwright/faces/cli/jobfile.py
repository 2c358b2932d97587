"""The JOB argument: a path or standard input."""

from __future__ import annotations

import sys
from pathlib import Path

from wrapwright.core.base.errors import unusable

LONGEST = 4_000_000


def job_named(job: str) -> tuple[Path | None, str | None]:
    """Return (path, None) of a job file, or (None, text) for "-".

    Raises:
        WrapwrightError: unusable, for text on standard input that is not UTF-8 or longer than 4 MB.
    """
    if job == "-":
        return None, _text()
    return Path(job), None


def _text() -> str:
    content = sys.stdin.buffer.read(LONGEST + 1)
    if len(content) > LONGEST:
        raise unusable(f"The job on standard input is longer than {LONGEST // 1_000_000} MB.", where="-")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise unusable(f"The job on standard input is not UTF-8 (byte {error.start}).", where="-") from error
