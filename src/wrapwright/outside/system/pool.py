"""Running one function over many requests: here one after another, or in processes of our own."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from typing import TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError

Request = TypeVar("Request")
Result = TypeVar("Result")


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

        The first error of a request is raised here and the requests that have not begun are dropped; so they are when
        the caller stops listening.

        Raises:
            WrapwrightError: kind fault, when a process ended without an answer.
        """
        if len(requests) <= 1 or self.workers <= 1:
            yield from HerePool().map(function, requests)
            return
        # spawn everywhere: a forked copy of a process with threads may hang, and Windows has no fork.
        context = multiprocessing.get_context("spawn")
        # Ctrl-C reaches the workers too: with the system's own handling they end at once and print nothing.
        quiet_end = (signal.SIGINT, signal.SIG_DFL)
        workers = min(self.workers, len(requests))
        executor = ProcessPoolExecutor(workers, mp_context=context, initializer=signal.signal, initargs=quiet_end)
        try:
            futures = {executor.submit(function, request): index for index, request in enumerate(requests)}
            for future in as_completed(futures):
                yield futures[future], future.result()
        except BrokenProcessPool as error:
            message = "A worker process ended before it had finished, perhaps for want of memory."
            raise WrapwrightError(Kind.FAULT, message, remedy="Try again with WRAPWRIGHT_THREADS=1.") from error
        finally:
            executor.shutdown(wait=True, cancel_futures=True)


def open_pool(workers: int) -> HerePool | ProcessPool:
    """Return the pool for a number of workers: 1 = here."""
    return HerePool() if workers <= 1 else ProcessPool(workers)


def usable_cores() -> int:
    """Return how many processor cores this process may use; at least 1."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else (os.cpu_count() or 1)
