"""Forgetting: what nothing refers to any more is removed wherever it lies, and no longer held in memory."""

from __future__ import annotations

from wrapwright.jobs.bench import Bench


def forget(bench: Bench) -> None:
    """Remove the files that nothing in the store refers to any more, and what was made of them.

    That lies in the cache, and in the bench's memory, which is emptied whole: the rest is soon worked out again.
    """
    from wrapwright.outside.images.reading import forget_art
    from wrapwright.outside.store.contents import tidy
    from wrapwright.outside.tables.indexed import forget_table

    for sha256 in tidy(bench.kept()):
        forget_art(sha256, cache=bench.folders.cache)
        forget_table(sha256, bench.folders.cache)
    bench.recent.forget()
