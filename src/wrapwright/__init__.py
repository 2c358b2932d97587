"""Wrapwright: from a measured blank and a picture to a transfer that lands where it should."""

from __future__ import annotations


def version() -> str:
    """Return the installed version."""
    from importlib.metadata import version as installed

    return installed("wrapwright")
