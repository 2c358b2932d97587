"""Workbooks written by openpyxl read back in the child, and those made to do harm."""

from __future__ import annotations

import sys
import zipfile
from pathlib import Path

import pytest
from tests.outside.tables.books import crew_book, sheet_xml, swollen, with_sheet

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.values import Cells
from wrapwright.outside.system.child import ChildLimits
from wrapwright.outside.tables import workbook
from wrapwright.outside.tables.workbook import read_sheet, sheet_records


@pytest.fixture(scope="module")
def crew(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("books") / "crew.xlsx"
    crew_book(file)
    return file


def test_cells_read_as_the_sheet_shows_them(crew: Path, tmp_path: Path) -> None:
    sheet = read_sheet(crew, "00" * 32, sheet=None, cache=tmp_path)
    assert (sheet.name, sheet.sheets) == ("Crew", ("Crew", "Other"))
    assert list(sheet_records(sheet)) == [
        Cells(1, 1, ("Name", "Nr", "Born", "Made", "Paid")),
        Cells(2, 2, ("Zoë", "007", "02/05/2026", "=A2&B2", "12.50 EUR"), {3: "formula"}),
        Cells(4, 4, ("שלום", "007", "2026-05-03", "#N/A", "TRUE"), {3: "error"}),
        Cells(5, 5, ("  two\nlines ", "12", "", "", "0.3")),
    ]


def test_a_sheet_by_its_name_and_once_only(crew: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = read_sheet(crew, "01" * 32, sheet=" other", cache=tmp_path)
    assert [one.cells for one in sheet_records(first)] == [("Boat",), ("Swan",)]
    monkeypatch.setattr(workbook, "run_child", None)  # a second reading would need it
    assert read_sheet(crew, "01" * 32, sheet=" other", cache=tmp_path) == first
    monkeypatch.undo()
    with pytest.raises(WrapwrightError, match=r'no sheet "Boats"\. There are: Crew, Other\.'):
        read_sheet(crew, "01" * 32, sheet="Boats", cache=tmp_path)


_WIDE = '<row r="1">' + '<c t="n"><v>1</v></c>' * 300_000 + "</row>"
_FAR = '<row r="1"><c r="A1" t="n"><v>1</v></c></row><row r="9999999"><c r="A9999999" t="n"><v>1</v></c></row>'


@pytest.mark.parametrize(
    ("xml", "said"),
    [
        (sheet_xml("", before='<!DOCTYPE a [<!ENTITY b "c">]>'), "XML with a document type"),
        (sheet_xml(_WIDE), "more than the 0.12 GB of memory allowed"),
        (sheet_xml('<row r="9"></row><row r="7"></row>'), "row 7 stands after row 9"),
        (sheet_xml(_FAR), "rows beyond 1048576"),
        (sheet_xml('<row r="1"><c r="A1" t="n"><v>1</v></c></row><row'), "damaged after row 1"),
        (sheet_xml('<row r="1"><c r="BZZ1" t="n"><v>1</v></c></row>'), "row 1 has 2054 columns; at most 1000"),
    ],
)
def test_sheets_made_to_do_harm(
    crew: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, xml: str, said: str
) -> None:
    monkeypatch.setattr(workbook, "LIMITS", ChildLimits(memory_bytes=120_000_000, cpu_s=20, wall_s=60.0))
    file = tmp_path / "crew.xlsx"
    with_sheet(crew, file, xml)
    with pytest.raises(WrapwrightError) as caught:
        read_sheet(file, "02" * 32, sheet=None, cache=tmp_path)
    assert said in str(caught.value)
    assert str(caught.value).startswith("crew.xlsx")
    assert not list((tmp_path / "tables").rglob("*.rows"))


@pytest.mark.skipif(sys.platform != "linux", reason="the size of a file is limited by Linux alone")
def test_no_room_for_the_rows(crew: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workbook, "LIMITS", ChildLimits(file_bytes=50))
    with pytest.raises(WrapwrightError, match="its rows cannot be written to the cache: File too large"):
        read_sheet(crew, "04" * 32, sheet=None, cache=tmp_path)
    assert not list((tmp_path / "tables").rglob("*.rows"))


def test_a_part_that_swells_is_refused_before_it_is_unpacked(crew: Path, tmp_path: Path) -> None:
    file = tmp_path / "crew.xlsx"
    swollen(crew, file)
    with pytest.raises(WrapwrightError, match=r"unpacked, the workbook has 2\.0 GB; the most is 1 GB"):
        read_sheet(file, "03" * 32, sheet=None, cache=tmp_path)


def test_a_part_that_is_nearly_all_the_same_is_refused(crew: Path, tmp_path: Path) -> None:
    file = tmp_path / "same.xlsx"
    with zipfile.ZipFile(crew) as whole, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as bomb:
        for name in whole.namelist():
            bomb.writestr(name, whole.read(name))
        bomb.writestr("xl/more.xml", b"<si/>" * 5_000_000)
    with pytest.raises(WrapwrightError, match=r"xl/more\.xml swells \d+ times when unpacked; the most is 80"):
        read_sheet(file, "05" * 32, sheet=None, cache=tmp_path)
