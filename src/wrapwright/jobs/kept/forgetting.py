"""Forgetting: what nothing refers to any more is removed wherever it lies, and no longer held in memory."""

from __future__ import annotations

import shutil
from pathlib import Path

from wrapwright.jobs.bench import Bench


def forget(bench: Bench) -> None:
    """Remove the files that nothing in the store refers to any more, and what was made of them.

    That lies in the cache, and in the bench's memory, which is emptied whole: the rest is soon worked out again.
    """
    forget_files(bench)
    bench.recent.forget()


def forget_files(bench: Bench) -> None:
    """Remove the files that nothing in the store refers to any more, and what lies of them in the cache."""
    from wrapwright.outside.images.reading import forget_art
    from wrapwright.outside.store.contents import tidy
    from wrapwright.outside.tables.indexed import forget_table

    for sha256 in tidy(bench.kept()):
        forget_art(sha256, cache=bench.folders.cache)
        forget_table(sha256, bench.folders.cache)
        _forget_runs(sha256, bench.folders.cache)


def _forget_runs(sha256: str, cache: Path) -> None:
    """Remove the runs that were made of a table, finished or not: they hold its names."""
    for mark in (cache / "lists").glob(f"*/{sha256}.table"):
        shutil.rmtree(mark.parent, ignore_errors=True)
