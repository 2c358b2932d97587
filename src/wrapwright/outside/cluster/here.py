"""Where a function that a cluster runs is: the worker's own folder and name."""

from __future__ import annotations

from pathlib import Path


def worker_folder() -> Path:
    """Return the folder that the worker in which this runs keeps for itself, empty when it began."""
    from distributed import get_worker

    return Path(get_worker().local_directory) / "wrapwright"


def worker_name() -> str:
    """Return the address of the worker in which this runs, in words where it is none."""
    from distributed import get_worker

    try:
        return str(get_worker().address)
    except ValueError:
        return "on this machine"
