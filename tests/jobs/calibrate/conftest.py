"""A bench of one's own with one set-up: the Letter printer on the desk, never calibrated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.core.design.path import rectangle
from wrapwright.core.sheet.marks import SetLabel
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.open_bench import open_bench


@pytest.fixture(autouse=True)
def no_fonts(monkeypatch: pytest.MonkeyPatch) -> None:
    """Set words as boxes of their size: what is tested here are marks, figures and sentences."""

    def labels(_bench: Bench) -> SetLabel:
        return lambda text, cap: rectangle(0.0, 0.0, 0.62 * cap * len(text), cap)

    monkeypatch.setattr("wrapwright.jobs.calibrate.target.labels", labels)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = with_desk(tmp_path)
    yield made
    made.kept().close()


@pytest.fixture(scope="module")
def steady(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """Give a bench for tests that change nothing on it."""
    made = with_desk(tmp_path_factory.mktemp("steady"))
    yield made
    made.kept().close()


def with_desk(folder: Path) -> Bench:
    data = folder / "data"
    made = replace(
        open_bench(cache=folder / "cache", data=data, fonts=data / "fonts", threads=1),
        clock=lambda: datetime(2026, 6, 10, 12, 0, tzinfo=UTC),
    )
    add_setup(AddSetup("Desk", {"paper": "Letter", "thickness": "0.12 mm"}, {}), made, Watch())
    return made
