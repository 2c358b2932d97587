"""From settings to a bench: what every face does before it calls a job."""

from __future__ import annotations

from collections.abc import Mapping

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.open_bench import open_bench
from wrapwright.outside.system.folders import config_file, default_folders
from wrapwright.outside.system.pool import usable_cores
from wrapwright.settings import Settings, read_settings


def open_settings(options: Mapping[str, str | int] | None = None) -> Settings:
    """Return the settings of this person on this machine, options last."""
    return read_settings({**default_folders(), "threads": usable_cores()}, config_file(), None, options)


def bench_of(settings: Settings) -> Bench:
    """Return the bench that the settings describe."""
    return open_bench(
        cache=settings.cache.value,
        data=settings.data.value,
        fonts=settings.fonts.value,
        threads=settings.threads.value,
    )
