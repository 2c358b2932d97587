"""Workbooks (XLSX, ECMA-376), read once in a child and kept in the cache as lines of JSON."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.names.values import Cells
from wrapwright.outside.system.child import ChildLimits, run_child, working_folder
from wrapwright.outside.system.files import replace
from wrapwright.outside.system.keeping import make_room, used
from wrapwright.outside.tables.child.book import ROWS
from wrapwright.outside.tables.delimited import LONGEST_CELL, MOST_COLUMNS

READER = 1  # raise it whenever reading gives other texts for the same file
KEPT_BYTES = 500_000_000
SPARED_S = 3600.0
LIMITS = ChildLimits(memory_bytes=1_500_000_000, cpu_s=240, wall_s=300.0, file_bytes=1_000_000_000)
_CHILD = "wrapwright.outside.tables.child.book"


@dataclass(frozen=True)
class Sheet:
    """One sheet of a workbook as it lies in the cache: its name, the names of all, and the file of its rows."""

    name: str
    sheets: tuple[str, ...]
    rows: Path


def read_sheet(file: Path, sha256: str, *, sheet: str | None, cache: Path) -> Sheet:
    """Return a sheet of a workbook (the first that is seen, or the one named), read in a child unless it is kept.

    Raises:
        WrapwrightError: unusable, when the workbook is damaged or hostile, has no such sheet, or goes beyond a limit.
    """
    folder = cache / "tables" / sha256[:2]
    place = (
        folder / f"{sha256}-{READER}-{'1' if sheet is None else sheet.strip().casefold().encode('utf-8').hex()[:120]}"
    )
    about, rows = place.with_suffix(".json"), place.with_suffix(".rows")
    if not (about.is_file() and rows.is_file()):
        _read(file, sheet, (about, rows), cache)
    used(about)
    used(rows)
    said = json.loads(about.read_text(encoding="utf-8"))
    return Sheet(said["sheet"], tuple(said["sheets"]), rows)


def sheet_records(sheet: Sheet) -> Iterator[Cells]:
    """Yield the rows of a sheet that hold something, in constant memory; numbers are the sheet's own."""
    try:
        with sheet.rows.open(encoding="utf-8", newline="\n") as lines:
            for line in lines:
                number, cells, kinds = json.loads(line)
                yield Cells(number, number, tuple(cells), {int(at): kind for at, kind in kinds.items()})
    except FileNotFoundError:
        message = "The table as read is no longer in the cache."
        raise unusable(message, remedy="Start again: it is read anew.") from None


def _read(file: Path, sheet: str | None, places: tuple[Path, Path], cache: Path) -> None:
    about, rows = places
    try:
        about.parent.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise _unkept(problem) from problem
    request = {"sheet": sheet, "columns": MOST_COLUMNS, "cell": LONGEST_CELL}
    with working_folder(cache / "work") as folder:
        try:
            said = run_child(_CHILD, request, folder=folder, content=file, limits=LIMITS)
        except WrapwrightError as problem:
            raise WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=file.name) from problem
        left = folder / ROWS
        if not (left.is_file() and _sound(said)):
            raise unusable("the workbook is damaged or not what it says.", where=file.name)
        try:
            aside = rows.with_name(f".{folder.name}.rows")
            shutil.copyfile(left, aside)
            replace(aside, rows)
            aside.write_text(json.dumps({"sheet": said["sheet"], "sheets": said["sheets"]}), encoding="utf-8")
            replace(aside, about)
        except OSError as problem:
            raise _unkept(problem) from problem
    make_room((cache / "tables").glob("*/*"), limit_bytes=KEPT_BYTES, spared_s=SPARED_S)


def _unkept(problem: OSError) -> WrapwrightError:
    message = f"the cache cannot keep the table as read: {problem.strerror}."
    return WrapwrightError(Kind.UNREACHABLE, message, remedy="Make room there, or name another cache folder.")


def _sound(said: dict[str, Any]) -> bool:
    """Return whether the child's words have the form they should; it is not trusted."""
    names = said.get("sheets")
    return isinstance(said.get("sheet"), str) and isinstance(names, list) and all(isinstance(one, str) for one in names)
