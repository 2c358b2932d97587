"""The bench in a browser: frames while dragging, drop to proof, key to drawing or row, first load, upload, requests.

Debian's Chromium draws without a graphics card here (software GL); each figure stands beside its limit, and the times
beside what the same browser or server does with nothing to do.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from benchmarks import _web_pages as pages

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def main(*, quick: bool) -> None:
    """Print every figure of the page."""
    from playwright.sync_api import sync_playwright

    load = f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "unknown"
    print(f"cores {os.cpu_count()}, load {load}")
    with tempfile.TemporaryDirectory() as name, served(Path(name)) as (url, process), sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=list(FLAGS))
        context = browser.new_context(viewport={"width": 1440, "height": 900}, bypass_csp=True, base_url=url)
        page = context.new_page()
        first_loads(browser, url, 2 if quick else 5)
        measuring(page, 12 if quick else 40)
        dragging(page, "the example, 9 elements", "/designs/1", 60 if quick else 180)
        drops(page, "/designs/1", 6 if quick else 25)
        many = pages.twenty(page)
        dragging(page, "20 elements", f"/designs/{many}", 60 if quick else 180)
        drops(page, f"/designs/{many}", 6 if quick else 25)
        previewing(page, 500 if quick else 5000, 15 if quick else 60)
        uploading(page, process, Path(name), 20 if quick else 100)
        beside_a_sheet(page, 40 if quick else 150)
        browser.close()


@contextmanager
def served(folder: Path) -> Iterator[tuple[str, Any]]:
    """Give the address of a bench with the example on it, and its process."""
    import psutil

    home = {f"WRAPWRIGHT_{key.upper()}": str(folder / key) for key in ("cache", "data", "fonts")}
    words = [sys.executable, "-m", "wrapwright", "serve", "--demo", "--port", "0", "--no-open"]
    process = psutil.Popen(
        words, env={**os.environ, **home}, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    try:
        yield process.stdout.readline().strip().split("/designs")[0].rstrip("/"), process
    finally:
        process.terminate()
        process.wait(20)


def told(values: Sequence[float]) -> str:
    """Return median and 95th percentile in words."""
    ordered = sorted(values)
    late = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    return f"p50 {statistics.median(ordered):.0f}, p95 {late:.0f}, most {ordered[-1]:.0f}"


def first_loads(browser: Any, url: str, repeats: int) -> None:
    """Print bytes on the wire without pictures, and first contentful paint, with nothing cached."""
    for name, path in (("shelf", "/"), ("measure", "/measure"), ("compose", "/designs/1")):
        rows = [pages.first_load(browser, url + path) for _ in range(repeats)]
        print(
            f"first load, {name}: {rows[0][0] / 1000:.0f} kB on the wire without pictures (limit 200) in "
            f"{rows[0][1]} requests; first paint ms {told([row[2] for row in rows])} (limit 300)"
        )


def measuring(page: Any, keys: int) -> None:
    """Print ms from a key in a reading's field to the new drawing on the page."""
    page.goto("/measure?starter=" + pages.starter(page))
    page.locator("#flat-drawing svg").wait_for()
    print(f"key in Measure to new drawing, ms: {told(page.evaluate(pages.KEYS, keys))} (limit 50)")


def dragging(page: Any, name: str, path: str, moves: int) -> None:
    """Print frames a second while a copy is dragged, one move a frame, the turning view following."""
    pages.opened(page, path)
    idle = page.evaluate(pages.IDLE, moves)
    sent: list[str] = []
    page.on("request", hear := lambda request: sent.append(request.method))
    frames = page.evaluate(pages.DRAG, moves)
    page.wait_for_function("() => document.getElementById('saved').dataset.state === 'saved'")
    page.remove_listener("request", hear)
    fps, still = 1000 * len(frames) / sum(frames), 1000 * len(idle) / sum(idle)
    print(
        f"dragging, {name}: {fps:.1f} frames/s (an idle page {still:.1f}; limit 60), frame ms {told(frames)}; "
        f"saves sent {sent.count('PUT')} (limit 1)"
    )


def drops(page: Any, path: str, repeats: int) -> None:
    """Print ms from a drop to the server's new proof drawn on the piece."""
    pages.opened(page, path)
    print(f"drop to new proof on the piece, ms: {told(page.evaluate(pages.DROPS, repeats))} (limit p95 250)")


def previewing(page: Any, rows: int, keys: int) -> None:
    """Print ms from an arrow key to the row's piece drawn in the turning view, while a list is checked and after."""
    for state in pages.listed(page, rows):
        times = page.evaluate(pages.ROWS, keys)
        print(f"arrow key to the row's piece, {rows} rows, {state}, ms: {told(times)} (limit p95 300)")


def uploading(page: Any, process: Any, folder: Path, megabytes: int) -> None:
    """Print how the server's memory grows while a large picture comes in, and until it is drawn on the wrap."""
    file = pages.large_picture(folder, megabytes)
    pages.opened(page, "/designs/1")
    before = own_mb(process)
    kept: list[float] = []
    hear = pages.when_kept(page, lambda: kept.append(time.perf_counter()))
    with watched(lambda: (time.perf_counter(), own_mb(process))) as seen:
        start = time.perf_counter()
        shares = pages.bring(page, file)
        took = time.perf_counter() - start
    page.remove_listener("requestfinished", hear)
    coming = max(used for at, used in seen if at <= kept[0])
    print(
        f"upload of {file.stat().st_size / 1e6:.0f} MB in {kept[0] - start:.1f} s: server MB {before:.0f} before, "
        f"{coming:.0f} at most until it was kept ({coming - before:+.0f}), progress shown {shares} times; "
        f"on the wrap after {took:.1f} s, {max(used for _, used in seen):.0f} MB at most"
    )


def own_mb(process: Any) -> float:
    """Return the MB a process holds of its own; files that it maps are the system's to take back (Linux knows them)."""
    status = Path(f"/proc/{process.pid}/status")
    if not status.exists():
        return float(process.memory_full_info().uss) / 2**20
    rows = dict(line.split(":", 1) for line in status.read_text(encoding="ascii").splitlines() if ":" in line)
    return int(rows["RssAnon"].split()[0]) / 1024


def beside_a_sheet(page: Any, requests: int) -> None:
    """Print how long other requests take while a sheet is being made, and while nothing is."""
    idle = pages.asked(page, requests)
    pages.begin_making(page)
    busy = pages.asked(page, requests, while_making=True)
    print(f"other requests while a sheet is made, ms: {told(busy)} of {len(busy)} (idle {told(idle)}; limit p95 100)")


@contextmanager
def watched(read: Callable[[], tuple[float, float]]) -> Iterator[list[tuple[float, float]]]:
    """Give a list that fills with readings, 50 a second, until the block ends."""
    seen = [read()]
    over = threading.Event()

    def keep() -> None:
        while not over.wait(0.02):
            seen.append(read())

    thread = threading.Thread(target=keep, daemon=True)
    thread.start()
    try:
        yield seen
    finally:
        over.set()
        thread.join()


if __name__ == "__main__":
    main(quick="--quick" in sys.argv)
