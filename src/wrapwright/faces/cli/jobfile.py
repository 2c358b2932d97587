"""The JOB argument: a path or standard input."""

from __future__ import annotations

import sys
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable

LONGEST = 4_000_000


def job_named(job: str) -> tuple[Path | None, str | None]:
    """Return (path, None) of a job file that exists, or (None, text) for "-".

    Raises:
        WrapwrightError: kind missing for a path that does not exist, unusable for a folder or for text that is not
            UTF-8 or longer than 4 MB.
    """
    if job == "-":
        return None, _text()
    path = Path(job)
    if not path.exists():
        message = "There is no such job file."
        raise WrapwrightError(Kind.MISSING, message, remedy="Check the path's spelling.", where=job)
    if path.is_dir():
        raise unusable("This is a folder; a job file is needed.", where=job)
    return path, None


def _text() -> str:
    content = sys.stdin.buffer.read(LONGEST + 1)
    if len(content) > LONGEST:
        raise unusable(f"The job on standard input is longer than {LONGEST // 1_000_000} MB.", where="-")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise unusable(f"The job on standard input is not UTF-8 (byte {error.start}).", where="-") from error
