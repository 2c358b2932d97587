"""Designs as files, out and in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import DesignKept


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class ExportDesign:
    """Write one revision (0 = newest) as a zip with all it needs."""

    id: int
    revision: int
    file: Path
    force: bool = False


@dataclass(frozen=True)
class ImportDesign:
    """Read a zip of ours, or a job file with what it names."""

    file: Path


def export_design(request: ExportDesign, bench: Bench, watch: Watch) -> Path:
    """Return the file written."""
    raise _coming()


def import_design(request: ImportDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the design added."""
    raise _coming()
