"""A list of names made once, and copies of what it left in which something is changed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.names.proving.values import Flaw, NamesUnprovenError, VerifyNames
from wrapwright.jobs.names.proving.verify import verify_names
from wrapwright.jobs.open_bench import open_bench

JOB = """format = 1
title = "Regatta"
[blank]
kind = "tapered"
girth_top = 92
girth_bottom = 78
wall = 34
[wrap]
seam = "left"
overlap = "4 mm"
bleed = "1 mm"
[sheet]
paper = [152.4, 127]
ppi = 150
[[element]]
kind = "fill"
gradient = { from = "#dde8f0", to = "#88b7c9", along = "up" }
[[element]]
kind = "text"
name = "who"
text = "{name}"
width = "22 mm"
height = "8 mm"
colour = "#7a2e1d"
[[element]]
kind = "text"
name = "club"
text = "Weir Street"
size = "3 mm"
up = "8 mm"
[names]
file = "crew.csv"
quantity = "pieces"
"""
PICTURED = """[names.pictures]
badge = "badge"
[[element]]
kind = "picture"
name = "badge"
file = "photo.png"
width = "12 mm"
at = ["back", "right"]
"""
MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="9" height="9" fill="#204060"/></svg>'
ROWS = ("Ada,1", "Bob,1", "Zoë (2),1", "Łukasz,2", "Cyd,1", "Dora,1", "Eve,1", "Fay,1", "Gus,1", "Håkon,1")

Spoilt = Callable[[Callable[[Path], None]], list[Flaw]]
OWN = re.compile(rb"(?<=cm\n)/CS0 cs [\d. ]+ scn\n[-\d\smlch]+\nf(?=\nQ)")  # a piece's own outlines


@pytest.fixture(scope="session")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    folder = tmp_path_factory.mktemp("proving")
    return open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "fonts", threads=1)


@pytest.fixture(scope="session")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(tmp_path_factory.mktemp("regatta"), JOB, ["name,pieces", *ROWS])


@pytest.fixture(scope="session")
def made(job: Path, bench: Bench) -> Path:
    """Return the folder: 11 pieces of 10 rows on four sheets of three."""
    folder = job.parent / "made"
    make_names(MakeNames(job, folder, seconds=0.0, accept=frozenset({"all"})), bench, Watch())
    return folder


@pytest.fixture(scope="session")
def pictured(tmp_path_factory: pytest.TempPathFactory, bench: Bench) -> Path:
    """Return a folder of three pieces: two with pixels of their own, and one with outlines."""
    folder = tmp_path_factory.mktemp("pictured")
    (folder / "mark.svg").write_text(MARK, encoding="utf-8")
    rows = ["Ada,1,photo.png", "Bob,1,other.png", "Cyd,1,mark.svg"]
    job = written(folder, JOB + PICTURED, ["name,pieces,badge", *rows])
    make_names(MakeNames(job, folder / "made", seconds=0.0, accept=frozenset({"all"})), bench, Watch())
    return folder / "made"


def written(folder: Path, job: str, rows: list[str]) -> Path:
    steps = np.indices((90, 90)).sum(axis=0).astype(np.uint8)
    Image.fromarray(np.stack([steps, 255 - steps, steps], axis=-1)).save(folder / "photo.png")
    Image.fromarray(np.stack([255 - steps, steps, steps], axis=-1)).save(folder / "other.png")
    (folder / "regatta.toml").write_text(job, encoding="utf-8", newline="\n")
    (folder / "crew.csv").write_text("\n".join(rows) + "\n", encoding="utf-8", newline="\n")
    return folder / "regatta.toml"


@pytest.fixture
def spoilt(made: Path, bench: Bench, tmp_path: Path, job: Path) -> Spoilt:
    """Return the function that changes something in a copy and returns the flaws that are found, none for none."""

    def spoil(change: Callable[[Path], None]) -> list[Flaw]:
        folder = tmp_path / "made"
        shutil.copytree(made, folder)
        change(folder)
        try:
            return list(verify_names(VerifyNames(folder, job), bench, Watch()).flaws)
        except NamesUnprovenError as found:
            return [one for one in found.verified.flaws if "its content was changed" not in one.words]

    return spoil


def contents(folder: Path, change: Callable[[list[bytes]], list[bytes]]) -> None:
    """Change the content of all pages of the sheets."""
    with pikepdf.open(folder / "sheets.pdf", allow_overwriting_input=True) as pdf:
        before = [b"\n".join(one.read_bytes() for one in page.obj.Contents) for page in pdf.pages]
        for page, body in zip(pdf.pages, change(before), strict=True):
            page.Contents = pikepdf.Array([pikepdf.Stream(pdf, body)])
        pdf.save(folder / "sheets.pdf")


def words(flaws: list[Flaw]) -> str:
    return "\n".join(one.words for one in flaws)
