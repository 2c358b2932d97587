"""Rows examined by workers: the same as examined here, in the same order, however the workers' answers come back."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any

import pytest
from tests.jobs.names.conftest import Given

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names import examining
from wrapwright.jobs.names.examining import examined
from wrapwright.jobs.names.opening import open_list
from wrapwright.outside.system.pool import HerePool


@dataclass(frozen=True)
class Backwards(HerePool):
    """A pool whose answers come three at a time, the last first; all that crosses the border is pickled."""

    def map(self, function: Callable[[Any], Any], requests: Iterable[Any]) -> Iterator[tuple[int, Any]]:
        coming = iter(enumerate(requests))
        while some := list(islice(coming, 3)):
            for index, request in reversed(some):
                yield index, pickle.loads(pickle.dumps(function(pickle.loads(pickle.dumps(request)))))


@pytest.fixture
def few_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(examining, "_STEP", 2)


@pytest.mark.usefixtures("few_at_once")
def test_workers_tell_what_is_told_here_in_the_same_order(given: Given, bench: Bench) -> None:
    job = given(*(f"{name},Red,1" for name in ("Ada", " Eve", "😀", "", "=1+1", "Zoë", "x" * 300, "Dot", "\u0410nna")))
    names = open_list(job, None, bench)
    here = list(examined(names, bench, Watch()))
    assert list(examined(names, bench, Watch(), Backwards())) == here
    assert [one.row.number for one, _ in here] == list(range(2, 11))
    assert sum(bool(problems) for _, problems in here) > 4


@pytest.mark.usefixtures("few_at_once")
def test_what_was_changed_meanwhile_is_refused(given: Given, bench: Bench) -> None:
    job = given("Ada,Red,1", "Eve,Red,1", "Dot,Red,1")
    names = open_list(job, None, bench)
    rows = examined(names, bench, Watch(), Backwards())
    job.write_text(f"{job.read_text(encoding='utf-8')}# later\n", encoding="utf-8")
    with pytest.raises(WrapwrightError, match="has been changed while it was being checked") as caught:
        list(rows)
    assert caught.value.kind is Kind.REFUSED
    rows = examined(open_list(job, None, bench), bench, Watch(), Backwards())
    names.table.file.write_text("First name,Team,Pieces\nFay,Red,1\nAda,Red,1\n", encoding="utf-8")
    with pytest.raises(WrapwrightError, match="was changed while it was being read") as caught:
        list(rows)
    assert caught.value.kind is Kind.REFUSED
