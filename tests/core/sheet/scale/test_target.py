"""Targets: lines as far apart as the paper lets them be, and rendered where they are said to be."""

from __future__ import annotations

import subprocess
from pathlib import Path

import cv2
import numpy as np
import pytest
from tests.witness import need

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.design.path import rectangle
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.scale.target import LINE_MM, Target, target_on
from wrapwright.core.sheet.scale.target_page import target_page

PPI = 600


def sheet(width: float, height: float | None, *margins: float) -> SheetRequest:
    return SheetRequest("some", width, height, margins_mm=margins or (4.0, 4.0, 4.0, 4.0), scale_across=1.01)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("paper", "asked"),
    [
        (sheet(215.9, 279.4), (207.0, 271.0)),
        (sheet(210.0, 297.0), (201.0, 288.0)),  # 202 would stand on the very edge of what is printed
        (sheet(210.0, 297.0, 3.0, 6.0, 15.0, 6.0), (197.0, 278.0)),
        (sheet(610.0, None), (601.0, 300.0)),
        (sheet(50.0, 60.0), (41.0, 51.0)),
    ],
)
def test_as_far_apart_as_the_printer_reaches(paper: SheetRequest, asked: tuple[float, float]) -> None:
    found = target_on(paper)
    assert found.asked_mm == pytest.approx(asked)
    top, right, bottom, left = paper.margins_mm
    half = LINE_MM / 2.0
    assert found.left_mm - half >= left
    assert found.right_mm + half <= found.width_mm - right
    assert found.bottom_mm - half >= bottom
    assert found.top_mm + half <= found.height_mm - top


def test_too_little_to_tell() -> None:
    with pytest.raises(WrapwrightError, match="only 38 mm can be printed across"):
        target_on(sheet(50.0, 100.0, 4.0, 6.0, 4.0, 6.0))


@pytest.fixture(scope="module")
def rendered(tmp_path_factory: pytest.TempPathFactory) -> tuple[Target, np.ndarray]:
    """Give the Letter target as poppler renders it at 600 ppi, words left out."""
    from wrapwright.outside.icc.profiles import srgb_profile
    from wrapwright.outside.pdf.drawn import drawn_pdf
    from wrapwright.outside.pdf.metadata import About

    target = target_on(sheet(215.9, 279.4))
    page = target_page(target, set_label=lambda text, cap: rectangle(0.0, 0.0, 0.3 * cap * len(text), 0.01))
    file = tmp_path_factory.mktemp("target") / "target.pdf"
    file.write_bytes(drawn_pdf([page], srgb=srgb_profile().data, about=About("t", "test")))
    stem = file.with_suffix("")
    subprocess.run([need("pdftoppm"), "-r", str(PPI), "-gray", "-singlefile", str(file), str(stem)], check=True)
    return target, cv2.imread(str(Path(f"{stem}.pgm")), cv2.IMREAD_GRAYSCALE)


def middle_of(dark: np.ndarray, near: float) -> float:
    """Return the middle, in mm, of the ink within 1 mm of a place along a row of pixels."""
    at = (np.arange(len(dark)) + 0.5) * 25.4 / PPI
    ink = (255.0 - dark) * (np.abs(at - near) < 1.0)
    return float((at * ink).sum() / ink.sum())


def test_lines_stand_where_they_are_said_to(rendered: tuple[Target, np.ndarray]) -> None:
    """The printer's scale in the set-up (1.01 here) corrects nothing: asked is what the file holds."""
    target, page = rendered
    pixel = 25.4 / PPI
    row = page[round((279.4 - (target.bottom_mm + target.top_mm) / 2.0 - 8.0) / pixel)].astype(float)
    left, right = middle_of(row, target.left_mm), middle_of(row, target.right_mm)
    assert abs(left - target.left_mm) <= pixel
    assert abs(right - left - target.asked_mm[0]) <= pixel
    column = page[:, round(((target.left_mm + target.right_mm) / 2.0 - 8.0) / pixel)].astype(float)
    low, high = middle_of(column, 279.4 - target.bottom_mm), middle_of(column, 279.4 - target.top_mm)
    assert abs(low - high - target.asked_mm[1]) <= pixel
