"""What is installed under our own name, and what is said when an extra of it is not."""

from __future__ import annotations

from wrapwright.core.base.errors import Kind, WrapwrightError


def version() -> str:
    """Return the installed version of wrapwright."""
    from importlib.metadata import version as installed

    return installed("wrapwright")


def extra_missing(what: str, extra: str) -> WrapwrightError:
    """Return the problem, kind set-up, that `what` needs the extra of this name."""
    remedy = f'Install it in the environment that wrapwright runs in: pip install "wrapwright[{extra}]".'
    return WrapwrightError(Kind.SETUP, f"{what} needs the extra {extra}, which is not installed.", remedy=remedy)
