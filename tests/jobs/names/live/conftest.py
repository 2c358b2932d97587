"""A bench with a store of its own, and a design whose texts take two fields."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from tests.jobs.names.live.given import QUIET, checked, crew

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.live.keeping import BringList, bring_list
from wrapwright.jobs.open_bench import open_bench

Listed = Callable[..., int]


@pytest.fixture(scope="session")
def read_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One cache for all: a table is read through but once."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def bench(tmp_path: Path, read_once: Path) -> Iterator[Bench]:
    data = tmp_path / "data"
    made = open_bench(cache=read_once, data=data, fonts=data / "fonts", threads=1)
    yield made
    made.kept().close()


@pytest.fixture
def listed(bench: Bench, tmp_path: Path) -> Listed:
    """Give a function that returns a design with a list of this text, checked to its end."""

    def made(text: str, **how: object) -> int:
        design = crew(bench)
        file = tmp_path / "crew.csv"
        file.write_text(text, encoding="utf-8", newline="")
        bring_list(BringList(design, "crew.csv", file, how), bench, QUIET)
        checked(design, bench)
        return design

    return made
