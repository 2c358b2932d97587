"""A bench of one's own, with a clock that ticks a second at each look."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench


class Clock:
    """Ticks a second at each look, so that what came later is later."""

    def __init__(self) -> None:
        self.now = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


@pytest.fixture(scope="session")
def read_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One cache for all: a picture is read by a child but once."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def bench(tmp_path: Path, read_once: Path) -> Iterator[Bench]:
    data = tmp_path / "data"
    made = replace(open_bench(cache=read_once, data=data, fonts=data / "fonts", threads=2), clock=Clock())
    yield made
    made.kept().close()


@pytest.fixture
def other(tmp_path: Path, read_once: Path) -> Iterator[Bench]:
    """Another machine's bench."""
    data = tmp_path / "elsewhere"
    made = open_bench(cache=read_once, data=data, fonts=data / "fonts", threads=2)
    yield made
    made.kept().close()
