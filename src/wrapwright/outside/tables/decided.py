"""The file of decisions, kept beside the job."""

from __future__ import annotations

from pathlib import Path

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.decisions import Decisions, decisions_of, decisions_text
from wrapwright.outside.system.files import write_aside

ENDING = ".names.json"
LARGEST_BYTES = 500_000_000


def decisions_file(job: Path) -> Path:
    """Return where the decisions about a job file's list lie: beside it, under its name."""
    return job.with_name(f"{job.stem}{ENDING}")


def read_decisions(file: Path) -> Decisions:
    """Return the decisions that a file holds; none when there is no such file.

    Raises:
        WrapwrightError: unusable, when it cannot be read or is no such file.
    """
    try:
        if file.stat().st_size > LARGEST_BYTES:
            raise unusable(f"the file of decisions has more than {LARGEST_BYTES // 1_000_000} MB.", where=file.name)
        text = file.read_text(encoding="utf-8")
    except FileNotFoundError:
        return Decisions()
    except UnicodeDecodeError:
        message = "the file of decisions is not UTF-8."
        raise unusable(message, remedy="Put it away and decide anew.", where=file.name) from None
    except OSError as problem:
        raise unusable(f"the file of decisions cannot be read: {problem.strerror}.", where=file.name) from problem
    return decisions_of(text, where=file.name)


def write_decisions(file: Path, decisions: Decisions) -> None:
    """Write decisions aside and rename the file into its place.

    Raises:
        WrapwrightError: unusable, when it cannot be written there.
    """
    write_aside(file, decisions_text(decisions).encode("utf-8"))
