"""A wrap in panels, cut and laid mark to mark, is the wrap in one piece; judged on poppler's pages."""

from __future__ import annotations

import subprocess

import numpy as np
import pytest
from PIL import Image
from tests.whole.product import job_text, svg
from tests.witness import need

import wrapwright

DPI = 200
PITCH = 25.4 / DPI
# Slanted bars all round: every column of the wrap is different.
BARS = svg(300, 120, "".join(f'<path d="M{x} 0l9 0l-30 120l-9 0z"/>' for x in range(-10, 340, 23)))
BLANK = 'kind = "straight"\nflat = 300\nwall = 120'
ART = 'kind = "picture"\nfile = "bars.svg"\nwidth = "wrap"\nheight = 120\nfit = "stretch"'


def pages(product, tmp_path):
    """Every page in grey as seen through the paper: mirrored back."""
    subprocess.run(
        [need("pdftoppm"), "-r", str(DPI), "-gray", "-png", product.pdf, tmp_path / "page"], check=True, timeout=60
    )
    return [np.asarray(Image.open(file))[:, ::-1] for file in sorted(tmp_path.glob("page*.png"))]


def trims(product, images):
    """The trim of each piece out of its page as seen."""
    found = []
    for sheet, image in zip(product.report["sheets"], images, strict=True):
        [piece] = sheet["pieces"]
        left = sheet["width_mm"] - piece["x_mm"] - piece["width_mm"]
        top = sheet["height_mm"] - piece["y_mm"] - piece["height_mm"]
        rows, columns = (round(one / PITCH) for one in (piece["height_mm"], piece["width_mm"]))
        first = (round(top / PITCH), round(left / PITCH))
        found.append(image[first[0] : first[0] + rows, first[1] : first[1] + columns])
    return found


def test_panels_laid_together_are_the_whole_wrap(workshop, tmp_path):
    files = {"bars.svg": BARS}
    (tmp_path / "whole").mkdir()
    (tmp_path / "parts").mkdir()
    whole = workshop.make(job_text(BLANK, ART, sheet='paper = "A3"'), files)
    parts = workshop.make(job_text(BLANK, ART, wrap='panels = "auto"', sheet='paper = "Letter"'), files)
    assert [sheet["pieces"][0]["panel"] for sheet in parts.report["sheets"]] == [1, 2]
    [one] = trims(whole, pages(whole, tmp_path / "whole"))
    first, second = trims(parts, pages(parts, tmp_path / "parts"))
    at_join = one.shape[1] - second.shape[1]
    assert 0.3 < at_join / one.shape[1] < 0.7
    together = np.hstack([first[:, :at_join], second])
    rows, columns = (min(one.shape[axis], together.shape[axis]) for axis in (0, 1))
    # Positions are rounded to whole pixels on either side: an edge may lie a pixel beside the other.
    off = np.abs(one[5 : rows - 5, :columns].astype(int) - together[5 : rows - 5, :columns]) > 128
    assert off.mean() < 0.02
    shifted = np.roll(together, round(2.0 / PITCH), axis=1)
    assert (np.abs(one[5 : rows - 5, :columns].astype(int) - shifted[5 : rows - 5, :columns]) > 128).mean() > 0.08
    # The strip under the next panel goes on with the same art.
    under = first.shape[1] - at_join
    assert under * PITCH == pytest.approx(4.0, abs=0.3)  # what the note of the report says
    assert (np.abs(first[5 : rows - 5, at_join:].astype(int) - second[5 : rows - 5, :under]) > 128).mean() < 0.05


def test_a_panel_as_a_picture_ends_where_it_is_cut(workshop):
    made = workshop.make(
        job_text(BLANK, ART, wrap='joins = ["right"]', sheet='paper = "Letter"\nppi = 100'), {"bars.svg": BARS},
        output="png",
    )  # fmt: skip
    files = sorted(one.name for one in made.folder.glob("*.png"))
    assert files == ["sheet-001-1.png", "sheet-001-2.png"]
    sheet = made.report["sheets"][0]
    [piece] = sheet["pieces"]
    image = np.asarray(Image.open(made.folder / files[0]).convert("L"))
    pitch = 25.4 / 100
    rows = slice(*(round((sheet["height_mm"] - piece["y_mm"] - up) / pitch) for up in (100.0, 20.0)))
    left, right = round(piece["x_mm"] / pitch), round((piece["x_mm"] + piece["width_mm"]) / pitch)
    assert (image[rows, left + 2 : right - 2] < 128).mean() > 0.2
    assert (image[rows, left - 10 : left - 2] < 250).mean() < 0.02


def told(workshop, text):
    with pytest.raises(wrapwright.WrapwrightError) as caught:
        workshop.make(text, {"bars.svg": BARS})
    return [one.message for one in caught.value.findings if one.rule == "does-not-fit"]


def test_without_leave_a_wrap_too_wide_is_refused_and_joins_that_are_too_far_apart_too(workshop):
    [message] = told(workshop, job_text(BLANK, ART, sheet='paper = "Letter"'))
    assert "too wide" in message
    assert 'panels = "auto"' in message
    [message] = told(workshop, job_text(BLANK, ART, wrap="joins = [260]", sheet='paper = "Letter"'))
    assert "panel 1 of 2 would be" in message
