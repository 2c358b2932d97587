"""Workbooks for the tests: written by openpyxl, or by hand where it would not write such a thing."""

from __future__ import annotations

import zipfile
from datetime import date
from pathlib import Path

import openpyxl
from openpyxl.xml.constants import SHEET_MAIN_NS


def crew_book(file: Path) -> None:
    """Write a workbook of two sheets with text, numbers, dates, a formula, an error and a gap."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Crew"
    for row in (
        ["Name", "Nr", "Born", "Made", "Paid"],
        ["Zoë", "007", date(2026, 5, 2), "=A2&B2", 12.5],
        [],
        ["שלום", 7, date(2026, 5, 3), "#N/A", True],
        ["  two\nlines ", 12, None, None, 0.1 + 0.2],
    ):
        sheet.append(row)
    sheet["B4"].number_format = "000"
    sheet["C2"].number_format = "dd/mm/yyyy"
    sheet["E2"].number_format = '0.00 "EUR"'
    other = book.create_sheet("Other")
    other.append(["Boat"])
    other.append(["Swan"])
    book.save(file)


def with_sheet(source: Path, file: Path, xml: str) -> None:
    """Write a copy of a workbook whose first sheet has another XML."""
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            new.writestr(name, xml if name == "xl/worksheets/sheet1.xml" else old.read(name))


def sheet_xml(rows: str, *, before: str = "") -> str:
    """Return the XML of a sheet with these rows."""
    head = f'<?xml version="1.0"?>{before}<worksheet xmlns="{SHEET_MAIN_NS}"><dimension ref="A1"/>'
    return f"{head}<sheetData>{rows}</sheetData></worksheet>"


def swollen(source: Path, file: Path) -> None:
    """Write a copy of a workbook that says of its first part that it unpacks to 2 GB."""
    data = bytearray(source.read_bytes())
    central = data.index(b"PK\x01\x02")  # APPNOTE 4.3.12: the uncompressed size lies at 24
    data[central + 24 : central + 28] = (2_000_000_000).to_bytes(4, "little")
    file.write_bytes(bytes(data))
