"""Running one function over many requests on the workers of a cluster: the third make of the pool."""

from __future__ import annotations

import contextlib
import logging
import re
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from itertools import islice
from typing import Any, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.cluster.alike import differences, likeness, sentence
from wrapwright.outside.cluster.way import Beside, Way
from wrapwright.outside.system.installed import extra_missing

Result = TypeVar("Result")

AHEAD = 2  # requests a worker that are handed over before their turn: so many that none waits, and no more
CONNECT_S = 15.0
LOST_S = 60.0  # so long without any worker ends the work
_LOOK_S = 1.0
_ADDRESS = re.compile(r"(tcp|tls)://[^\s/]+:\d{1,5}")
_STARTED = "Start it, or check the address; what was made so far is kept."


@dataclass(frozen=True)
class ClusterPool:
    """Runs the requests on the workers of a cluster; function, requests and results must pickle.

    Attributes:
        address: of the scheduler.
        client: the connection to it.
        lost_s: see LOST_S.
    """

    address: str
    client: Any
    lost_s: float = LOST_S

    def workers(self) -> int:
        """Return how many workers there are now."""
        try:
            return len(self.client.scheduler_info(n_workers=-1)["workers"])
        except Exception as error:
            raise self.gone() from error

    def map(
        self,
        function: Callable[[Any], Result],
        requests: Iterable[Any],
        beside: Beside | None = None,
    ) -> Iterator[tuple[int, Result]]:
        """Yield (index, result) as they finish.

        Only a few requests a worker are handed over before their turn, and they are taken from `requests` only then:
        neither here nor at the scheduler does a long list cost memory. What a worker did that ended is done again by
        another. The first error of a request is raised here, and those that have not begun are dropped; so they are
        when the caller stops listening.

        Args:
            function: what a worker does.
            requests: what it is asked.
            beside: what is done here with a request before a worker is asked, and with what it answered.

        Raises:
            WrapwrightError: unreachable, when the scheduler is gone or no worker is left for some time; fault, when
                several workers ended over the same request; whatever is raised beside.
        """
        watched = _Watched(self)
        way = Way(beside, partial(self._submitted, function), self._result, self._dropped)
        waiting = iter(enumerate(requests))
        try:
            while True:
                for index, request in islice(waiting, way.room(AHEAD * max(1, watched.workers))):
                    way.begin(index, request)
                if way.empty():
                    return
                watched.look()
                yield from way.finished(_LOOK_S)
        finally:
            way.drop()

    def _submitted(self, function: Callable[[Any], Any], request: Any) -> Any:
        try:
            # Not pure: a request's result is files elsewhere, so that an old one of the same name proves nothing.
            return self.client.submit(function, request, pure=False)
        except Exception as error:
            raise self.gone() from error

    def _dropped(self, futures: list[Any]) -> None:
        with contextlib.suppress(Exception):  # the scheduler may be gone
            self.client.cancel(futures, force=True)

    def _result(self, future: Any) -> Any:
        from concurrent.futures import CancelledError

        from distributed import KilledWorker
        from distributed.client import FutureCancelledError

        try:
            return future.result(timeout=CONNECT_S)
        except KilledWorker as error:
            message = "Several workers ended over the same part of the list, perhaps for want of memory."
            remedy = "Give them more memory, or fewer threads; what was made so far is kept."
            raise WrapwrightError(Kind.FAULT, message, remedy=remedy) from error
        except (CancelledError, FutureCancelledError, OSError) as error:
            raise self.gone() from error

    def gone(self) -> WrapwrightError:
        """Return the problem that the scheduler does not answer any more."""
        return WrapwrightError(Kind.UNREACHABLE, f"The cluster at {self.address} is gone.", remedy=_STARTED)


class _Watched:
    """Looks now and then whether the cluster is still there, and how many workers it has."""

    def __init__(self, pool: ClusterPool) -> None:
        self.pool = pool
        self.workers = pool.workers()
        self.seen = self.looked = time.monotonic()

    def look(self) -> None:
        now = time.monotonic()
        if self.pool.client.status != "running":
            raise self.pool.gone()
        if now - self.looked < _LOOK_S:
            return
        self.looked = now
        self.workers = self.pool.workers()
        if self.workers:
            self.seen = now
        elif now - self.seen >= self.pool.lost_s:
            message = f"The cluster at {self.pool.address} has had no worker for {self.pool.lost_s:.0f} s."
            raise WrapwrightError(Kind.UNREACHABLE, message, remedy=_STARTED)


@contextmanager
def open_cluster(address: str, *, wait_s: float = CONNECT_S) -> Iterator[ClusterPool]:
    """Give the pool of a running cluster, whose workers would all make the same bytes as we.

    Args:
        address: of its scheduler, such as "tcp://192.0.2.7:8786".
        wait_s: so long is waited for the scheduler, and for a first worker.

    Raises:
        WrapwrightError: set-up, when the extra `cluster` is not installed or a worker is of another kind; usage, for
            an address that is none; unreachable, when the scheduler does not answer or has no worker.
    """
    if not _ADDRESS.fullmatch(address):
        remedy = "Write it as tcp://HOST:PORT or tls://HOST:PORT."
        raise WrapwrightError(Kind.USAGE, f"{address} is no address of a cluster.", remedy=remedy)
    try:
        import distributed
    except ImportError as error:
        raise extra_missing("A cluster", "cluster") from error
    with _quiet():
        try:
            client = distributed.Client(address, timeout=wait_s, set_as_default=False)
        except (OSError, TimeoutError, ImportError) as error:
            message = f"No cluster answers at {address} within {wait_s:.0f} s."
            raise WrapwrightError(Kind.UNREACHABLE, message, remedy=_STARTED) from error
        try:
            pool = ClusterPool(address, client)
            _some(pool, wait_s)
            refuse_others(address, asked_all(pool))
            yield pool
        finally:
            with contextlib.suppress(Exception):
                client.close(timeout=5)


def asked_all(pool: ClusterPool) -> Mapping[str, Any]:
    """Return what each worker says of itself, by its address; a problem where it cannot.

    Raises:
        WrapwrightError: unreachable.
    """
    try:
        said: dict[str, Any] = pool.client.run(_said, on_error="return")
    except Exception as error:
        raise pool.gone() from error
    return said


def _said() -> dict[str, str]:
    return dict(likeness())


def refuse_others(address: str, said: Mapping[str, Any]) -> None:
    """Raise for the first worker that would not make the same bytes as this machine.

    Raises:
        WrapwrightError: set-up, with what it has otherwise, and how many more there are.
    """
    ours = likeness()
    others = []
    for worker, theirs in sorted(said.items()):
        if not isinstance(theirs, Mapping):
            others.append(f"The worker {worker} cannot run Wrapwright: {_line(theirs)}.")
        elif told := differences(ours, theirs):
            others.append(sentence(worker, told))
    if others:
        more = f" {len(others) - 1} more are of another kind too." if len(others) > 1 else ""
        remedy = "Install the same lock on all machines of one kind of processor; nothing was begun."
        raise WrapwrightError(Kind.SETUP, others[0] + more, remedy=remedy, where=address)


def _line(problem: object) -> str:
    return " ".join(str(problem).split())[:200].rstrip(".")


def _some(pool: ClusterPool, wait_s: float) -> None:
    try:
        pool.client.wait_for_workers(1, timeout=wait_s)
    except TimeoutError as error:
        message = f"The cluster at {pool.address} has no worker, after {wait_s:.0f} s of waiting."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Start workers that connect to it.") from error


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep the library's own talk of lost connections from the terminal: what matters is told in a sentence of ours."""
    loggers = [logging.getLogger(name) for name in ("distributed", "distributed.client", "distributed.core")]
    before = [one.level for one in loggers]
    for one in loggers:
        one.setLevel(logging.CRITICAL + 1)
    try:
        yield
    finally:
        for one, level in zip(loggers, before, strict=True):
            one.setLevel(level)
