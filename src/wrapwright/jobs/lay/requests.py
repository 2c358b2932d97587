"""What is asked of sheets of many jobs, and what comes back: frozen, picklable values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wrapwright.core.base.findings import Finding

SECONDS = 5.0  # a search for a better layout, unless asked otherwise


@dataclass(frozen=True)
class TogetherRequest:
    """Print several jobs together on the fewest sheets.

    Attributes:
        folder: where the files go.
        file: the sheets file, or None.
        text: the sheets file's text (from standard input), or None; its paths are then relative to the working folder.
        jobs: job files and how many of each (None: the job's own quantity), when there is no sheets file; paper and
            colour are those of the first.
        seconds: longest search for a better layout.
        force: replace files of an earlier run.
        accept: rules whose errors are accepted, or "all".
    """

    folder: Path
    file: Path | None = None
    text: str | None = None
    jobs: tuple[tuple[Path, int | None], ...] = ()
    seconds: float = SECONDS
    force: bool = False
    accept: frozenset[str] = frozenset()


@dataclass(frozen=True)
class MadeTogether:
    """What was left: the report as it stands in report.json, and all findings with the title of their job."""

    report: Mapping[str, Any]
    findings: tuple[tuple[str, Finding], ...] = ()
