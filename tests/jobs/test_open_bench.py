"""The real bench: the folders it was told, a pool of the size it was told, a clock with a time zone."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.opening import bench_of, open_settings
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.open_bench import open_bench, open_watch
from wrapwright.outside.system.pool import HerePool, ProcessPool


def test_it_is_what_it_was_told(tmp_path: Path) -> None:
    bench = open_bench(cache=tmp_path / "c", data=tmp_path / "d", fonts=tmp_path / "f", threads=3)
    assert bench.folders.fonts == tmp_path / "f"
    assert bench.pool == ProcessPool(3)
    assert abs(bench.clock() - datetime.now(UTC)) < timedelta(seconds=5)
    assert list(tmp_path.iterdir()) == []


def test_the_settings_reach_it(tmp_path: Path) -> None:
    bench = bench_of(open_settings({"cache": str(tmp_path), "threads": 1}))
    assert bench.folders.cache == tmp_path
    assert bench.pool == HerePool()


def test_a_watch_tells_and_stops() -> None:
    heard: list[tuple[str, float]] = []
    open_watch(lambda words, share: heard.append((words, share))).step("drawing", 0.25)
    assert heard == [("drawing", 0.25)]
    with pytest.raises(WrapwrightError) as caught:
        Watch(cancelled=lambda: True).step("drawing", 0.5)
    assert caught.value.kind is Kind.STOPPED
