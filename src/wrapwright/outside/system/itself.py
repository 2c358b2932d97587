"""What the installed program knows of itself."""

from __future__ import annotations


def installed_version() -> str:
    """Return the installed version of wrapwright."""
    from importlib.metadata import version

    return version("wrapwright")
