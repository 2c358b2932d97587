"""Timers: how far a heat's remaining time is off after an hour, after a set clock, and after a killed server.

The hour is not waited for. The machine's counter is the one of the system the bench runs on, read twice some seconds
apart against the wall clock that the network keeps: what they differ by, for an hour, is its drift. An hour's heat with
an event each minute, the clock set between any two, is then told by that many programs, each knowing only the store.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater
from wrapwright.jobs.press.run.happening import tell_event
from wrapwright.jobs.press.run.showing import show_heat
from wrapwright.jobs.press.run.starting import start_heat
from wrapwright.jobs.press.run.values import ShowHeat, StartHeat, TellEvent
from wrapwright.outside.system.clock.steady import SteadyClock, ticks

LIMIT_S = 0.2
HOUR_S = 3600.0
WIDE = 60
SERVE = "from wrapwright.faces.cli.entry import main; main()"
SEED = 20260502


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (as the bench calls it)
    """Return the rows: what, how far off in s, the limit."""
    return [_counter(5.0 if quick else 30.0), *_hour(), *_killed(20.0 if not quick else 5.0)]


def _row(what: str, off_s: float, limit: str = f"< {LIMIT_S:g} s") -> str:
    return f"{what:<{WIDE}} {off_s:>10.4f} s   {limit}{'' if abs(off_s) < LIMIT_S else '   OVER'}"


def _counter(seconds: float) -> str:
    """Return how far the counter runs from the wall clock in an hour, from some seconds of both."""
    offsets, start = list[tuple[float, float]](), time.time()
    while time.time() - start < seconds:
        before = ticks()
        wall = time.time()
        offsets.append((wall - start, wall - (before + ticks()) / 2.0))
        time.sleep(0.05)
    middle = sum(at for at, _ in offsets) / len(offsets)
    slope = sum((at - middle) * off for at, off in offsets) / sum((at - middle) ** 2 for at, _ in offsets)
    return _row(f"counter against the wall clock, {seconds:g} s, for an hour", slope * HOUR_S)


@dataclass
class _Machine:
    """A machine whose wall clock is set and whose programs end and begin."""

    wall: datetime
    counter: float = 5000.0

    def clock(self) -> SteadyClock:
        return SteadyClock(lambda: self.wall, lambda: self.counter, "one start")

    def passes(self, seconds: float) -> None:
        self.wall += timedelta(seconds=seconds)
        self.counter += seconds


def _hour() -> Iterator[str]:
    """Yield how far an hour's dwell is off: told minute by minute, by ever new programs, the clock set in between."""
    import numpy as np

    dice = np.random.default_rng(SEED)
    with tempfile.TemporaryDirectory() as place:
        machine = _Machine(datetime(2026, 5, 2, 9, 0, tzinfo=UTC))
        _furnish(Path(place))
        heat = start_heat(_asked(dwell_s=HOUR_S), bench := _bench(place, machine), Watch()).id
        tell_event(TellEvent(heat, "loaded"), bench, Watch())
        worst, passed = 0.0, 0.0
        for _ in range(59):
            step = float(dice.uniform(40.0, 60.5))
            machine.passes(step)
            passed += step
            bench.kept().close()
            bench = _bench(place, machine)
            told = tell_event(TellEvent(heat, "turned"), bench, Watch())
            worst = max(worst, abs((told.remaining_s or 0.0) - (HOUR_S - passed)))
            machine.wall += timedelta(seconds=float(dice.uniform(-7200.0, 7200.0)))
        machine.passes(HOUR_S - passed)
        told = show_heat(ShowHeat(heat), bench, Watch())
        yield _row("an hour, 59 new programs, the clock set 59 times: worst", worst)
        yield _row("the same, at its end", (told.remaining_s or 0.0) - (told.over_s or 0.0))
        bench.kept().close()


def _killed(seconds: float) -> Iterator[str]:
    """Yield how far remaining times are off after a real server was killed and started again."""
    with tempfile.TemporaryDirectory() as place:
        _furnish(Path(place))
        with _serving(place) as (process, address):
            heat = int(_answer(address, "/press/heats", {"heater": "Oven", "recipe": "ceramic-oven", "count": 1})["id"])
            _answer(address, f"/press/heats/{heat}/events", {"kind": "loaded"})
            one, left = _seen(address, heat)
            process.kill()
        down = time.monotonic()
        time.sleep(seconds)
        with _serving(place) as (_, address):
            other, rest = _seen(address, heat)
        yield _row(f"killed, {other - down:.0f} s later asked anew", rest - (left - (other - one)))


def _seen(address: str, heat: int) -> tuple[float, float]:
    """Return a moment of our own clock and the remaining time then, by the quickest of nine answers."""
    found = []
    for _ in range(9):
        before = time.monotonic()
        left = float(_answer(address, f"/press/heats/{heat}")["remaining_s"])
        after = time.monotonic()
        found.append((after - before, (before + after) / 2.0, left))
    return min(found)[1:]


def _furnish(place: Path) -> None:
    bench = open_bench(cache=place / "cache", data=place, fonts=place / "fonts", threads=1)
    keep_heater(KeepHeater("Oven", "oven", 1500.0, 4), bench, Watch())
    bench.kept().close()


def _bench(place: str, machine: _Machine) -> Bench:
    data = Path(place)
    bench = open_bench(cache=data / "cache", data=data, fonts=data / "fonts", threads=1)
    return replace(bench, clock=machine.clock())


def _asked(**more: Any) -> StartHeat:
    return StartHeat("Oven", "ceramic-oven", count=1, **more)


@contextmanager
def _serving(place: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    process = subprocess.Popen(
        [sys.executable, "-c", SERVE, "serve", "--port", "0"],
        env={**os.environ, "WRAPWRIGHT_DATA": place, "WRAPWRIGHT_CACHE": str(Path(place) / "cache")},
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    try:
        assert process.stdout is not None
        yield process, process.stdout.readline().strip().rstrip("/")
    finally:
        process.kill()
        process.communicate()


def _answer(address: str, path: str, body: dict[str, Any] | None = None) -> Any:
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(f"{address}/api{path}", data, {"Content-Type": "application/json"})
    with urllib.request.urlopen(request, timeout=60) as answer:
        return json.load(answer)
