"""A mixed order for the tests: a straight wrap, a taper and a tag, with squares at known places."""

from __future__ import annotations

import json
import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image
from tests.witness import need

import wrapwright
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.lay.make_together import make_together
from wrapwright.jobs.lay.requests import MadeTogether, TogetherRequest

SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10"/></svg>'
MUG = """format = 1
title = "Regatta mug"
[blank]
kind = "straight"
girth = "180 mm"
wall = "70 mm"
[wrap]
overlap = "5 mm"
bleed = "1 mm"
[[element]]
kind = "picture"
file = "square.svg"
name = "large"
width = "8 mm"
at = "right"
up = "20 mm"
[[element]]
kind = "picture"
file = "square.svg"
name = "small"
width = "5 mm"
at = "front"
up = "50 mm"
"""
TUMBLER = """format = 1
title = "Tapered cup"
[blank]
kind = "tapered"
girth_top = "230 mm"
girth_bottom = "190 mm"
wall = "75 mm"
[wrap]
overlap = "5 mm"
bleed = "1 mm"
[[element]]
kind = "picture"
file = "square.svg"
name = "large"
width = "8 mm"
at = "right"
up = "20 mm"
[[element]]
kind = "picture"
file = "square.svg"
name = "small"
width = "5 mm"
at = "front"
up = "50 mm"
"""
TAG = """format = 1
title = "Tag"
[blank]
kind = "flat"
width = "45 mm"
height = "60 mm"
[wrap]
bleed = "1 mm"
[[element]]
kind = "fill"
colour = "#dddddd"
opacity = 0.5
[[element]]
kind = "picture"
file = "square.svg"
name = "large"
width = "8 mm"
across = "12 mm"
up = "20 mm"
[[element]]
kind = "picture"
file = "square.svg"
name = "small"
width = "5 mm"
across = "0 mm"
up = "45 mm"
"""
SHEETS = """format = 1
title = "Friday"
[[piece]]
job = "mug.toml"
quantity = 2
order = "A17"
[[piece]]
job = "cup.toml"
quantity = 1
order = "A18"
name = "Ada"
[[piece]]
job = "tag.toml"
quantity = 5
order = "A17"
[sheet]
paper = "Letter"
ppi = 150
margins = "4 mm"
"""
# Where the centres of the squares lie in flat mm as seen: x right of the middle, y up from the lower edge.
# Straight: 180 + pi 0.12 mm go round; the seam is at the left, so the front lies a quarter turn right of it, the right
# side half a turn on, which is the middle. Tapered: on the circle about the apex.


@dataclass
class Kitchen:
    """Makes sheets in folders of its own on one bench."""

    place: Path
    bench: Bench

    def write(self, **files: str) -> Path:
        """Put the jobs and further files into the folder; return it."""
        jobs = {"mug.toml": MUG, "cup.toml": TUMBLER, "tag.toml": TAG, "square.svg": SQUARE, "friday.toml": SHEETS}
        for name, text in {**jobs, **{name.replace("__", "."): text for name, text in files.items()}}.items():
            (self.place / name).write_text(text, encoding="utf-8", newline="\n")
        return self.place

    def make(self, out: str = "out", sheets: str = "friday.toml", **wishes: object) -> MadeTogether:
        """Make sheets of a file in the folder."""
        asked = {"file": self.place / sheets, "seconds": 20.0} | wishes
        return make_together(TogetherRequest(self.place / out, **asked), self.bench, wrapwright.Watch())


def kitchen(place: Path) -> Kitchen:
    """Return a kitchen in an empty folder."""
    bench = wrapwright.open_bench(cache=place / "cache", data=place / "data", fonts=place / "fonts", threads=2)
    (place / "work").mkdir(exist_ok=True)
    made = Kitchen(place / "work", bench)
    made.write()
    return made


def rendered(
    pdf: Path, page: int, dpi: int, place: Path, *, crop: tuple[int, int, int, int] = (0, 0, 0, 0)
) -> np.ndarray:
    """A page, or a crop of it (left, top, width, height in pixels), as poppler draws it; 0 black to 255 white."""
    stem = place / f"page-{page}-{dpi}"
    window = [word for key, value in zip("xyWH", crop, strict=True) for word in (f"-{key}", str(value))]
    command = [
        need("pdftoppm"),
        "-r",
        str(dpi),
        "-gray",
        "-f",
        str(page),
        "-singlefile",
        *(window if any(crop) else []),
    ]
    subprocess.run([*command, str(pdf), str(stem)], check=True)
    return np.asarray(Image.open(stem.with_suffix(".pgm")))


def report_in(folder: Path) -> dict:
    """The report of a folder."""
    return json.loads((folder / "report.json").read_text(encoding="utf-8"))
