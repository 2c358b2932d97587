"""Running one function over many requests: here one after another, or in processes of our own."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, ThreadPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import chain, islice
from multiprocessing.connection import wait as wait_for
from typing import Protocol, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError

Request = TypeVar("Request")
Result = TypeVar("Result")

_WINDOW = 64  # results a worker that may have to wait for an older one's, where somebody wants them in order
_AHEAD = 2  # requests a worker that are handed over before their turn: so many that none waits, and no more


def _nothing() -> None:
    """Do nothing."""


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

    def map(self, function: Callable[[Request], Result], requests: Iterable[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) in the order of the requests."""
        for index, request in enumerate(requests):
            yield index, function(request)

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """Return what gives the work's result: it is done now, for there is nobody else to do it."""
        result = work()
        return lambda: result

    @contextmanager
    def held(self, ready: Callable[[], None] = _nothing) -> Iterator[HerePool]:
        """Give this pool itself."""
        yield self


@dataclass(frozen=True)
class ProcessPool:
    """Runs the requests in `workers` spawned processes; function, requests and results must pickle."""

    workers: int

    def map(self, function: Callable[[Request], Result], requests: Iterable[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) as they finish; as `HeldPool.map`; the processes end with it; one request stays here.

        Raises:
            WorkerDiedError: kind fault, when a process ended without an answer.
        """
        coming = iter(requests)
        first = list(islice(coming, 2))
        if len(first) < 2 or self.workers <= 1:
            yield from HerePool().map(function, chain(first, coming))
            return
        with self.held() as pool:
            yield from pool.map(function, chain(first, coming))

    @contextmanager
    def held(self, ready: Callable[[], None] = _nothing) -> Iterator[HeldPool]:
        """Give a pool whose processes are kept from one map to the next.

        Args:
            ready: what each process does first, such as importing what it will need; must pickle.
        """
        pool = HeldPool(self.workers, ready)
        try:
            yield pool
        finally:
            pool.close()


@dataclass
class HeldPool:
    """Processes that are kept until it is closed, and a thread of this process for work beside theirs.

    Attributes:
        workers: how many processes.
        ready: what each does first.
    """

    workers: int
    ready: Callable[[], None] = _nothing
    _processes: ProcessPoolExecutor | None = field(default=None, init=False)
    _thread: ThreadPoolExecutor | None = field(default=None, init=False)

    def map(self, function: Callable[[Request], Result], requests: Iterable[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) as they finish.

        Only a few requests are handed over before their turn, and they are taken from `requests` only then, so that a
        long list of them costs no memory; none is handed over far ahead of one that is not finished. The first error
        of a request is raised here and the requests that have not begun are dropped; so they are when the caller stops
        listening. The processes end with this one, however that comes about; after one has died the next map starts
        new ones.

        Raises:
            WorkerDiedError: kind fault, when a process ended without an answer.
        """
        executor = self._executor()
        waiting = iter(enumerate(requests))
        under_way: dict[Future[Result], int] = {}
        given = 0
        try:
            while True:
                oldest = min(under_way.values(), default=given)
                room = min(_AHEAD * self.workers - len(under_way), oldest + _WINDOW * self.workers - given)
                for index, request in islice(waiting, room):
                    with _ctrl_c_later():
                        under_way[executor.submit(function, request)] = index
                    given = index + 1
                if not under_way:
                    return
                done, _ = wait(under_way, return_when=FIRST_COMPLETED)
                for future in done:
                    yield under_way.pop(future), future.result()
        except BrokenProcessPool as error:
            self._end_processes()
            raise WorkerDiedError from error
        finally:
            for future in under_way:
                future.cancel()

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """Return what waits for the work's result; it is done meanwhile by a thread, one work after another."""
        if self._thread is None:
            self._thread = ThreadPoolExecutor(1)
        return self._thread.submit(work).result

    @contextmanager
    def held(self, ready: Callable[[], None] = _nothing) -> Iterator[HeldPool]:
        """Give this pool itself; whoever holds it closes it."""
        yield self

    def close(self) -> None:
        """End the processes and the thread; what has not begun is dropped."""
        self._end_processes()
        if self._thread is not None:
            self._thread.shutdown(wait=True, cancel_futures=True)

    def _executor(self) -> ProcessPoolExecutor:
        if self._processes is None:
            # spawn everywhere: a forked copy of a process with threads may hang, and Windows has no fork.
            context = multiprocessing.get_context("spawn")
            self._processes = ProcessPoolExecutor(
                self.workers, mp_context=context, initializer=_begin, initargs=(self.ready,)
            )
        return self._processes

    def _end_processes(self) -> None:
        if self._processes is not None:
            self._processes.shutdown(wait=True, cancel_futures=True)
            self._processes = None


def surely(
    pool: Pool, function: Callable[[Request], Result], requests: Iterable[Request]
) -> Iterator[tuple[int, Result]]:
    """Yield (index, result) as a pool does; when one of its workers dies, what is left is done here."""
    left: dict[int, Request] = {}

    def noted() -> Iterator[Request]:
        for index, request in enumerate(requests):
            left[index] = request
            yield request

    asked = noted()
    try:
        for index, result in pool.map(function, asked):
            del left[index]
            yield index, result
    except WorkerDiedError:
        for index in list(left):
            yield index, function(left.pop(index))
        for request in asked:
            index, _ = left.popitem()
            yield index, function(request)


class Pool(Protocol):
    """What maps."""

    def map(self, function: Callable[[Request], Result], requests: Iterable[Request]) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) pairs."""
        ...


@contextmanager
def _ctrl_c_later() -> Iterator[None]:
    """Let a process that is started meanwhile hear of Ctrl-C only when it is ready to end without a word.

    What a thread blocks, its children block until they say otherwise (POSIX, sigprocmask); Windows knows no such thing.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin(ready: Callable[[], None]) -> None:
    """Begin as a worker: Ctrl-C ends it at once, nothing printed, and so does the end of the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()
    ready()


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
