"""Lists of names small enough to be made many times."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench

SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="{}"/></svg>'
HEAD = """format = 1
title = "Regatta"
[blank]
kind = "{kind}"
{readings}
[wrap]
seam = "left"
overlap = "4 mm"
bleed = "1 mm"
[sheet]
paper = [152.4, 127]
ppi = 144
[[element]]
kind = "fill"
name = "sky"
gradient = {{ from = "#dde8f0", to = "#88b7c9", along = "up" }}
"""
READINGS = {
    "straight": "girth = 90\nwall = 34",
    "tapered": "girth_top = 92\ngirth_bottom = 78\nwall = 34",
}
TEXT = """[[element]]
kind = "text"
name = "who"
text = "{name}"
width = "30 mm"
height = "8 mm"
colour = "#7a2e1d"
"""

Written = Callable[..., Path]


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    data = tmp_path / "data"
    return open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1)


@pytest.fixture
def written(tmp_path: Path) -> Written:
    """Return the function that writes a job, its list and its pictures."""

    def write(elements: str, rows: str, names: str = "", kind: str = "straight") -> Path:
        folder = tmp_path / "job"
        folder.mkdir(exist_ok=True)
        for colour in ("red", "blue"):
            (folder / f"{colour}.svg").write_text(SQUARE.format(colour), encoding="utf-8")
        steps = np.indices((40, 40)).sum(axis=0).astype(np.uint8)
        Image.fromarray(np.stack([steps * 3, 255 - steps * 3, steps], axis=-1)).save(folder / "photo.png")
        Image.fromarray(np.stack([255 - steps, steps * 3, steps * 2], axis=-1)).save(folder / "other.png")
        job = HEAD.format(kind=kind, readings=READINGS[kind]) + elements + f'[names]\nfile = "crew.csv"\n{names}'
        (folder / "regatta.toml").write_text(job, encoding="utf-8", newline="\n")
        (folder / "crew.csv").write_text(rows, encoding="utf-8", newline="\n")
        return folder / "regatta.toml"

    return write
