"""Designs with every revision."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import DesignKept, DesignRow, Table


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class ListDesigns:
    """All designs whose title or blank holds `search`."""

    search: str = ""


@dataclass(frozen=True)
class NewDesign:
    """A new design from a document, a blank of the shelf or a starter."""

    title: str
    document: Table | None = None
    blank_id: int = 0
    starter: str = ""


@dataclass(frozen=True)
class ShowDesign:
    """One revision; 0 is the newest."""

    id: int
    revision: int = 0


@dataclass(frozen=True)
class SaveDesign:
    """A new revision on top of `base`."""

    id: int
    document: Table
    base: int


@dataclass(frozen=True)
class UndoDesign:
    """One step back from `base`."""

    id: int
    base: int


@dataclass(frozen=True)
class RedoDesign:
    """One step on from `base`."""

    id: int
    base: int


@dataclass(frozen=True)
class PutFile:
    """Put a kept file into the design's job folder."""

    id: int
    sha256: str
    name: str


@dataclass(frozen=True)
class UseSetup:
    """Print a design with a set-up."""

    id: int
    setup_id: int
    base: int


@dataclass(frozen=True)
class CopyDesign:
    """A copy of one revision; 0 is the newest."""

    id: int
    revision: int = 0
    title: str = ""


@dataclass(frozen=True)
class RemoveDesign:
    """Remove a design with all its revisions and files; with `made` what was made of it too."""

    id: int
    made: bool = False


def list_designs(request: ListDesigns, bench: Bench, watch: Watch) -> tuple[DesignRow, ...]:
    """Return all designs, the last saved first."""
    raise _coming()


def new_design(request: NewDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the design added."""
    raise _coming()


def show_design(request: ShowDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return one revision."""
    raise _coming()


def save_design(request: SaveDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the new revision; refused when `base` is not the newest."""
    raise _coming()


def undo_design(request: UndoDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the step before."""
    raise _coming()


def redo_design(request: RedoDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the step after."""
    raise _coming()


def put_file(request: PutFile, bench: Bench, watch: Watch) -> str:
    """Return the name to write in the document."""
    raise _coming()


def use_setup(request: UseSetup, bench: Bench, watch: Watch) -> DesignKept:
    """Return the new revision."""
    raise _coming()


def copy_design(request: CopyDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the copy."""
    raise _coming()


def remove_design(request: RemoveDesign, bench: Bench, watch: Watch) -> None:
    """Remove a design."""
    raise _coming()


def folder_of(design: int, bench: Bench) -> Path:
    """Return the job folder of a design: every file under the name that documents use."""
    return bench.folders.data / "designs" / str(design)
