"""What sort of table a file is, told by its content."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path
from typing import Literal

from wrapwright.core.base.errors import WrapwrightError, unusable

LARGEST_BYTES = 2_000_000_000
LARGEST_BOOK_BYTES = 200_000_000
SAVE_AS = "Save it as CSV (UTF-8) or XLSX and use that."

# First bytes of what people take for a table: common knowledge of each format's own standard.
_NOT_TABLES = (
    (b"%PDF-", "a PDF"),
    (b"\x89PNG", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"{\\rtf", "a text document (RTF)"),
    (b"\x1f\x8b", "a packed file (gzip)"),
)
_OLD_BOOK = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"  # compound file: the spreadsheets before XLSX, and locked ones
_JSON = re.compile(rb'(?:\xef\xbb\xbf)?\s*(?:\{\s*["}]|\[\s*[\[{"])')
_ZIP = b"PK\x03\x04"


def kind_of(file: Path) -> Literal["csv", "xlsx"]:
    """Return whether a file is text with separators or a workbook.

    Raises:
        WrapwrightError: unusable, when it is missing, empty, too large, or something else than a table.
    """
    where = file.name
    try:
        size = file.stat().st_size
        with file.open("rb") as stream:
            head = stream.read(512)
    except FileNotFoundError:
        raise unusable("the table is not there.", remedy="Check its name and place.", where=where) from None
    except OSError as problem:
        raise unusable(f"the table cannot be opened: {problem.strerror}.", where=where) from problem
    if size == 0:
        raise unusable("the table is empty (0 bytes).", where=where)
    if size > LARGEST_BYTES:
        raise _large(size, LARGEST_BYTES, where)
    if head.startswith(_ZIP):
        if size > LARGEST_BOOK_BYTES:
            raise _large(size, LARGEST_BOOK_BYTES, where)
        return _workbook(file)
    _text(head, where)
    return "csv"


def _text(head: bytes, where: str) -> None:
    """Raise when the beginning of a file shows that it is no text with separators."""
    if head.startswith(_OLD_BOOK):
        raise unusable(
            "it is a spreadsheet of the old kind (.xls), or one with a password.", remedy=SAVE_AS, where=where
        )
    for start, what in _NOT_TABLES:
        if head.startswith(start):
            raise unusable(f"it is {what}, not a table.", remedy=SAVE_AS, where=where)
    if head.lstrip().lower().startswith((b"<html", b"<!doctype html", b"<?xml")):
        raise unusable("it is a web page or XML, not a table, whatever its name says.", remedy=SAVE_AS, where=where)
    if _JSON.match(head):
        raise unusable("it is JSON, not a table, whatever its name says.", remedy=SAVE_AS, where=where)


def _large(size: int, most: int, where: str) -> WrapwrightError:
    message = f"the table has {size / 1e6:.0f} MB; at most {most / 1e6:.0f} MB are read."
    return unusable(message, remedy="Split it into several lists.", where=where)


def _workbook(file: Path) -> Literal["xlsx"]:
    """Return "xlsx" when a zip file holds a workbook (ECMA-376 part 2: its content types are listed)."""
    try:
        with zipfile.ZipFile(file) as archive:
            names = archive.namelist()
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
        raise unusable("the workbook is damaged: it is no whole zip file.", remedy=SAVE_AS, where=file.name) from None
    if "[Content_Types].xml" in names and any(name.startswith("xl/") for name in names):
        if any(name.endswith("workbook.bin") for name in names):
            raise unusable("it is a binary workbook (.xlsb).", remedy=SAVE_AS, where=file.name)
        return "xlsx"
    what = "an OpenDocument file" if "mimetype" in names else "a zip file"
    raise unusable(f"it is {what}, not a table that can be read.", remedy=SAVE_AS, where=file.name)
