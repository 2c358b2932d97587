"""The pool over a cluster: a scheduler and its workers in this process, and what is said of those that will not do."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.cluster import pool as pools
from wrapwright.outside.cluster.pool import AHEAD, ClusterPool, open_cluster, refuse_others

distributed = pytest.importorskip("distributed")

HERE = {
    "protocol": "tcp",
    "host": "127.0.0.1",
    "scheduler_port": 0,
    "dashboard_address": "127.0.0.1:0",
    "processes": False,
    "silence_logs": 100,
}
_HOLD = threading.Event()


@pytest.fixture(scope="module")
def two() -> Iterator[ClusterPool]:
    """A pool of two workers, threads of this process."""
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, **HERE) as running:  # noqa: SIM117
        with open_cluster(running.scheduler_address) as pool:
            yield pool


def doubled(number: int) -> int:
    return number * 2


def refused_at_three(number: int) -> int:
    if number == 3:
        raise unusable("three is too many.", remedy="Take two.", where="here")
    return number


def held(number: int) -> int:
    _HOLD.wait(1.5)
    return number


def test_results_come_with_the_index_of_their_request(two: ClusterPool) -> None:
    assert sorted(two.map(doubled, [5, 6, 7, 5])) == [(0, 10), (1, 12), (2, 14), (3, 10)]
    assert list(two.map(doubled, [])) == []


def test_requests_are_taken_only_when_there_is_room_for_them(two: ClusterPool) -> None:
    taken: list[int] = []

    def requests() -> Iterator[int]:
        for number in range(60):
            taken.append(number)
            yield number

    most = 0
    for done, _ in enumerate(two.map(doubled, requests())):
        most = max(most, len(taken) - done)
    assert len(taken) == 60
    assert most <= AHEAD * 2


def test_the_first_error_is_raised_as_it_was_and_the_rest_is_dropped(two: ClusterPool) -> None:
    taken: list[int] = []
    with pytest.raises(WrapwrightError) as caught:
        for _ in two.map(refused_at_three, (taken.append(number) or number for number in range(10_000))):  # type: ignore[func-returns-value]
            pass
    assert str(caught.value) == "here: three is too many. Take two."
    assert caught.value.kind is Kind.UNUSABLE
    assert len(taken) < 1000


def test_who_stops_listening_leaves_nothing_behind(two: ClusterPool) -> None:
    _HOLD.set()
    results = two.map(held, range(50))
    next(results)
    _HOLD.clear()
    results.close()  # type: ignore[attr-defined]
    _HOLD.set()
    until = time.monotonic() + 10
    while any(two.client.processing().values()) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(two.client.processing().values())


def test_a_scheduler_that_ends_is_told_and_not_waited_for() -> None:
    _HOLD.clear()
    running = distributed.LocalCluster(n_workers=1, threads_per_worker=1, **HERE)
    with open_cluster(running.scheduler_address, wait_s=2.0) as pool:
        results = pool.map(held, [1, 2, 3])
        stopper = threading.Timer(0.3, running.close)
        stopper.start()
        try:
            with pytest.raises(WrapwrightError) as caught:
                next(results)
        finally:
            _HOLD.set()
            stopper.join()
    assert caught.value.kind is Kind.UNREACHABLE
    assert caught.value.message == f"The cluster at {running.scheduler_address} is gone."
    assert "what was made so far is kept" in caught.value.remedy


def test_a_cluster_without_workers() -> None:
    with distributed.LocalCluster(n_workers=0, **HERE) as running:
        address = running.scheduler_address
        with pytest.raises(WrapwrightError) as caught, open_cluster(address, wait_s=0.3):
            pass
        assert caught.value.kind is Kind.UNREACHABLE
        assert caught.value.message == f"The cluster at {address} has no worker, after 0 s of waiting."
        with distributed.Client(address) as client, pytest.raises(WrapwrightError) as lost:
            next(ClusterPool(address, client, lost_s=0.1).map(doubled, [1]))
        assert "has had no worker for 0 s" in lost.value.message


def test_nobody_listens_at_the_address() -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"tcp://127.0.0.1:{free.getsockname()[1]}"
    with pytest.raises(WrapwrightError) as caught, open_cluster(address, wait_s=0.3):
        pass
    assert caught.value.kind is Kind.UNREACHABLE
    assert caught.value.message.startswith(f"No cluster answers at {address}")


@pytest.mark.parametrize("address", ["", "here", "127.0.0.1:8786", "http://a.example:1", "tcp://a", "tcp://a:x"])
def test_what_is_no_address(address: str) -> None:
    with pytest.raises(WrapwrightError) as caught, open_cluster(address):
        pass
    assert caught.value.kind is Kind.USAGE
    assert "tcp://HOST:PORT" in caught.value.remedy


def test_without_the_extra_it_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "distributed", None)
    with pytest.raises(WrapwrightError) as caught, open_cluster("tcp://127.0.0.1:1"):
        pass
    assert caught.value.kind is Kind.SETUP
    assert 'pip install "wrapwright[cluster]"' in caught.value.remedy


def test_workers_of_another_kind_are_named_and_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    ours = {"wrapwright": "1 (aa)", "numpy": "2.4.6"}
    monkeypatch.setattr(pools, "likeness", lambda: ours)
    refuse_others("tcp://s:1", {"tcp://a:1": dict(ours)})
    said = {
        "tcp://a:1": dict(ours),
        "tcp://b:1": {**ours, "numpy": "2.3.0"},
        "tcp://c:1": ImportError("no it."),
    }
    with pytest.raises(WrapwrightError) as caught:
        refuse_others("tcp://s:1", said)
    assert caught.value.kind is Kind.SETUP
    assert caught.value.message == (
        "The worker tcp://b:1 would not make the same bytes: numpy 2.3.0 instead of 2.4.6."
        " 1 more are of another kind too."
    )
    with pytest.raises(WrapwrightError, match=r"The worker tcp://c:1 cannot run Wrapwright: no it\."):
        refuse_others("tcp://s:1", {"tcp://c:1": said["tcp://c:1"]})


class Ended:
    """A future whose request ended worker after worker."""

    def result(self, timeout: float) -> None:
        assert timeout > 0
        raise distributed.KilledWorker("shard", "tcp://a:1", 3)


def test_a_request_over_which_worker_after_worker_ends() -> None:
    with pytest.raises(WrapwrightError) as caught:
        ClusterPool("tcp://s:1", None)._result(Ended())
    assert caught.value.kind is Kind.FAULT
    assert "Several workers ended over the same part" in caught.value.message
    assert "what was made so far is kept" in caught.value.remedy
