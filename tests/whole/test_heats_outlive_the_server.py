"""A server that is killed while heats run: after its new start every heat has the remaining time that it should."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

PATIENCE_S = 60
CODE = "from wrapwright.faces.cli.entry import main; main()"
WITHIN_S = 0.2


@contextmanager
def serving(data: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Give a server's process and its address; the process is killed at the end, whatever it does."""
    process = subprocess.Popen(
        [sys.executable, "-c", CODE, "serve", "--port", "0"],
        env={**os.environ, "WRAPWRIGHT_DATA": str(data), "WRAPWRIGHT_CACHE": str(data / "cache")},
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    try:
        assert process.stdout is not None
        yield process, process.stdout.readline().strip().rstrip("/")
    finally:
        process.kill()  # on POSIX SIGKILL: nothing can be put in order before it
        process.communicate()


def asked(address: str, path: str, body: dict[str, Any] | None = None) -> Any:
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(f"{address}/api{path}", data, {"Content-Type": "application/json"})
    with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
        return json.load(answer)


def begun(address: str, heater: int, *events: str, **more: Any) -> int:
    body = {"heater": heater, "recipe": "ceramic-oven", "count": 1, **more}
    heat = int(asked(address, "/press/heats", body)["id"])
    for kind in events:
        asked(address, f"/press/heats/{heat}/events", {"kind": kind})
    return heat


def seen(address: str, heat: int) -> tuple[float, Any]:
    """Return the moment of our own clock that an answer was made at, and the answer: the quickest of three."""
    found = []
    for _ in range(3):
        before = time.monotonic()
        told = asked(address, f"/press/heats/{heat}")
        after = time.monotonic()
        found.append((after - before, (before + after) / 2.0, told))
    _, moment, told = min(found, key=lambda one: one[0])
    return moment, told


@pytest.fixture(scope="module")
def ovens(tmp_path_factory: pytest.TempPathFactory) -> Path:
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.open_bench import open_bench
    from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater

    data = tmp_path_factory.mktemp("killed")
    bench = open_bench(cache=data / "cache", data=data, fonts=data / "fonts", threads=1)
    for number in range(1, 6):
        keep_heater(KeepHeater(f"Oven {number}", "oven", 1500.0, 4), bench, Watch())
    bench.kept().close()
    return data


def test_killed_in_any_phase_the_right_time_remains(ovens: Path) -> None:
    with serving(ovens) as (process, address):
        heats = {
            "preheat": begun(address, 1, preheat=True),
            "loading": begun(address, 2),
            "dwell": begun(address, 3, "loaded", dwell_s=700.0),
            "cool": begun(address, 4, "loaded", "taken-out"),
            "short": begun(address, 5, "loaded", dwell_s=10.0),
        }
        asked(address, f"/press/heats/{heats['dwell']}/events", {"kind": "door-opened"})
        before = {phase: seen(address, heat) for phase, heat in heats.items()}
        assert {told["phase"] for _, told in before.values()} == {"preheat", "loading", "dwell", "cool"}
        process.kill()
        process.wait(PATIENCE_S)
    with serving(ovens) as (_, address):
        for phase, heat in heats.items():
            (one, was), (other, told) = before[phase], seen(address, heat)
            assert (told["phase"], told["revision"]) == (told["phase"] if phase == "short" else phase, was["revision"])
            assert told["events"] == was["events"]
            passed = other - one
            if was["remaining_s"] is None:
                assert told["remaining_s"] is None
                continue
            left = told["remaining_s"] - (told["over_s"] or 0.0)
            assert left == pytest.approx(was["remaining_s"] - passed, abs=WITHIN_S)
        door = asked(address, f"/press/heats/{heats['dwell']}")
        assert door["door_open"]
        assert asked(address, f"/press/heats/{heats['dwell']}/events", {"kind": "taken-out"})["phase"] == "cool"
