"""Running one function over many requests: here one after another, or in processes of our own."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from itertools import islice
from multiprocessing.connection import wait as wait_for
from typing import TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError

Request = TypeVar("Request")
Result = TypeVar("Result")

_AHEAD = 2  # requests a worker that are handed over before their turn: so many that none waits, and no more


class WorkerDiedError(WrapwrightError):
    """A process ended without an answer; what it was asked can be asked again."""

    def __init__(self) -> None:
        message = "A worker process ended before it had finished, perhaps for want of memory."
        super().__init__(Kind.FAULT, message, remedy="Try again with WRAPWRIGHT_THREADS=1.")

    def __reduce__(self) -> tuple[object, ...]:
        """Keep it what it is when it crosses a process border."""
        return (WorkerDiedError, ())


@dataclass(frozen=True)
class HerePool:
    """Runs the requests one after another in this process."""

    def map(self, function: Callable[[Request], Result], requests: Sequence[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) in the order of the requests."""
        for index, request in enumerate(requests):
            yield index, function(request)


@dataclass(frozen=True)
class ProcessPool:
    """Runs the requests in `workers` spawned processes; function, requests and results must pickle."""

    workers: int

    def map(self, function: Callable[[Request], Result], requests: Sequence[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) as they finish.

        Only a few requests are handed over before their turn, so that a long list of them costs no memory. The first
        error of a request is raised here and the requests that have not begun are dropped; so they are when the caller
        stops listening. The processes end when this one does, however that comes about.

        Raises:
            WorkerDiedError: kind fault, when a process ended without an answer.
        """
        if len(requests) <= 1 or self.workers <= 1:
            yield from HerePool().map(function, requests)
            return
        # spawn everywhere: a forked copy of a process with threads may hang, and Windows has no fork.
        context = multiprocessing.get_context("spawn")
        workers = min(self.workers, len(requests))
        executor = ProcessPoolExecutor(workers, mp_context=context, initializer=_begin)
        waiting = iter(enumerate(requests))
        under_way: dict[Future[Result], int] = {}
        try:
            while True:
                for index, request in islice(waiting, _AHEAD * workers - len(under_way)):
                    under_way[executor.submit(function, request)] = index
                if not under_way:
                    return
                done, _ = wait(under_way, return_when=FIRST_COMPLETED)
                for future in done:
                    yield under_way.pop(future), future.result()
        except BrokenProcessPool as error:
            raise WorkerDiedError from error
        finally:
            executor.shutdown(wait=True, cancel_futures=True)


def _begin() -> None:
    """Begin as a worker: Ctrl-C ends it at once, nothing printed, and so does the end of the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    wait_for([sentinel])
    os._exit(1)


def open_pool(workers: int) -> HerePool | ProcessPool:
    """Return the pool for a number of workers: 1 = here."""
    return HerePool() if workers <= 1 else ProcessPool(workers)


def usable_cores() -> int:
    """Return how many processor cores this process may use; at least 1."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else (os.cpu_count() or 1)
