"""Both pools do the same work; processes are spawned, and an error of one request comes back as it is."""

from __future__ import annotations

import math
import os
import signal
import time

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.jobs.requests import CheckRequest
from wrapwright.jobs.verdict import ChecksSayNoError, stand_or_stop
from wrapwright.outside.system.pool import HerePool, ProcessPool, open_pool, surely, usable_cores


def test_here_runs_in_order_as_it_is_asked() -> None:
    pairs = HerePool().map(math.factorial, [3, 0, 5])
    assert next(pairs) == (0, 6)
    assert list(pairs) == [(1, 1), (2, 120)]


def test_processes_give_the_same_results_with_their_index() -> None:
    numbers = [3, 0, 5, 7]
    found = dict(ProcessPool(2).map(math.factorial, numbers))
    assert found == dict(HerePool().map(math.factorial, numbers))


def test_an_error_comes_back_and_a_dead_worker_is_named() -> None:
    with pytest.raises(ValueError, match="negative"):
        list(ProcessPool(2).map(math.factorial, [1, -1, 2]))
    with pytest.raises(WrapwrightError, match="worker process ended") as caught:
        list(ProcessPool(2).map(os._exit, [3, 3]))
    assert caught.value.kind is Kind.FAULT


def test_our_errors_cross_the_border_whole() -> None:
    finding = Finding("picture-ppi", Severity.ERROR, "80 ppi, at least 100.", element="crest")
    with pytest.raises(ChecksSayNoError) as caught:
        list(ProcessPool(2).map(stand_or_stop, [[finding], [finding]]))
    assert caught.value.findings == (finding,)
    assert caught.value.where == "crest"


def test_workers_leave_ctrl_c_to_the_system() -> None:
    ours = signal.getsignal(signal.SIGINT)
    handled = dict(ProcessPool(2).map(signal.getsignal, [signal.SIGINT, signal.SIGINT]))
    assert set(handled.values()) == {signal.SIG_DFL}
    assert signal.getsignal(signal.SIGINT) is ours is not signal.SIG_DFL


def test_held_processes_stay_and_begin_as_they_are_told() -> None:
    with ProcessPool(2).held(_ready) as pool:
        first = dict(pool.map(_where_ready, range(4)))
        beside = pool.beside(os.getpid)
        again = dict(pool.map(_where_ready, range(4)))
        assert beside() == os.getpid()
        assert {here for here, _ in again.values()} <= {here for here, _ in first.values()} != {os.getpid()}
        assert all(ready for _, ready in [*first.values(), *again.values()])
        with pytest.raises(WrapwrightError, match="worker process ended"):
            list(pool.map(os._exit, [3, 3]))
        assert dict(pool.map(math.factorial, [3, 4])) == {0: 6, 1: 24}  # new ones


def test_requests_are_taken_as_they_are_needed() -> None:
    taken: list[int] = []
    pairs = ProcessPool(2).map(math.factorial, (taken.append(number) or number for number in range(100)))  # type: ignore[func-returns-value]
    next(pairs)
    pairs.close()  # type: ignore[attr-defined]
    assert len(taken) <= 8


def test_what_a_dead_worker_left_is_done_here() -> None:
    here = os.getpid()
    found = dict(surely(ProcessPool(2), _dies_elsewhere, ((here, number) for number in range(9))))
    assert found == {number: number * number for number in range(9)}


def test_nothing_runs_far_ahead_of_what_is_not_finished() -> None:
    taken: list[int] = []
    pairs = ProcessPool(2).map(_slow_at_first, (taken.append(number) or number for number in range(1000)))  # type: ignore[func-returns-value]
    order = [index for index, _ in pairs]
    assert sorted(order) == taken == list(range(1000))
    assert order.index(0) < 2 * 64 + 4


def test_here_work_beside_is_done_at_once_and_once() -> None:
    done: list[int] = []
    with HerePool().held() as pool:
        beside = pool.beside(lambda: done.append(1) or len(done))  # type: ignore[func-returns-value]
        assert (beside(), beside(), done) == (1, 1, [1])


def test_one_worker_or_one_request_stays_here() -> None:
    assert open_pool(1) == HerePool()
    assert open_pool(3) == ProcessPool(3)
    assert list(ProcessPool(4).map(_where, [CheckRequest(None, "")])) == [(0, os.getpid())]
    assert usable_cores() >= 1


def _dies_elsewhere(request: tuple[int, int]) -> int:
    here, number = request
    if number == 4 and os.getpid() != here:
        os._exit(3)
    return number * number


def _slow_at_first(number: int) -> int:
    if number == 0:
        time.sleep(0.5)
    return number


_SEEN: list[bool] = []


def _ready() -> None:
    _SEEN.append(True)


def _where_ready(_number: int) -> tuple[int, bool]:
    return os.getpid(), _SEEN == [True]


def _where(_request: CheckRequest) -> int:
    return os.getpid()


def _deaf() -> bool:
    return hasattr(signal, "pthread_sigmask") and signal.SIGINT in signal.pthread_sigmask(signal.SIG_BLOCK, ())


_BORN_DEAF = _deaf()  # a worker reads this module before it begins


def _ears(_number: int) -> tuple[bool, bool]:
    return _BORN_DEAF, _deaf()


@pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="there is no such thing on Windows")
def test_a_worker_is_deaf_to_ctrl_c_until_it_can_end_without_a_word() -> None:
    with ProcessPool(2).held(_ready) as pool:
        assert set(dict(pool.map(_ears, range(2))).values()) == {(True, False)}
    assert not _deaf()
