"""Vector art that has to become pixels gets enough of them for what is shown of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.design.elements import Picture, Tile
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import CheckRequest
from wrapwright.jobs.work.supplying import LEAST_PX, MOST_PX, OVERSAMPLING, longest_px

SHADED = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><defs>
<linearGradient id="g"><stop offset="0" stop-color="#7a2e1d"/><stop offset="1" stop-color="#0e3a5a"/></linearGradient>
</defs><rect width="100" height="100" fill="url(#g)"/></svg>"""
JOB = """
format = 1
[blank]
kind = "straight"
girth = "240 mm"
wall = "100 mm"
[[element]]
kind = "picture"
file = "shaded.svg"
width = "60 mm"
height = "60 mm"
crop = [0.375, 0.375, 0.625, 0.625]
"""


@pytest.mark.parametrize(
    ("element", "mm"),
    [
        (Picture(name="p", file="p.svg", width_mm=70.0, height_mm=40.0), 70.0),
        (Picture(name="p", file="p.svg", width_mm=70.0), 140.0),
        (Picture(name="p", file="p.svg", width_mm=50.0, height_mm=40.0, crop=(0.0, 0.25, 1.0, 0.75)), 100.0),
        (Picture(name="p", file="p.svg", wrap_width=True), 246.0),
        (Tile(name="t", file="t.svg", width_mm=60.0), 60.0),
    ],
)
def test_twice_the_sheets_ppi_at_the_size_shown(element: Picture | Tile, mm: float) -> None:
    got = longest_px(element, 246.0, 300)
    assert got >= mm / 25.4 * 300 * OVERSAMPLING
    assert got < mm / 25.4 * 300 * OVERSAMPLING + 513


def test_never_too_few_nor_too_many() -> None:
    assert longest_px(Tile(name="t", file="t.svg", width_mm=3.0), 246.0, 300) == LEAST_PX
    sliver = Picture(name="p", file="p.svg", width_mm=200.0, crop=(0.5, 0.0, 0.501, 1.0))
    assert longest_px(sliver, 246.0, 600) == MOST_PX


def test_a_cropped_drawing_has_pixels_enough(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8", newline="\n")
    (tmp_path / "shaded.svg").write_text(SHADED, encoding="utf-8", newline="\n")
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)
    found = check_job(CheckRequest(tmp_path / "job.toml", None), bench, Watch()).findings
    assert [one for one in found if one.rule == "picture-ppi"] == []
