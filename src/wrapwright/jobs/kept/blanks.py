"""The shelf of blanks."""

from __future__ import annotations

from dataclasses import dataclass, field

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import BlankKept, Table


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class ListBlanks:
    """All blanks whose name holds `search`."""

    search: str = ""


@dataclass(frozen=True)
class ShowBlank:
    """One version of a blank, by id or name; version 0 is the newest."""

    id: int = 0
    name: str = ""
    version: int = 0


@dataclass(frozen=True)
class AddBlank:
    """A new blank: readings as a job's [blank], and what its wraps start from as a job's [wrap]."""

    name: str
    table: Table
    wrap: Table = field(default_factory=dict)


@dataclass(frozen=True)
class ChangeBlank:
    """A new version of a blank; `base` is the version that was changed."""

    id: int
    name: str
    table: Table
    wrap: Table
    base: int


@dataclass(frozen=True)
class RemoveBlank:
    """Take a blank off the shelf."""

    id: int


@dataclass(frozen=True)
class Starter:
    """A shipped shape to start from."""

    key: str
    name: str
    words: str
    table: Table
    wrap: Table


def list_blanks(request: ListBlanks, bench: Bench, watch: Watch) -> tuple[BlankKept, ...]:
    """Return the newest version of each blank, by name."""
    raise _coming()


def show_blank(request: ShowBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return one blank."""
    raise _coming()


def add_blank(request: AddBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return the blank added."""
    raise _coming()


def change_blank(request: ChangeBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return the new version."""
    raise _coming()


def remove_blank(request: RemoveBlank, bench: Bench, watch: Watch) -> None:
    """Take it off the shelf."""
    raise _coming()


def list_starters() -> tuple[Starter, ...]:
    """Return the shipped shapes."""
    raise _coming()
