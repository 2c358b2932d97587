"""The one place where the real folders, pool and clock are put together."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from wrapwright.jobs.bench import Bench, Folders, Watch
from wrapwright.outside.store.place import Store
from wrapwright.outside.system.clock.steady import SteadyClock
from wrapwright.outside.system.pool import open_pool


def open_bench(*, cache: Path, data: Path, fonts: Path, threads: int) -> Bench:
    """Return a bench on this machine; no folder is made before something is written to it, nor is the store opened."""
    folders, pool = Folders(cache, data, fonts), open_pool(threads)
    return Bench(folders, pool, SteadyClock(), threads, store=Store(data))


def open_watch(progress: Callable[[str, float], None]) -> Watch:
    """Return a watch that tells `progress` (words, share 0..1); Ctrl-C is what stops a run of the command line."""
    return Watch(progress=progress)
