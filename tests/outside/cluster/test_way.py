"""Requests that are made ready, done and taken in by threads: several at a time, few before their turn."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

import pytest

from wrapwright.outside.cluster.way import Beside, Way


class Workers:
    """Stands for a cluster: it answers ten times a request at once; what was cancelled is noted."""

    def __init__(self) -> None:
        self.cancelled: list[Any] = []

    def submit(self, request: Any) -> Any:
        future: Any = Future()
        future.release = lambda: None
        future.set_result(request * 10)
        return future


class Together:
    """Counts how many are in it at the same time; each waits until `wanted` are, or for 5 s."""

    def __init__(self, wanted: int) -> None:
        self.barrier = threading.Barrier(wanted)
        self.lock = threading.Lock()
        self.inside = self.most = 0

    def __call__(self, _index: int, request: int) -> int:
        with self.lock:
            self.inside += 1
            self.most = max(self.most, self.inside)
        self.barrier.wait(5.0)
        with self.lock:
            self.inside -= 1
        return request + 1


@pytest.fixture
def threads() -> Iterator[ThreadPoolExecutor]:
    with ThreadPoolExecutor(4) as running:
        yield running


def way_over(workers: Workers, beside: Beside | None) -> Way:
    return Way(beside, workers.submit, lambda future: future.result(), workers.cancelled.extend)


def all_of(way: Way) -> list[tuple[int, Any]]:
    found = []
    while not way.empty():
        found += way.finished(5.0)
    return found


def test_both_stages_go_several_at_a_time(threads: ThreadPoolExecutor) -> None:
    put, take = Together(4), Together(2)
    way = way_over(Workers(), Beside(threads, 2, put, take))
    for index in range(8):
        way.begin(index, index)
    assert sorted(all_of(way)) == [(index, (index + 1) * 10 + 1) for index in range(8)]
    assert put.most == 4
    assert take.most == 2


def test_there_is_no_room_while_as_many_are_taken_in_as_may_be(threads: ThreadPoolExecutor) -> None:
    go = threading.Event()

    def held(_index: int, answer: int) -> int:
        assert go.wait(5.0)
        return answer

    way = way_over(Workers(), Beside(threads, 2, lambda _index, request: request, held))
    assert way.room(6) == 6
    for index in range(3):
        way.begin(index, index)
    assert way.room(6) == 3
    for _ in range(6):  # three are asked, three answered, of which two are being taken in
        assert list(way.finished(5.0)) == []
    assert way.room(6) == 0
    go.set()
    assert sorted(all_of(way)) == [(0, 0), (1, 10), (2, 20)]
    assert way.room(6) == 6


@pytest.mark.parametrize("stage", ["put", "take"])
def test_what_a_thread_raises_is_raised_and_the_rest_is_dropped(threads: ThreadPoolExecutor, stage: str) -> None:
    begun: list[int] = []

    def fails(index: int, request: int) -> int:
        begun.append(index)
        if index == 1:
            raise LookupError("no room")
        return request

    def same(_index: int, request: int) -> int:
        return request

    way = way_over(Workers(), Beside(threads, 1, *((fails, same) if stage == "put" else (same, fails))))
    way.begin(0, 0)
    assert all_of(way) == [(0, 0)]
    way.begin(1, 1)
    with pytest.raises(LookupError, match="no room"):
        all_of(way)
    way.drop()
    assert begun == [0, 1]


def test_what_was_asked_is_cancelled_when_it_is_dropped() -> None:
    workers = Workers()
    way = way_over(workers, None)
    way.begin(0, 7)
    asked = list(way.asked)
    way.drop()
    assert workers.cancelled == asked


def test_nothing_beside_and_nothing_finished_in_time() -> None:
    way = way_over(Workers(), None)
    way.begin(0, 7)
    assert all_of(way) == [(0, 70)]
    assert list(way.finished(0.0)) == []
