"""A small list with a picture of its own in some rows, and the files that its serial making leaves."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PIL import Image

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.open_bench import open_bench

JOB = """format = 1
[blank]
kind = "straight"
girth = 100
wall = 60
[sheet]
ppi = 100
[[element]]
kind = "text"
name = "name"
text = "{name}"
width = "24 mm"
height = "10 mm"
[[element]]
kind = "picture"
name = "pet"
file = "../pets/none.png"
width = "12 mm"
at = "back"
[names]
file = "crew.csv"
[names.fields]
name = "First name"
[names.pictures]
pet = "Pet"
"""
ROWS = 40

Kept = Callable[[str], Bench]


def write_job(folder: Path) -> Path:
    """Return the path of a job file that names a picture above it, and in its list one beside it."""
    (folder / "job").mkdir()
    (folder / "pets").mkdir()
    for name, colour in (("pets/none", "#ffffff"), ("job/cat", "#884400")):
        Image.new("RGB", (120, 100), colour).save(folder / f"{name}.png")
    pets = ["", "", "cat.png", "", ""]
    lines = [f"Ada {number},{pets[number % len(pets)]}" for number in range(ROWS)]
    (folder / "job" / "crew.csv").write_text("\n".join(["First name,Pet", *lines]) + "\n", encoding="utf-8")
    (folder / "job" / "regatta.toml").write_text(JOB, encoding="utf-8")
    return folder / "job" / "regatta.toml"


def hashes(folder: Path, pattern: str = "*") -> dict[str, str]:
    return {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in folder.glob(pattern)}


@pytest.fixture(scope="session")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Kept:
    """Return the function that opens a bench of its own by name."""
    base = tmp_path_factory.mktemp("spread-benches")

    def bench(name: str) -> Bench:
        data = base / name / "data"
        return open_bench(cache=base / name / "cache", data=data, fonts=data / "fonts", threads=1)

    return bench


@pytest.fixture(scope="session")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_job(tmp_path_factory.mktemp("spread-job"))


@contextmanager
def without_papers() -> Iterator[None]:
    """Leave out proof, ticket and the rest: they are made here, and take longer than a list so small."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("wrapwright.jobs.names.making.papers.papers_of", lambda *_: iter(()))
        yield


@pytest.fixture(autouse=True)
def no_papers() -> Iterator[None]:
    """Every test of this folder goes without papers, and no other does."""
    with without_papers():
        yield


@pytest.fixture(scope="session")
def serial(job: Path, kept: Kept, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The hashes of what is left by the list made here, piece after piece."""
    folder = tmp_path_factory.mktemp("spread-serial") / "out"
    with without_papers():
        make_names(MakeNames(job, folder, seconds=0.0), kept("serial"), Watch())
    return hashes(folder)
