"""A bench of one's own, with a clock that ticks a second at each look."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench

START = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    data, ticks = tmp_path / "data", count(1)
    opened = open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1)
    made = replace(opened, clock=lambda: START + timedelta(seconds=next(ticks)))
    yield made
    made.kept().close()
