"""Forgetting: what nothing refers to any more is removed wherever it lies."""

from __future__ import annotations

from wrapwright.jobs.bench import Bench


def forget(bench: Bench) -> None:
    """Remove the files that nothing in the store refers to any more, and what was read from them into the cache."""
    from wrapwright.outside.images.reading import forget_art
    from wrapwright.outside.store.contents import tidy

    for sha256 in tidy(bench.kept()):
        forget_art(sha256, cache=bench.folders.cache)
