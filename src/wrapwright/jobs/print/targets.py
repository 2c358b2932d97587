"""Where a file is to be printed, and how near to the paper's edge it is printed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import Page
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.print.values import Target
from wrapwright.outside.store.records import PrinterKept, SetupKept, Table

_REPORT = "report.json"
_LARGEST = 20_000_000
_SOME_BLANK = {"kind": "straight", "girth": "230 mm", "wall": "100 mm"}


def target_of(to: str, setup: str, bench: Bench) -> Target:
    """Return where a file goes.

    Args:
        to: an address, the name of a set-up with a printer or folder, or a folder; "" for that of `setup`.
        setup: a set-up's name, or "".
        bench: whose store knows the set-ups.

    Raises:
        WrapwrightError: usage, when neither is given; missing, when there is no such set-up, or it has no printer, or
            `to` is none of the three; unusable, for an address that is none.
    """
    from wrapwright.outside.printer.address import address_of, is_address
    from wrapwright.outside.printer.folders import PATTERN

    named = _setup(setup, bench) if setup else None
    margins = margins_of(named.sheet) if named is not None else None
    if not to and not setup:
        raise WrapwrightError(Kind.USAGE, "It is not said where to print.", remedy=_WAYS)
    if not to:
        kept = _printer(setup, bench)
        if kept is None:
            message = f'The set-up "{setup}" has no printer and no folder.'
            remedy = "Give it one with wrapwright setup printer, or name one with --to."
            raise WrapwrightError(Kind.MISSING, message, remedy=remedy)
        return _kept(kept, margins)
    if is_address(to):
        address = address_of(to, where="--to").written
        known = named is not None and (found := _printer(setup, bench)) and found.address == address
        certificate = found.certificate if known and found else ""
        return Target(address=address, certificate=certificate, setup=setup, margins_mm=margins)
    kept = _printer(to, bench)
    if kept is not None:
        own = margins if margins is not None else margins_of(_setup(kept.name, bench).sheet)
        return _kept(kept, own)
    if Path(to).is_dir():
        return Target(folder=str(Path(to).resolve()), pattern=PATTERN, setup=setup, margins_mm=margins)
    message = f"{to} is no printer's address, no set-up with a printer, and no folder that is there."
    raise WrapwrightError(Kind.MISSING, message, remedy=_WAYS, where="--to")


_WAYS = "Name a printer (ipp://...), a set-up with a printer, or a folder; wrapwright printers lists what is known."


def _kept(kept: PrinterKept, margins: tuple[float, float, float, float] | None) -> Target:
    return Target(kept.address, kept.folder, kept.certificate, kept.pattern, kept.name, margins)


def _setup(name: str, bench: Bench) -> SetupKept:
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup

    return show_setup(ShowSetup(name=name), bench, Watch())


def _printer(name: str, bench: Bench) -> PrinterKept | None:
    """Return the printer or folder of the set-up of that name, None where there is none."""
    from wrapwright.outside.store.naming import folded
    from wrapwright.outside.store.rows.prints import printer_rows

    if bench.store is None or not bench.store.exists():
        return None
    with bench.store.reading() as connection:
        rows = printer_rows(connection)
    return next((one for one in rows if folded(one.name) == folded(name)), None)


def margins_of(sheet: Table) -> tuple[float, float, float, float]:
    """Return the margins of a [sheet] table in mm: top, right, bottom, left."""
    from wrapwright.outside.jobfile.reading import read_document
    from wrapwright.outside.jobfile.writing import plain_document

    document = plain_document({"format": 1, "blank": _SOME_BLANK, "sheet": sheet})
    return read_document(document, folder=Path(), stem="set-up", absent={}).sheet.margins_mm


def told_by_report(file: Path, sha256: str) -> tuple[str, tuple[float, float, float, float] | None]:
    """Return (title, margins in mm) as the report beside a made file tells them: how near to the edge its pieces lie.

    ("", None) where there is no report of this very file.
    """
    try:
        beside = file.with_name(_REPORT)
        if beside.stat().st_size > _LARGEST:
            return "", None
        report = json.loads(beside.read_bytes())
        of_it = any(one["path"] == file.name and one["sha256"] == sha256 for one in report["files"])
        sheets = [one for one in report["sheets"] if one["file"] == file.name]
        return (str(report.get("title", "")), _nearest(sheets)) if of_it else ("", None)
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return "", None


def _nearest(sheets: list[Any]) -> tuple[float, float, float, float] | None:
    """Return how near to each edge of the page a piece's trim comes on any of the sheets."""
    found = []
    for sheet in sheets:
        width, height = float(sheet["width_mm"]), float(sheet["height_mm"])
        for piece in sheet["pieces"]:
            x, y = float(piece["x_mm"]), float(piece["y_mm"])
            right, top = width - x - float(piece["width_mm"]), height - y - float(piece["height_mm"])
            found.append((top, right, y, x))
    if not found:
        return None
    top, right, bottom, left = (min(side) for side in zip(*found, strict=True))
    return (top, right, bottom, left)


def with_margins(page: Page, *known: tuple[float, float, float, float] | None) -> Page:
    """Return the page with the first margins that are known."""
    from dataclasses import replace

    return replace(page, margins_mm=next((one for one in known if one is not None), None))
