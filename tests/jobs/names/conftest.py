"""A job with a list of names, and a bench to check it on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench

JOB = """format = 1
[blank]
kind = "straight"
girth = 235
wall = 165
[[element]]
kind = "text"
name = "name"
text = "{name}"
width = "60 mm"
height = "16 mm"
[[element]]
kind = "text"
name = "team"
text = "Team {Team}"
size = "6 mm"
up = "30 mm"
colour = "#000000"
[[element]]
kind = "picture"
name = "crest"
file = "crest.svg"
width = "30 mm"
at = "back"
[names]
file = "crew.csv"
quantity = "Pieces"
[names.fields]
name = "First name"
"""
CREST = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10"/></svg>'
HEADER = "First name,Team,Pieces"

Given = Callable[..., Path]


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    data = tmp_path / "data"
    return open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1)


@pytest.fixture
def given(tmp_path: Path) -> Given:
    """Return the function that writes a job with these rows, and more in its [names]."""

    def write(*rows: str, more: str = "", header: str = HEADER, job: str = JOB) -> Path:
        (tmp_path / "crest.svg").write_text(CREST, encoding="utf-8")
        (tmp_path / "crew.csv").write_text("\n".join([header, *rows]) + "\n", encoding="utf-8", newline="\n")
        (tmp_path / "regatta.toml").write_text(job + more, encoding="utf-8", newline="\n")
        return tmp_path / "regatta.toml"

    return write
