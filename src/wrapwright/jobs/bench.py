"""What a job is handed: the bench it works on and who watches it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Protocol, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.live.recent import Recent
from wrapwright.outside.store.place import Store

Request = TypeVar("Request")
Result = TypeVar("Result")


class Pool(Protocol):
    """Runs one function over many requests; results come as they finish, each with its index."""

    def map(self, function: Callable[[Request], Result], requests: Iterable[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) pairs; the requests are taken as they are needed."""
        ...

    def held(self, ready: Callable[[], None]) -> AbstractContextManager[HeldPool]:
        """Give a pool whose workers stay from one map to the next; each does `ready` first."""
        ...


class HeldPool(Pool, Protocol):
    """A pool for several things in one piece of work."""

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """Return what gives the result of some work that is done here, where it can be while the workers work."""
        ...


@dataclass(frozen=True)
class Folders:
    """Where things are kept: cache (safe to delete), data (the user's), fonts (the user's own)."""

    cache: Path
    data: Path
    fonts: Path


@dataclass(frozen=True)
class Bench:
    """Everything with state, time or a place.

    Attributes:
        folders: where things are kept.
        pool: where work is done.
        clock: the time.
        threads: how many may work at once on one page.
        recent: what was worked out lately for a screen; filled and emptied by itself.
        store: what the workshop keeps, opened when it is first asked for something; None where nothing is kept.
    """

    folders: Folders
    pool: Pool
    clock: Callable[[], datetime]
    threads: int = 1
    recent: Recent = field(default_factory=Recent, kw_only=True)
    store: Store | None = field(default=None, kw_only=True)

    def kept(self) -> Store:
        """Return the store.

        Raises:
            WrapwrightError: kind set-up, on a bench without one.
        """
        if self.store is None:
            raise WrapwrightError(Kind.SETUP, "This bench has no store.", remedy="Open one with a data folder.")
        return self.store


@dataclass(frozen=True)
class Watch:
    """Progress goes out (words, share 0..1), the wish to stop comes in."""

    progress: Callable[[str, float], None] = lambda _words, _share: None
    cancelled: Callable[[], bool] = lambda: False

    def step(self, words: str, share: float) -> None:
        """Report progress, and stop here if the user asked for it."""
        if self.cancelled():
            raise WrapwrightError(Kind.STOPPED, "Stopped by the user; nothing was left half-made.")
        self.progress(words, share)
