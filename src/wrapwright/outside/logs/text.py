"""The text of a log: its encoding found, its lines counted and given one by one, its size bounded."""

from __future__ import annotations

import codecs
import itertools
from collections.abc import Iterator
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable

HEAD_BYTES = 1 << 16
BIGGEST = 1_000_000_000  # bytes
LONGEST_LINE = 4000

_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


def head_of(file: Path) -> tuple[list[str], str, int]:
    """Return the first lines of a log, the encoding of its text, and its size in bytes.

    Raises:
        WrapwrightError: missing when there is no such file; unusable when it is empty, too large or no text.
    """
    if file.exists() and not file.is_file():
        raise unusable("This is no file.", remedy="Name the log itself.", where=str(file))
    try:
        size = file.stat().st_size
        with file.open("rb") as opened:
            start = opened.read(HEAD_BYTES)
    except OSError as error:
        message = f"The log cannot be opened ({error.strerror or type(error).__name__})."
        raise WrapwrightError(Kind.MISSING, message, remedy="Look at its name and folder.", where=str(file)) from error
    if size > BIGGEST:
        message = f"The log has {size / 1e6:.0f} MB; at most {BIGGEST / 1e6:.0f} MB are read."
        raise unusable(message, remedy="Log less often, or cut out the heat-up.", where=file.name)
    encoding = encoding_of(start, file.name)
    text = codecs.getincrementaldecoder(encoding)(errors="replace").decode(start)
    lines = text.splitlines()
    if len(start) == HEAD_BYTES and size > HEAD_BYTES and lines:
        lines = lines[:-1]  # the last one is cut
    if not any(line.strip() for line in lines):
        raise unusable("The log is empty.", remedy="Save it again from the logger.", where=file.name)
    if any(len(line) > LONGEST_LINE for line in lines):
        raise unusable(f"The log has lines of over {LONGEST_LINE} characters; it is no log.", where=file.name)
    return lines, encoding, size


def encoding_of(start: bytes, name: str) -> str:
    """Return the encoding of a text by its first bytes: byte order mark, noughts between letters, UTF-8, else 1252.

    Raises:
        WrapwrightError: unusable, for what is no text.
    """
    for mark, encoding in _MARKS:
        if start.startswith(mark):
            return encoding
    if len(start) >= 8:
        even, odd = start[0::2].count(0), start[1::2].count(0)
        if odd > 0.4 * len(start) / 2 and even < 0.05 * len(start):
            return "utf-16-le"
        if even > 0.4 * len(start) / 2 and odd < 0.05 * len(start):
            return "utf-16-be"
    if b"\0" in start:
        message = "The file is no text: a log is needed as CSV."
        raise unusable(message, remedy="Save it from the logger, or from a spreadsheet, as CSV.", where=name)
    try:
        codecs.getincrementaldecoder("utf-8")().decode(start)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def count_lines(file: Path) -> int:
    """Return about how many lines a file has, counted by their ends."""
    with file.open("rb") as opened:
        count = sum(piece.count(b"\n") for piece in iter(lambda: opened.read(1 << 20), b""))
        if count == 0:
            opened.seek(0)
            count = sum(piece.count(b"\r") for piece in iter(lambda: opened.read(1 << 20), b""))
    return count + 1


def lines_of(file: Path, encoding: str, *, skip: int = 0, every: int = 1) -> Iterator[tuple[int, str]]:
    """Yield every so manieth line with its number counted from 1; memory stays flat."""
    with file.open(encoding=encoding, errors="replace", newline=None) as opened:
        for number, line in itertools.islice(enumerate(opened, 1), skip, None, every):
            yield number, line[:LONGEST_LINE]
