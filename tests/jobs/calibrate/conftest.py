"""A bench of one's own with one set-up: the Letter printer on the desk, never calibrated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.open_bench import open_bench


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    data = tmp_path / "data"
    made = replace(
        open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1),
        clock=lambda: datetime(2026, 6, 10, 12, 0, tzinfo=UTC),
    )
    add_setup(AddSetup("Desk", {"paper": "Letter", "thickness": "0.12 mm"}, {}), made, Watch())
    yield made
    made.kept().close()
