"""What a person asks of a job and what comes back: frozen, picklable values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from wrapwright.core.base.findings import Finding

Output = Literal["pdf", "png", "tiff"]


@dataclass(frozen=True)
class MakeRequest:
    """Make the sheets, proof, ticket and report of one job.

    Attributes:
        job: path of the job file; None when `text` holds it (from standard input).
        text: the job file's text, or None; its paths are then relative to the working folder.
        folder: where the files go.
        output: kind of the sheets' file.
        force: replace files of an earlier run.
        accept: rules whose errors are accepted, or "all".
    """

    job: Path | None
    text: str | None
    folder: Path
    output: Output = "pdf"
    force: bool = False
    accept: frozenset[str] = frozenset()


@dataclass(frozen=True)
class CheckRequest:
    """Check one job without making anything; fields as in MakeRequest."""

    job: Path | None
    text: str | None
    accept: frozenset[str] = frozenset()


@dataclass(frozen=True)
class ProofRequest:
    """Draw the proof of one job into `file` (PDF or PNG by its ending)."""

    job: Path | None
    text: str | None
    file: Path
    force: bool = False


@dataclass(frozen=True)
class DemoRequest:
    """Make the shipped example in `folder`; fields as in MakeRequest."""

    folder: Path
    force: bool = False


@dataclass(frozen=True)
class Made:
    """What `make` left: the report as it stands in report.json, and all findings."""

    report: Mapping[str, Any]
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Checked:
    """What a check found.

    Attributes:
        findings: all of them, in the order of the rules.
        notes: questions about the readings, what reading or laying out the art changed, and what had to give way on
            the page.
    """

    findings: tuple[Finding, ...] = field(default=())
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Proofed:
    """The proof that was written, and all findings."""

    file: Path
    findings: tuple[Finding, ...] = ()
