"""Whole `wrapwright make` of the demo's job, warm: wall and CPU seconds, peak memory, and where the time goes."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from importlib.resources import as_file, files
from itertools import pairwise
from pathlib import Path

LIMIT_S = 3.0  # wall, on two cores


def main(*, quick: bool) -> None:
    """Print the figures of fresh processes, and the steps of one of them."""
    repeats = 3 if quick else 7
    with tempfile.TemporaryDirectory() as name, as_file(files("wrapwright.data").joinpath("demo")) as demo:
        folder = Path(name)
        home = {key: str(folder / key) for key in ("WRAPWRIGHT_CACHE", "WRAPWRIGHT_DATA", "WRAPWRIGHT_FONTS")}
        os.environ.update(home)
        rows = [_once(demo / "job.toml", folder / "out") for _ in range(repeats + 1)][1:]
        walls = [row[0] for row in rows]
        print(f"cores {os.cpu_count()}, load {os.getloadavg()[0] if hasattr(os, 'getloadavg') else -1:.1f}")
        middle, cpu = statistics.median(walls), statistics.median(row[1] for row in rows)
        print(
            f"whole make of the demo, warm: wall s {middle:.2f} median of {repeats}, {min(walls):.2f} to "
            f"{max(walls):.2f} (limit {LIMIT_S:.0f}); CPU s {cpu:.2f}; peak MB {max(row[2] for row in rows):.0f}"
        )
        _steps(demo / "job.toml", folder / "steps")


def _once(job: Path, out: Path) -> tuple[float, float, float]:
    import psutil

    start = time.perf_counter()
    command = [sys.executable, "-m", "wrapwright", "make", str(job), "-o", str(out), "--force", "-q"]
    child = psutil.Popen(command, stdout=subprocess.DEVNULL)
    cpu = peak = 0.0
    while child.poll() is None:
        try:
            used = child.cpu_times()
            cpu, peak = used.user + used.system, max(peak, child.memory_info().rss / 2**20)
        except psutil.Error:
            break
        time.sleep(0.01)
    if child.wait() != 0:
        raise SystemExit("make failed")
    return time.perf_counter() - start, cpu, peak


def _steps(job: Path, out: Path) -> None:
    """Print the seconds between the steps that a run tells its watcher, in this process, imports in."""
    from wrapwright import MakeRequest, Watch, make_sheets, open_bench

    marks: list[tuple[float, str]] = []
    watch = Watch(progress=lambda words, _share: marks.append((time.perf_counter(), words)))
    bench = open_bench()
    for turn in ("first in its process", "second"):
        marks.clear()
        make_sheets(MakeRequest(job, None, out, force=True), bench, watch)
        marks.append((time.perf_counter(), ""))
        told = ", ".join(f"{words} {after[0] - at:.2f}" for (at, words), after in pairwise(marks))
        print(f"steps, wall s ({turn}): {told}")


if __name__ == "__main__":
    main(quick="--quick" in sys.argv)
