"""A bench with three designs: a straight wrap, a tag and a round coaster."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.open_bench import open_bench

QUIET = Watch()
SHEET = {"paper": "A4", "ppi": 100}
FILL = [{"kind": "fill", "colour": "#0e3a5a"}]


def document(title: str, **blank: str) -> dict[str, object]:
    return {"format": 1, "title": title, "blank": blank, "sheet": SHEET, "element": FILL}


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = open_bench(cache=tmp_path / "cache", data=tmp_path / "data", fonts=tmp_path / "fonts", threads=1)
    for one in (
        document("Cup", kind="straight", flat="180 mm", wall="60 mm"),
        document("Tag", kind="flat", width="50 mm", height="30 mm"),
        document("Coaster", kind="flat", circle="90 mm"),
    ):
        new_design(NewDesign(str(one["title"]), one), made, QUIET)
    yield made
    made.kept().close()
