"""Shards over workers that die, and runs that are kept within their room."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from tests.jobs.names.making.conftest import TEXT, Written
from tests.jobs.names.making.test_pieces import planned_of

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.running import Over, made_shards, make_room_for_runs, time_words
from wrapwright.jobs.names.making.shard import make_shard
from wrapwright.jobs.names.making.values import ShardMade
from wrapwright.outside.system.pool import WorkerDiedError

ROWS = "name\n" + "".join(f"{letter}da\n" for letter in "ABCDEFGHIJKL")


@dataclass
class Frail:
    """A pool whose worker dies each time after so many requests."""

    lives: list[int]
    asked: list[int] = field(default_factory=list)

    def map(self, function: Callable[[Any], Any], requests: Iterable[Any]) -> Iterator[tuple[int, Any]]:
        left = self.lives.pop(0)
        for index, request in enumerate(requests):
            if index == left:
                raise WorkerDiedError
            self.asked.append(request.number)
            yield index, function(request)


def over(pool: Any) -> Over:
    return lambda coming: pool.map(make_shard, coming)


def test_what_a_dead_worker_left_is_made_by_another(written: Written, bench: Bench) -> None:
    planned = planned_of(written(TEXT, ROWS), bench)
    said: list[str] = []
    pool = Frail([2, 1, 99])
    handed: list[ShardMade] = []
    watch = Watch(lambda words, _share: said.append(words))
    shards = made_shards(planned, planned.shards, over(pool), watch, handed.append)
    assert [one.number for one in shards] == [one.number for one in planned.shards]
    assert pool.asked == [one.number for one in planned.shards]  # none twice
    assert sorted(one.number for one in handed) == pool.asked  # and each handed on once
    assert said[-1].startswith("making: 12 of 12 pieces, ")
    assert made_shards(planned, planned.shards, over(Frail([0])), Watch()) == shards  # all stand: nobody is asked


def test_a_worker_that_dies_over_one_shard_again_is_told(written: Written, bench: Bench) -> None:
    planned = planned_of(written(TEXT, ROWS), bench)
    pool = Frail([1, 0, 99])
    with pytest.raises(WorkerDiedError) as caught:
        made_shards(planned, planned.shards, over(pool), Watch())
    assert caught.value.kind is Kind.FAULT
    assert pool.asked == [0]


def test_a_spoilt_shard_is_made_again(written: Written, bench: Bench) -> None:
    planned = planned_of(written(TEXT, ROWS), bench)
    shards = made_shards(planned, planned.shards, over(bench.pool), Watch())
    file = planned.run.folder / shards[1].file
    whole = file.read_bytes()
    file.write_bytes(whole[:-100])
    assert made_shards(planned, planned.shards, over(bench.pool), Watch()) == shards
    assert file.read_bytes() == whole


def test_stopping_is_heard_between_shards(written: Written, bench: Bench) -> None:
    planned = planned_of(written(TEXT, ROWS), bench)
    steps: list[str] = []
    watch = Watch(lambda words, _share: steps.append(words), lambda: len(steps) > 1)
    with pytest.raises(WrapwrightError) as caught:
        made_shards(planned, planned.shards, over(bench.pool), watch)
    assert caught.value.kind is Kind.STOPPED
    assert 0 < len(list(planned.run.folder.glob("shard-*.json"))) < len(planned.shards)


def test_old_runs_make_room_and_those_in_use_stay(tmp_path: Path) -> None:
    for number, hours in enumerate((50, 40, 30, 0)):
        run = tmp_path / f"run-{number}"
        run.mkdir()
        (run / "shard-000000.pdf").write_bytes(bytes(1000))
        then = run.stat().st_mtime - 3600 * hours
        os.utime(run, (then, then))
    make_room_for_runs(tmp_path, [tmp_path / "run-0"], limit_bytes=2500)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["run-0", "run-3"]


def test_times_are_told_as_people_say_them() -> None:
    assert [time_words(seconds) for seconds in (4.4, 600.0, 12_000.0)] == ["4 s", "10 min", "3 h 20 min"]
