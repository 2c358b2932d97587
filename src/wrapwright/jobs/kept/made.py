"""What was made."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import MadeKept, State, Table


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class AskMaking:
    """Make a revision (0 = newest): output pdf, png or tiff; rules accepted."""

    design: int
    revision: int = 0
    output: str = "pdf"
    accept: tuple[str, ...] = ()


@dataclass(frozen=True)
class ListMade:
    """All makings, of one design or (0) of all."""

    design: int = 0


@dataclass(frozen=True)
class ShowMade:
    """One making."""

    id: int


@dataclass(frozen=True)
class BeginMaking:
    """A worker takes it up."""

    id: int


@dataclass(frozen=True)
class TellProgress:
    """How far it is."""

    id: int
    words: str
    share: float


@dataclass(frozen=True)
class FinishMaking:
    """It has ended: done (its folder is read), failed or stopped."""

    id: int
    state: State
    error: Table = field(default_factory=dict)


@dataclass(frozen=True)
class RemoveMade:
    """Remove a making with its files."""

    id: int


def ask_making(request: AskMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making asked for, waiting."""
    raise _coming()


def list_made(request: ListMade, bench: Bench, watch: Watch) -> tuple[MadeKept, ...]:
    """Return all makings, the newest first."""
    raise _coming()


def show_made(request: ShowMade, bench: Bench, watch: Watch) -> MadeKept:
    """Return one making."""
    raise _coming()


def begin_making(request: BeginMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return it as making; refused unless it was waiting."""
    raise _coming()


def tell_progress(request: TellProgress, bench: Bench, watch: Watch) -> MadeKept:
    """Return it as it stands now (it may have been stopped)."""
    raise _coming()


def finish_making(request: FinishMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return it ended."""
    raise _coming()


def remove_made(request: RemoveMade, bench: Bench, watch: Watch) -> None:
    """Remove a making."""
    raise _coming()


def folder_made(made: int, bench: Bench) -> Path:
    """Return the folder of what was made."""
    return bench.folders.data / "made" / str(made)
