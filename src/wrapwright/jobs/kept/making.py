"""Making a stored design."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Made, Output


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class MakeKept:
    """Make one revision (0 = newest) of a design into a folder."""

    design: int
    revision: int
    output: Output
    accept: tuple[str, ...]
    folder: Path


def make_kept(request: MakeKept, bench: Bench, watch: Watch) -> Made:
    """Return what was made."""
    raise _coming()
