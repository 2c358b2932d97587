"""One shard as a worker makes it, here and without a cluster, and what a worker refuses."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from tests.jobs.names.spread.conftest import Kept

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.planning import Planned, Wanted, plan, put_rows
from wrapwright.jobs.names.making.shard import make_shard, standing_shard
from wrapwright.jobs.names.opening import NamesList, open_list
from wrapwright.jobs.names.spread import worker
from wrapwright.jobs.names.spread.inputs import Rows, put_inputs
from wrapwright.jobs.names.spread.worker import made_in, put_made
from wrapwright.outside.places.opening import open_place
from wrapwright.outside.places.place import Place, part_name

pytest.importorskip("fsspec")


@dataclass(frozen=True)
class Ready:
    """A run whose inputs and rows stand in a place."""

    names: NamesList
    planned: Planned
    bench: Bench
    place: Place
    inputs: str

    threads: Executor

    @property
    def rows(self) -> Rows:
        return Rows(self.names.opened, self.place, self.inputs, self.threads)


@pytest.fixture(scope="module")
def planned(job: Path, kept: Kept) -> tuple[NamesList, Planned, Bench]:
    bench = kept("worker")
    names = open_list(job, None, bench)
    found = plan(names, Wanted(40, 40, seconds=0.0), bench, Watch())
    list(put_rows(names, found, None, Watch()))
    return names, found, bench


@pytest.fixture
def ready(planned: tuple[NamesList, Planned, Bench], tmp_path: Path) -> Iterator[Ready]:
    names, found, bench = planned
    there = replace(open_place(str(tmp_path / "place")), wait_s=0.0)
    inputs = put_inputs(found.run, names.opened, names.asked.file, bench, there)
    with ThreadPoolExecutor(2) as threads:
        yield Ready(names, found, bench, there, inputs, threads)
    worker._run.cache_clear()


def test_a_shard_made_from_the_place_alone_has_the_bytes_of_one_made_here(ready: Ready, tmp_path: Path) -> None:
    shard = ready.planned.shards[0]
    here = make_shard(shard)
    asked = ready.rows.put(shard)
    there = made_in(tmp_path / "worker", asked)
    assert there == here
    assert ready.place.has(part_name(here.sha256))
    left = [file.name for file in (tmp_path / "worker" / "runs").rglob("*") if file.is_file()]
    assert sorted(left) == ["crew.csv", "inputs", "none.png", "regatta.toml"]
    for file in shard.run.folder.glob("shard-000000.[pj]*"):
        file.unlink()
    assert standing_shard(shard) is None
    assert put_made(ready.place, shard, there) == here
    assert standing_shard(shard) == here


def test_one_that_stands_in_the_place_is_not_made_again(
    ready: Ready, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = ready.rows.put(ready.planned.shards[1])
    made = made_in(tmp_path / "one", asked)

    def again(*_: object) -> None:
        raise AssertionError("made again")

    monkeypatch.setattr(worker, "make_shard", again)
    assert made_in(tmp_path / "two", asked) == made
    shutil.rmtree(tmp_path / "place" / "parts" / made.list_sha256[:2])
    ready.rows.put(ready.planned.shards[1])
    put_inputs(ready.planned.run, ready.names.opened, ready.names.asked.file, ready.bench, ready.place)
    with pytest.raises(AssertionError, match="made again"):
        made_in(tmp_path / "two", asked)


def test_a_receipt_for_other_rows_proves_nothing(ready: Ready, tmp_path: Path) -> None:
    shard = ready.planned.shards[2]
    asked = ready.rows.put(shard)
    name = worker.receipt_name(shard.run, 2)
    made = make_shard(shard)
    for false in (b"", b"[]", b'{"number": 2}', json.dumps({**vars(made), "rows_sha256": "0" * 64}).encode()):
        ready.place.put_bytes(false, name)
        assert made_in(tmp_path / "worker", asked) == made
        assert json.loads(ready.place.bytes_of(name) or b"") == vars(made)
        ready.place.put_bytes(b"", name)


def test_a_worker_that_came_later_and_is_of_another_kind_refuses(
    ready: Ready, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from wrapwright.outside.cluster import alike

    theirs = {**alike.likeness(), "pikepdf": "1.0"}
    monkeypatch.setattr(alike, "likeness", lambda: theirs)
    with pytest.raises(WrapwrightError) as caught:
        made_in(tmp_path / "worker", ready.rows.put(ready.planned.shards[0]))
    assert caught.value.kind is Kind.SETUP
    assert "would not make the same bytes: pikepdf 1.0 instead of" in caught.value.message


def test_inputs_that_are_not_what_their_hash_says_are_never_read(
    ready: Ready, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(worker, "_place", lambda _address: ready.place)
    asked = ready.rows.put(ready.planned.shards[0])
    ready.place.put_bytes(b"cos\nsystem\n(S'false'\ntR.", part_name(ready.inputs))
    with pytest.raises(WrapwrightError, match="has other bytes than it should"):
        made_in(tmp_path / "worker", asked)


def test_a_worker_whose_folder_cannot_be_written(ready: Ready, tmp_path: Path) -> None:
    (tmp_path / "worker").write_text("a file", encoding="utf-8")
    with pytest.raises(WrapwrightError) as caught:
        made_in(tmp_path / "worker", ready.rows.put(ready.planned.shards[0]))
    assert caught.value.kind is Kind.UNUSABLE
    assert "the worker's folder cannot be written" in caught.value.message


def test_a_picture_that_changed_since_the_run_began_is_refused(ready: Ready) -> None:
    picture = ready.names.opened.path_of("cat.png")
    data = picture.read_bytes()
    picture.write_bytes(data + b"more")
    try:
        with pytest.raises(WrapwrightError) as caught:
            ready.rows.put(ready.planned.shards[0])
    finally:
        picture.write_bytes(data)
    assert caught.value.kind is Kind.REFUSED
    assert caught.value.where == "cat.png"


def test_a_job_that_changed_since_the_run_began_is_refused(ready: Ready) -> None:
    run = replace(ready.planned.run, job_sha256="0" * 64)
    with pytest.raises(WrapwrightError, match=r"regatta\.toml has been changed"):
        put_inputs(run, ready.names.opened, ready.names.asked.file, ready.bench, ready.place)


def test_nothing_of_this_machine_is_in_what_is_put(ready: Ready, job: Path) -> None:
    own = [str(job.parent.parent), str(ready.bench.folders.cache.parent)]
    files = [file for file in Path(ready.place.root).rglob("*") if file.is_file()]
    assert len(files) > 2
    assert [file for file in files if any(one.encode() in file.read_bytes() for one in own)] == []
