"""The way to measure a printer's scale, as docs/sheet.md tells it, gives the lengths that it promises."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from tests.house.docs.markdown import fences, pages
from tests.house.tree import ROOT

import wrapwright

FIELD = ROOT / "examples" / "two-lengths.toml"


def piece_of(text: str, folder: Path) -> dict[str, float]:
    bench, watch = wrapwright.open_bench(), wrapwright.Watch()
    made = wrapwright.make_sheets(wrapwright.MakeRequest(None, text, folder), bench, watch)
    (sheet,) = made.report["sheets"]
    (piece,) = sheet["pieces"]
    assert sheet["width_mm"] > sheet["height_mm"]
    return {key: piece[key] for key in ("width_mm", "height_mm", "turn_deg")}


def test_the_field_has_the_lengths_that_are_told(tmp_path: Path) -> None:
    found = piece_of(FIELD.read_text(encoding="utf-8"), tmp_path / "field")
    assert found == {"width_mm": 250.0, "height_mm": 190.0, "turn_deg": 0}


def test_the_worked_figures_bring_a_printer_back_to_size(tmp_path: Path) -> None:
    """A printer that made 190 mm 190.5 mm and 250 mm 249.0 mm prints the corrected file at 190 and 250 mm."""
    page = pages()["docs/sheet.md"]
    told = re.search(r"short side measures ([\d.]+) mm and the long side ([\d.]+) mm", page)
    assert told is not None
    short, long = (float(one) for one in told.groups())
    (scale,) = [one.text for one in fences("toml") if one.page == "docs/sheet.md" and "scale" in one.text]
    across, along = tomllib.loads(scale)["sheet"]["scale"]
    assert (across, along) == (pytest.approx(short / 190, abs=5e-5), pytest.approx(long / 250, abs=5e-5))
    text = FIELD.read_text(encoding="utf-8").replace('paper = "Letter"', f'paper = "Letter"\n{scale.splitlines()[1]}')
    found = piece_of(text, tmp_path / "corrected")
    assert found["width_mm"] * long / 250 == pytest.approx(250, abs=0.02)
    assert found["height_mm"] * short / 190 == pytest.approx(190, abs=0.02)
