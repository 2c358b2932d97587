"""Printers, a bench of one's own, and a made sheet."""

from __future__ import annotations

import json
from pathlib import Path

import pikepdf
import pytest
from tests.jobs.kept.conftest import bench, read_once
from tests.outside.printer.fake_printer import fake
from tests.outside.printer.real_printer import real, scaling

from wrapwright.outside.printer.sheetfile import sha256_of

__all__ = ["bench", "fake", "read_once", "real", "scaling"]

LETTER = (612, 792)  # points
BOX = {"x_mm": 20.0, "y_mm": 30.0, "width_mm": 150.0, "height_mm": 200.0}


def made(folder: Path, *, size: tuple[float, float] = LETTER, box: dict[str, float] = BOX, name: str = "") -> Path:
    """A sheet of one page as `make` leaves it: the file and its report."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / "sheets.pdf"
    with pikepdf.new() as pdf:
        pdf.add_blank_page(page_size=size)
        pdf.docinfo["/Title"] = name or folder.name
        pdf.save(file, deterministic_id=True)
    sheet = {"file": file.name, "page": 1, "width_mm": size[0] / 72 * 25.4, "height_mm": size[1] / 72 * 25.4}
    report = {
        "title": name or "Weir Street regatta",
        "sheets": [{**sheet, "pieces": [box]}],
        "files": [{"path": file.name, "sha256": sha256_of(file), "bytes": file.stat().st_size}],
    }
    (folder / "report.json").write_text(json.dumps(report), encoding="utf-8", newline="\n")
    return file


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    return made(tmp_path / "made")
