"""What is no table, told by its content whatever its name says."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.tables import kinds
from wrapwright.outside.tables.kinds import kind_of


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty (0 bytes)"),
        (b"%PDF-1.7\n", "it is a PDF, not a table"),
        (b"\x89PNG\r\n\x1a\n", "it is a picture (PNG)"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(500), "old kind (.xls), or one with a password"),
        (b"PK\x03\x04 and nothing more", "no whole zip file"),
        (b"<!DOCTYPE html><table>", "a web page or XML"),
        (b'\xef\xbb\xbf[\n  {"name": "Ada"}]', "it is JSON, not a table"),
    ],
)
def test_not_a_table(tmp_path: Path, content: bytes, said: str) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(content)
    with pytest.raises(WrapwrightError) as caught:
        kind_of(file)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["mimetype", "content.xml"], "it is an OpenDocument file"),
        (["a.txt"], "it is a zip file"),
        (["[Content_Types].xml", "xl/workbook.bin"], "a binary workbook"),
    ],
)
def test_zip_files_that_are_no_workbook(tmp_path: Path, names: list[str], said: str) -> None:
    file = tmp_path / "crew.xlsx"
    with zipfile.ZipFile(file, "w") as archive:
        for name in names:
            archive.writestr(name, "x")
    with pytest.raises(WrapwrightError, match=said.replace("(", r"\(")):
        kind_of(file)


def test_missing_and_too_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(WrapwrightError, match="is not there"):
        kind_of(tmp_path / "crew.csv")
    (tmp_path / "crew.csv").write_bytes(b"name\nAda\n")
    assert kind_of(tmp_path / "crew.csv") == "csv"
    monkeypatch.setattr(kinds, "LARGEST_BYTES", 8)
    with pytest.raises(WrapwrightError, match="at most 0 MB"):
        kind_of(tmp_path / "crew.csv")
