"""The way of requests: made ready here, done by a worker, its answer taken in here; each stage several at a time."""

from __future__ import annotations

import queue
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Beside:
    """What threads of this process do beside the workers; whoever opened them closes them.

    Attributes:
        threads: do it.
        most: so many answers at the most are taken in at the same time; no more requests are begun while they are.
        put: (index, request) -> what a worker is asked.
        take: (index, its answer) -> the result.
    """

    threads: Executor
    most: int
    put: Callable[[int, Any], Any]
    take: Callable[[int, Any], Any]


class Way:
    """Requests under way; for one thread, which alone begins them and is handed what is finished.

    Args:
        beside: what is done here before and after; None: nothing.
        submit: asks a worker: request -> future.
        answer: what a worker's future holds, or the problem it ended with.
        cancel: drops workers' futures.
    """

    def __init__(
        self,
        beside: Beside | None,
        submit: Callable[[Any], Any],
        answer: Callable[[Any], Any],
        cancel: Callable[[list[Any]], None],
    ) -> None:
        self.beside, self.submit, self.answer, self.cancel = beside, submit, answer, cancel
        self.done: queue.SimpleQueue[Any] = queue.SimpleQueue()
        self.put: dict[Any, int] = {}
        self.asked: dict[Any, int] = {}
        self.taken: dict[Any, int] = {}
        self.answered: deque[tuple[int, Any]] = deque()

    def room(self, most: int) -> int:
        """Return how many more requests may begin, of `most` that may wait for a worker or be with one."""
        if self.beside is not None and len(self.taken) + len(self.answered) >= self.beside.most:
            return 0
        return max(0, most - len(self.put) - len(self.asked))

    def empty(self) -> bool:
        """Return whether nothing is under way."""
        return not (self.put or self.asked or self.taken or self.answered)

    def begin(self, index: int, request: Any) -> None:
        """Begin a request."""
        if self.beside is None:
            self._ask(index, request)
        else:
            self._watch(self.put, self.beside.threads.submit(self.beside.put, index, request), index)

    def finished(self, wait_s: float) -> Iterator[tuple[int, Any]]:
        """Yield the next finished request as (index, result); nothing where none has finished within `wait_s`.

        Raises:
            Exception: whatever a stage raised.
        """
        try:
            future = self.done.get(timeout=wait_s)
        except queue.Empty:
            return
        if future in self.put:
            self._ask(self.put.pop(future), future.result())
        elif future in self.taken:
            yield self.taken.pop(future), future.result()
            self._take_more()
        else:
            index = self.asked.pop(future)
            answer = self.answer(future)
            future.release()
            if self.beside is None:
                yield index, answer
            else:
                self.answered.append((index, answer))
                self._take_more()

    def drop(self) -> None:
        """Drop what has not begun; what a thread is doing ends by itself."""
        for future in (*self.put, *self.taken):
            future.cancel()
        if self.asked:
            self.cancel(list(self.asked))

    def _ask(self, index: int, request: Any) -> None:
        self._watch(self.asked, self.submit(request), index)

    def _take_more(self) -> None:
        while self.beside is not None and self.answered and len(self.taken) < self.beside.most:
            index, answer = self.answered.popleft()
            self._watch(self.taken, self.beside.threads.submit(self.beside.take, index, answer), index)

    def _watch(self, stage: dict[Any, int], future: Future[Any] | Any, index: int) -> None:
        stage[future] = index
        future.add_done_callback(self.done.put)
