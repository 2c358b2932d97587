"""What is installed under our own name."""

from __future__ import annotations


def version() -> str:
    """Return the installed version of wrapwright."""
    from importlib.metadata import version as installed

    return installed("wrapwright")
