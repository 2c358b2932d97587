"""The main part of the child that reads a workbook: one sheet becomes lines of JSON in the working folder."""

from __future__ import annotations

import json
import os
import re
import warnings
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import unusable
from wrapwright.outside.system.child_inside import serve
from wrapwright.outside.tables.child.formats import shown

ROWS = "rows.jsonl"
MOST_PARTS = 5000
MOST_UNPACKED = 1_000_000_000
SWELLING_BYTES = 20_000_000  # parts up to this size are read however they are packed
MOST_SWELLING = 80  # 100 000 rows that are all the same swell by 17: measured
HIGHEST_ROW = 1_048_576  # ECMA-376 workbooks as commonly limited
_SAVE = "Open it in a spreadsheet, save the sheet as CSV (UTF-8), and use that."
_BLOCK = 1 << 20
_ROW = re.compile(rb'<(?:\w+:)?row\b[^>]*?\br="(\d{1,9})"')
_DOCTYPES = tuple("<!DOCTYPE".encode(code) for code in ("ascii", "utf-16-le", "utf-16-be"))


def read_book(request: dict[str, Any]) -> dict[str, Any]:
    """Return the sheets' names, the one that was read, and how many rows it left in ROWS.

    Args:
        request: `sheet` (name or None), `columns` and `cell` (most columns, most characters of a cell).
    """
    warnings.simplefilter("ignore")
    try:
        with os.fdopen(os.dup(0), "rb") as stream:
            _harmless(stream)
            book = _opened(stream)
            sheet = _sheet(book, request["sheet"])
            count = _written(sheet, int(request["columns"]), int(request["cell"]))
            return {"sheets": [one.title for one in book.worksheets], "sheet": sheet.title, "rows": count}
    except MemoryError:
        pass
    except OSError as problem:
        message = f"its rows cannot be written to the cache: {problem.strerror or problem}."
        raise unusable(message, remedy="Make room there, or split the table.") from None
    # Raised anew: the first one holds on to all that filled the memory, and there is none left for an answer.
    raise MemoryError


def _harmless(stream: Any) -> None:
    """Raise for a workbook whose parts are too many, too large, or describe their own entities."""
    try:
        with zipfile.ZipFile(stream) as archive:
            parts = archive.infolist()
            if len(parts) > MOST_PARTS:
                raise unusable(f"the workbook has {len(parts)} parts; the most is {MOST_PARTS}.", remedy=_SAVE)
            total = sum(one.file_size for one in parts)
            if total > MOST_UNPACKED:
                message = f"unpacked, the workbook has {total / 1e9:.1f} GB; the most is {MOST_UNPACKED / 1e9:g} GB."
                raise unusable(message, remedy=_SAVE)
            for one in parts:
                if one.filename.endswith((".xml", ".rels")):
                    _swelling(one)
                    with archive.open(one) as part:
                        head = part.read(2048)
                    if any(word in head for word in _DOCTYPES):
                        raise unusable("the workbook holds XML with a document type, which is not read.", remedy=_SAVE)
                    if one.filename.startswith("xl/worksheets/"):
                        with archive.open(one) as part:
                            _in_order(part)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError):
        raise unusable("the workbook is damaged or locked: its parts cannot be unpacked.", remedy=_SAVE) from None
    stream.seek(0)


def _swelling(part: zipfile.ZipInfo) -> None:
    """Raise for a part that holds far more than it weighs: reading it would take minutes, and give nothing."""
    if part.file_size > max(SWELLING_BYTES, MOST_SWELLING * part.compress_size):
        times = part.file_size / max(part.compress_size, 1)
        swells = f"the workbook's {part.filename[-60:]} swells {times:.0f} times when unpacked"
        raise unusable(f"{swells}; the most is {MOST_SWELLING}.", remedy=_SAVE)


def _in_order(part: Any) -> None:
    """Raise for a sheet whose rows do not follow each other: the library would leave some of them out unsaid."""
    last, rest = 0, b""
    while block := part.read(_BLOCK):
        text = rest + block
        tag = text.rfind(b"<")
        is_open = tag >= 0 and text.rfind(b">") < tag and len(block) == _BLOCK
        cut = tag if is_open else len(text)
        for found in _ROW.finditer(text, 0, cut):
            number = int(found[1])
            if number <= last:
                message = f"the workbook is damaged: row {number} stands after row {last}."
                raise unusable(message, remedy=_SAVE)
            last = number
        rest = text[cut:]
        if len(rest) > _BLOCK:
            raise unusable("the workbook is damaged: a tag of its sheet does not end.", remedy=_SAVE)


def _opened(stream: Any) -> Any:
    import openpyxl

    try:
        return openpyxl.load_workbook(stream, read_only=True, data_only=False, keep_links=False)
    except MemoryError:
        raise
    except Exception as problem:  # the library's own kinds are many, and any of them means the same here
        raise unusable(f"the workbook is damaged ({type(problem).__name__}).", remedy=_SAVE) from None


def _sheet(book: Any, wanted: str | None) -> Any:
    sheets = book.worksheets
    if not sheets:
        raise unusable("the workbook has no sheet with cells.", remedy=_SAVE)
    if wanted is None:
        return next((one for one in sheets if one.sheet_state == "visible"), sheets[0])
    found = [one for one in sheets if one.title.casefold() == wanted.strip().casefold()]
    if not found:
        names = ", ".join(one.title for one in sheets[:20])
        raise unusable(f'the workbook has no sheet "{wanted[:60]}".', remedy=f"There are: {names}.")
    return found[0]


def _written(sheet: Any, columns: int, longest: int) -> int:
    count = 0
    with Path(ROWS).open("w", encoding="utf-8", newline="\n") as file:
        for number, cells, kinds in _rows(sheet, columns, longest):
            file.write(json.dumps([number, cells, kinds], ensure_ascii=False) + "\n")
            count += 1
    return count


def _rows(sheet: Any, columns: int, longest: int) -> Iterator[tuple[int, list[str], dict[str, str]]]:
    """Yield (number, texts, kinds) of the rows that hold something."""
    sheet.reset_dimensions()  # what a file says of its own size may be wrong, and rows would be lost
    number = 0
    try:
        for number, row in enumerate(sheet.iter_rows(), start=1):
            if number > HIGHEST_ROW:
                raise unusable(f"the sheet has rows beyond {HIGHEST_ROW}.", remedy=_SAVE)
            if not row:
                continue
            texts, kinds = _row(row)
            if len(texts) > columns:
                message = f"row {number} has {len(texts)} columns; at most {columns} are read."
                raise unusable(message, remedy="Keep the columns that are used.")
            widest = max(map(len, texts), default=0)
            if widest > longest:
                raise unusable(f"a cell in row {number} has {widest} characters; at most {longest} are read.")
            if texts:
                yield number, texts, kinds
    except (MemoryError, OSError):
        raise
    except Exception as problem:
        if hasattr(problem, "remedy"):
            raise
        message = f"the workbook is damaged after row {number} ({type(problem).__name__})."
        raise unusable(message, remedy=_SAVE) from None


def _row(row: Any) -> tuple[list[str], dict[str, str]]:
    texts: list[str] = []
    kinds: dict[str, str] = {}
    for at, cell in enumerate(row):
        value = getattr(cell, "value", None)
        kind = getattr(cell, "data_type", "n")
        if kind == "f":
            text = str(value if isinstance(value, str) else getattr(value, "text", None) or "=")
            kinds[str(at)] = "formula"
        else:
            text, known = shown(value, getattr(cell, "number_format", "General") or "General")
            if kind == "e":
                kinds[str(at)] = "error"
            elif text.startswith("="):
                kinds[str(at)] = "formula"
            elif not known:
                kinds[str(at)] = "unshown"
        texts.append(text)
    while texts and not texts[-1]:
        texts.pop()
    return texts, kinds


if __name__ == "__main__":
    serve(read_book)
