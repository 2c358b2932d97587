"""A bench of one's own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench


@pytest.fixture
def bench(tmp_path: Path, cache: Path) -> Iterator[Bench]:
    data = tmp_path / "data"
    made = open_bench(cache=cache, data=data, fonts=data / "fonts", threads=1)
    yield made
    made.kept().close()


@pytest.fixture(scope="session")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")
