"""What is asked of a proof, and what it finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError

MOST_FLAWS = 200  # that are told; all are counted


@dataclass(frozen=True)
class VerifyNames:
    """Prove a folder that names were made into.

    Attributes:
        folder: with the sheets, the manifest and the report.
        job: the job file; None: the one beside the folder, in it, or in the working folder that the report names.
    """

    folder: Path
    job: Path | None = None


@dataclass(frozen=True)
class Flaw:
    """Something that does not agree.

    Attributes:
        words: one sentence.
        kind: "file", "manifest", "list", "page", "missing", "twice", "text", "outline", "colour", "pixels", "code" or
            "place".
        row, piece: which it is about; 0 for none.
        file, page: where; "" and 0 for nowhere.
    """

    words: str
    kind: str
    row: int = 0
    piece: int = 0
    file: str = ""
    page: int = 0


@dataclass(frozen=True)
class NamesVerified:
    """What was proved.

    Attributes:
        title: of the job.
        rows: how many rows of the list were held against the manifest.
        pieces: how many pieces were read back.
        codes: how many codes.
        shapes: how many pieces' outlines were set anew and are the same.
        alone: of these, how many were set anew by the way of a single piece as well.
        pixels: how many pieces have pixels of their own, which were drawn anew and are the same.
        pages, files: what they stand in.
        seconds: of the processor.
        flaws: what does not agree; the first of many.
        flaw_count: how many there are in all.
        notes: sentences on what could not be held against anything.
    """

    title: str
    rows: int
    pieces: int
    codes: int
    shapes: int
    alone: int
    pixels: int
    pages: int
    files: int
    seconds: float
    flaws: tuple[Flaw, ...] = ()
    flaw_count: int = 0
    notes: tuple[str, ...] = ()


class NamesUnprovenError(WrapwrightError):
    """Something in a folder of names does not agree; `verified` holds what was found."""

    def __init__(self, verified: NamesVerified) -> None:
        count = verified.flaw_count
        said = "1 thing does" if count == 1 else f"{count} things do"
        remedy = "Make what is wrong again, and prove it again; print nothing of it before."
        super().__init__(Kind.CHECKS, f"{said} not agree with the list.", remedy=remedy, where="verify")
        self.verified = verified
        self.told: Mapping[str, Any] = {}  # what a face adds to the document of the failure

    def __reduce__(self) -> tuple[object, ...]:
        """Keep what was found when the error crosses a process border."""
        return (NamesUnprovenError, (self.verified,))


@dataclass
class Flaws:
    """Gathers flaws: the first are kept, all are counted."""

    found: list[Flaw] = field(default_factory=list)
    count: int = 0

    def add(self, flaw: Flaw) -> None:
        """Add one."""
        self.count += 1
        if len(self.found) < MOST_FLAWS:
            self.found.append(flaw)
