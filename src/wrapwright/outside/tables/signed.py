"""The file of a sign-off, kept beside the job and its decisions: who, when, and one line a row."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import BinaryIO

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.signing import SignedRow, SignOff, head_line, head_of, row_line, row_of_line
from wrapwright.outside.system.files import write_aside

ENDING = ".signed.jsonl"
_LONGEST_LINE = 100_000
_ANEW = "Put it away and have the list signed again."


def signed_file(job: Path) -> Path:
    """Return where the sign-off of a job file's list lies: beside it, under its name."""
    return job.with_name(f"{job.stem}{ENDING}")


def write_signed(file: Path, signed: SignOff, rows: Iterable[SignedRow]) -> None:
    """Write a sign-off aside, row by row, and rename the file into its place.

    Raises:
        WrapwrightError: unusable, when it cannot be written there.
    """

    def write(out: BinaryIO) -> None:
        out.write(f"{head_line(signed)}\n".encode())
        out.writelines(f"{row_line(row)}\n".encode("ascii") for row in rows)

    write_aside(file, write)


def read_signed(file: Path) -> SignOff | None:
    """Return the sign-off that a file holds, None when there is no such file.

    Raises:
        WrapwrightError: unusable, when it cannot be read or is no such file.
    """
    first = next(_lines(file), None)
    if first is None and file.exists():
        raise unusable("the file of the sign-off is empty (0 bytes).", remedy=_ANEW, where=file.name)
    return None if first is None else head_of(first, where=file.name)


def signed_rows(file: Path) -> Iterator[SignedRow]:
    """Yield the rows as they were signed, ascending, in constant memory.

    Raises:
        WrapwrightError: unusable, when it cannot be read, is no such file, or holds fewer or more rows than it says.
    """
    lines = _lines(file)
    first = next(lines, None)
    if first is None:
        return
    asked, found = head_of(first, where=file.name).rows, 0
    for line in lines:
        yield row_of_line(line, where=file.name)
        found += 1
    if found != asked:
        message = f"the file of the sign-off is damaged: it holds {found} rows and says {asked}."
        raise unusable(message, remedy=_ANEW, where=file.name)


def _lines(file: Path) -> Iterator[str]:
    try:
        with file.open(encoding="utf-8", newline="\n") as stream:
            while line := stream.readline(_LONGEST_LINE):
                yield line.rstrip("\n")
    except FileNotFoundError:
        return
    except UnicodeDecodeError:
        message = "the file of the sign-off is not UTF-8."
        raise unusable(message, remedy=_ANEW, where=file.name) from None
    except OSError as problem:
        raise unusable(f"the file of the sign-off cannot be read: {problem.strerror}.", where=file.name) from problem
