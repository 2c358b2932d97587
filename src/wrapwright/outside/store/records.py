"""What the store gives back: frozen, picklable values; times are UTC."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal

Table = Mapping[str, Any]
JOB_FILE = "job.toml"  # a design as a file; what it is called when it leaves the store
DECIDED_FILE = "job.names.json"  # and what was decided about its list of names
SIGNED_FILE = "job.signed.jsonl"  # and who agreed to it
LIST_FOLDER = "list"  # in the job folder, where the table lies
NO_TITLE = "job"  # what that file's stem makes of a design without a title
State = Literal["waiting", "making", "done", "failed", "stopped"]
PrintState = Literal["sending", "printing", "done", "failed", "stopped", "lost"]


@dataclass(frozen=True)
class BlankKept:
    """A blank on the shelf, one version of it.

    Attributes:
        id: of the blank, the same for all its versions.
        name: unique on the shelf, whatever the case of its letters.
        version: 1 for the first readings; each change of the readings adds one.
        newest: the highest version there is.
        table: the readings as a job file's [blank] writes them.
        wrap: what its wraps start from, as a job file's [wrap]; may be empty.
        added: when this version was added.
    """

    id: int
    name: str
    version: int
    newest: int
    table: Table
    wrap: Table
    added: datetime


@dataclass(frozen=True)
class PictureKept:
    """A picture file, kept once under the SHA-256 of its content.

    Attributes:
        sha256: of the content.
        name: the file name it came with, cleaned.
        kind: format as read: jpeg, png, svg, ...
        bytes: its size.
        width_px, height_px: of the upright picture; vector art: of its page in CSS pixels, rounded.
        added: when it first came.
    """

    sha256: str
    name: str
    kind: str
    bytes: int
    width_px: int
    height_px: int
    added: datetime


@dataclass(frozen=True)
class FontKept:
    """A font file that the user added, and the face in it."""

    file: str
    family: str
    style: str
    weight: int
    sha256: str
    added: datetime


@dataclass(frozen=True)
class SetupKept:
    """A printer with its paper, profile and scale.

    Attributes:
        id: of the set-up.
        name: unique, whatever the case of its letters.
        sheet: as a job file's [sheet].
        colour: as a job file's [colour]; `profile` is a file name, kept under `profile_sha256`.
        profile_sha256: of the ICC profile; "" on the driver route.
        added: when it was added or last changed.
    """

    id: int
    name: str
    sheet: Table
    colour: Table
    profile_sha256: str
    added: datetime


@dataclass(frozen=True)
class DesignRow:
    """A design as a list shows it."""

    id: int
    title: str
    revision: int
    blank: str
    saved: datetime


@dataclass(frozen=True)
class DesignKept:
    """One revision of a design.

    Attributes:
        id: of the design.
        title: as the document says.
        revision: number of this revision, from 1; numbers are never used twice.
        newest: the revision that is shown when none is asked for.
        document: the whole job document as a job file would hold it, lengths as "12.345 mm".
        can_undo, can_redo: whether the newest has a step before and after it.
        blank_id, blank_version: the blank it was started from, 0 for none.
        saved: when this revision was made.
    """

    id: int
    title: str
    revision: int
    newest: int
    document: Table
    can_undo: bool
    can_redo: bool
    blank_id: int
    blank_version: int
    saved: datetime


@dataclass(frozen=True)
class FileMade:
    """A file of something made."""

    name: str
    bytes: int
    sha256: str


@dataclass(frozen=True)
class MadeKept:
    """One making of a design's sheets.

    Attributes:
        id: of this making.
        design, revision: what was made; design 0 when it has been removed since.
        title: as it was then.
        output: pdf, png or tiff.
        accept: rules whose errors were accepted.
        state: waiting, making, done, failed or stopped.
        words, share: how far it is, 0..1.
        asked, ended: times; ended None while it runs.
        report: report.json once done, else {}.
        error: the failure's document, else {}.
        files: what it left.
        tray: the designs that were printed together, then `design` is 0; else {}.
        names: how the design's list of names was made; {} when it was one piece.
    """

    id: int
    design: int
    revision: int
    title: str
    output: str
    accept: tuple[str, ...]
    state: State
    words: str
    share: float
    asked: datetime
    ended: datetime | None = None
    report: Table = field(default_factory=dict)
    error: Table = field(default_factory=dict)
    files: tuple[FileMade, ...] = ()
    tray: Table = field(default_factory=dict)
    names: Table = field(default_factory=dict)


@dataclass(frozen=True)
class ListKept:
    """A design's list of names.

    Attributes:
        design: whose it is.
        name: of the table's file.
        sha256: of its content.
        mapping: as a job file's [names], without its file.
        revision: of table and mapping, from 1.
        decided: counts up with every decision about a row.
    """

    design: int
    name: str
    sha256: str
    mapping: Table
    revision: int
    decided: int


@dataclass(frozen=True)
class TrayKept:
    """The tray of designs that are to be printed together, and its revision."""

    document: Table
    revision: int


@dataclass(frozen=True)
class PrinterKept:
    """Where a set-up's sheets go: a printer, or a folder that a driver watches.

    Attributes:
        setup: the set-up's number.
        name: the set-up's name.
        address: "ipp://..." or "ipps://...", "" for a folder.
        certificate: SHA-256 of the certificate that the printer showed first; "" where there is none.
        folder: the folder, "" for a printer.
        pattern: how files in the folder are called.
    """

    setup: int
    name: str
    address: str
    certificate: str
    folder: str
    pattern: str


@dataclass(frozen=True)
class PrintKept:
    """One file handed to a printer or a folder.

    Attributes:
        id: of this handing over.
        sha256: of the file.
        title: what the person calls it.
        target: the printer's address or the folder.
        name: the job's own name at the printer, never used twice.
        job: the number that the printer gave, 0 while it has given none.
        copies: how many.
        state: sending, printing, done, failed, stopped or lost (no longer to be seen).
        words: what was last heard of it.
        asked, ended: times; ended None while it runs.
    """

    id: int
    sha256: str
    title: str
    target: str
    name: str
    job: int
    copies: int
    state: PrintState
    words: str
    asked: datetime
    ended: datetime | None = None
