"""A bench with one oven, and a log of a heat-up in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest

from wrapwright.core.press.fit.curves import approach, wall_in_approach
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater

NOW = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    data = tmp_path / "data"
    opened = open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1)
    made = replace(opened, clock=lambda: NOW)
    keep_heater(KeepHeater("Left", "oven", 1500.0, 4), made, Watch())
    yield made
    made.kept().close()


@pytest.fixture
def log(tmp_path: Path) -> Path:
    """Give a log of 0.5 mm steel, 80 s, in an oven of 100 s that reads 206 C at 200 C set."""
    times = np.arange(0.0, 800.0)
    noise = np.random.default_rng(12).normal(0.0, 0.5, (2, 800))
    air = approach(times, 206.0, 25.0, 100.0) + noise[0]
    wall = wall_in_approach(times, (206.0, 25.0, 100.0), 25.0, 80.0) + noise[1]
    file = tmp_path / "heat-up.csv"
    lines = ["time_s,air_c,wall_c", *(f"{t:.0f},{a:.2f},{w:.2f}" for t, a, w in zip(times, air, wall, strict=True))]
    file.write_text("\n".join(lines), encoding="utf-8")
    return file
