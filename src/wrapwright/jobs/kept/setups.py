"""Set-ups: printer, paper, profile and scale."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import SetupKept, Table


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class ListSetups:
    """All set-ups."""


@dataclass(frozen=True)
class ShowSetup:
    """One set-up by id or name."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class AddSetup:
    """A new set-up; the profile is a file, or one kept by `keep_profile`."""

    name: str
    sheet: Table
    colour: Table
    profile: Path | None = None
    profile_sha256: str = ""


@dataclass(frozen=True)
class ChangeSetup:
    """A set-up changed."""

    id: int
    name: str
    sheet: Table
    colour: Table
    profile: Path | None = None
    profile_sha256: str = ""


@dataclass(frozen=True)
class RemoveSetup:
    """Remove a set-up."""

    id: int


@dataclass(frozen=True)
class KeepProfile:
    """Keep an ICC profile."""

    name: str
    file: Path
    move: bool = False


@dataclass(frozen=True)
class ProfileKept:
    """A profile kept; `words` is what it says of itself."""

    sha256: str
    name: str
    words: str


def list_setups(request: ListSetups, bench: Bench, watch: Watch) -> tuple[SetupKept, ...]:
    """Return all set-ups by name."""
    raise _coming()


def show_setup(request: ShowSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return one set-up."""
    raise _coming()


def add_setup(request: AddSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return the set-up added."""
    raise _coming()


def change_setup(request: ChangeSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return the set-up changed."""
    raise _coming()


def remove_setup(request: RemoveSetup, bench: Bench, watch: Watch) -> None:
    """Remove a set-up."""
    raise _coming()


def keep_profile(request: KeepProfile, bench: Bench, watch: Watch) -> ProfileKept:
    """Return the profile kept."""
    raise _coming()
