"""A list made by a real scheduler and three workers on this machine, held against its serial making byte for byte."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Any

import psutil
import pytest
from tests.jobs.names.spread.conftest import Kept, hashes

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.names.making.parts import Files, Joining
from wrapwright.jobs.names.making.planning import Planned, Wanted, plan, put_rows
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest
from wrapwright.jobs.names.opening import NamesList, open_list
from wrapwright.jobs.names.spread.spreading import Spread, _made, check_spread
from wrapwright.jobs.names.spread.values import SHARDS_AT_ONCE
from wrapwright.outside.cluster.pool import AHEAD, ClusterPool, open_cluster
from wrapwright.outside.places.opening import open_place

distributed = pytest.importorskip("distributed")
moto = pytest.importorskip("moto.server")

KEY = {"AWS_ACCESS_KEY_ID": "testing", "AWS_SECRET_ACCESS_KEY": "testing", "AWS_DEFAULT_REGION": "us-east-1"}


@pytest.fixture(scope="module")
def store() -> Iterator[str]:
    """A store that speaks S3 in this process, and the environment by which this process and its workers find it."""
    server = moto.ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    server.start()
    host, port = server.get_host_and_port()
    with pytest.MonkeyPatch.context() as patch:
        for name, value in {**KEY, "AWS_ENDPOINT_URL": f"http://{host}:{port}"}.items():
            patch.setenv(name, value)
        import fsspec

        fsspec.filesystem("s3").mkdir("lists")
        yield "s3://lists/of-names"
        fsspec.filesystem("s3").clear_instance_cache()
    server.stop()


@pytest.fixture(scope="module")
def cluster(store: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[object]:
    """A scheduler and three workers, processes of their own; ports are the system's choice."""
    assert store
    here = {"host": "127.0.0.1", "scheduler_port": 0, "dashboard_address": "127.0.0.1:0", "silence_logs": 100}
    with distributed.LocalCluster(n_workers=0, **here) as running:
        folder = tmp_path_factory.mktemp("workers")
        workers = [started(running.scheduler_address, folder) for _ in range(3)]
        try:
            with distributed.Client(running) as client:
                client.wait_for_workers(3, timeout=60)
            yield running
        finally:
            for one in workers:
                one.kill()
                one.wait()


def started(address: str, folder: Path, environment: Mapping[str, str] | None = None) -> subprocess.Popen[bytes]:
    """Return a worker's process, begun."""
    words = [sys.executable, "-m", "distributed.cli.dask_worker", address, "--no-nanny", "--no-dashboard"]
    words += ["--nthreads", "1", "--local-directory", str(folder)]
    everything = {**os.environ, **(environment or {})}
    return subprocess.Popen(words, env=everything, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def request_for(job: Path, folder: Path, cluster: object, place: str) -> MakeNames:
    return MakeNames(job, folder, seconds=0.0, cluster=cluster.scheduler_address, place=place)  # type: ignore[attr-defined]


def test_a_worker_is_killed_and_the_bytes_are_those_of_one_machine(
    job: Path, kept: Kept, serial: dict[str, str], cluster: object, store: str, tmp_path: Path
) -> None:
    killed: list[int] = []
    told: list[str] = []

    def progress(words: str, _share: float) -> None:
        told.append(words)
        if " a second" in words and not killed:
            with distributed.Client(cluster) as client:
                busy = [address for address, keys in client.processing().items() if keys]
                killed.append(client.run(os.getpid, workers=busy[:1])[busy[0]])
            psutil.Process(killed[0]).kill()

    request = request_for(job, tmp_path / "out", cluster, store)
    made = make_names(request, kept("far"), Watch(progress))
    assert len(killed) == 1
    assert hashes(tmp_path / "out") == serial
    assert made.report["names"]["made"] == 40
    assert any(words.endswith(" left") for words in told)


def test_another_machine_takes_up_what_stands_in_the_place(
    job: Path, kept: Kept, serial: dict[str, str], cluster: object, tmp_path: Path
) -> None:
    place = tmp_path / "place"
    make_names(request_for(job, tmp_path / "one", cluster, str(place)), kept("one"), Watch())
    assert hashes(tmp_path / "one") == serial
    receipts = {file: file.stat().st_mtime_ns for file in place.glob("runs/*/shard-*.json")}
    assert len(receipts) > 3
    lost = min(receipts)
    said = json.loads(lost.read_text(encoding="utf-8"))
    (place / "parts" / said["sha256"][:2] / said["sha256"]).unlink()
    make_names(request_for(job, tmp_path / "two", cluster, str(place)), kept("two"), Watch())
    assert hashes(tmp_path / "two") == serial
    again = {file for file, when in receipts.items() if file.stat().st_mtime_ns != when}
    assert again == {lost}


def test_a_worker_with_another_processor_is_refused_before_the_work(
    cluster: object, store: str, tmp_path: Path
) -> None:
    loops = import_module("numpy._core._multiarray_umath")
    usable = [name for name in loops.__cpu_dispatch__ if loops.__cpu_features__[name]]
    if not usable:
        pytest.skip("numpy has nothing on this processor that could be switched off")
    address = cluster.scheduler_address  # type: ignore[attr-defined]
    with distributed.Client(cluster) as client:
        before = len(client.scheduler_info(n_workers=-1)["workers"])
        other = started(address, tmp_path, {"NPY_DISABLE_CPU_FEATURES": usable[-1]})
        client.wait_for_workers(before + 1, timeout=60)
    try:
        with pytest.raises(WrapwrightError) as caught:
            check_spread(Spread(address, store))
        assert caught.value.kind is Kind.SETUP
        assert f"a processor without {usable[-1]}" in caught.value.message
        assert "nothing was begun" in caught.value.remedy
    finally:
        other.kill()
        other.wait()
    with distributed.Client(cluster) as client:
        until = time.monotonic() + 30
        while len(client.scheduler_info(n_workers=-1)["workers"]) > before and time.monotonic() < until:
            time.sleep(0.05)
    check_spread(Spread(address, store))


@pytest.mark.parametrize(
    ("spread", "kind", "words"),
    [
        (Spread("", "/lists"), Kind.USAGE, "a place is of use only with a cluster"),
        (Spread("tcp://127.0.0.1:1", ""), Kind.USAGE, "a cluster needs a place"),
        (Spread("somewhere", "/lists"), Kind.USAGE, "somewhere is no address of a cluster"),
        (Spread("tcp://127.0.0.1:1", "lists"), Kind.USAGE, "the place lists is a relative path"),
    ],
)
def test_what_is_asked_wrongly_is_told_before_anything_is_read(
    spread: Spread, kind: Kind, words: str, kept: Kept, tmp_path: Path
) -> None:
    request = MakeNames(tmp_path / "none.toml", tmp_path / "out", cluster=spread.cluster, place=spread.place)
    with pytest.raises(WrapwrightError) as caught:
        make_names(request, kept("asked"), Watch())
    assert caught.value.kind is kind
    assert words in caught.value.message
    assert not (tmp_path / "out").exists()


def test_a_list_made_here_needs_neither() -> None:
    check_spread(Spread())


class Slow:
    """Stands before a file system: each call from this machine's threads takes a while, and those at once are counted.

    Attributes:
        fails_at: the fetch of this number does not succeed.
    """

    def __init__(self, system: Any, seconds: float, fails_at: int = 0) -> None:
        self.system, self.seconds, self.fails_at = system, seconds, fails_at
        self.inside: Counter[str] = Counter()
        self.most: Counter[str] = Counter()
        self.calls: Counter[str] = Counter()
        self.lock = threading.Lock()

    def __getattr__(self, name: str) -> Any:
        return getattr(self.system, name)

    def put_file(self, source: str, path: str, *, timeout: float) -> None:
        assert timeout > 0
        self._slowly("put", lambda: self.system.put_file(source, path))

    def get_file(self, path: str, target: str) -> None:
        self._slowly("get", lambda: self.system.get_file(path, target))

    def _slowly(self, kind: str, step: Callable[[], object]) -> None:
        with self.lock:
            self.inside[kind] += 1
            self.calls[kind] += 1
            number = self.calls[kind]
            self.most[kind] = max(self.most[kind], self.inside[kind])
        time.sleep(self.seconds * (1 if kind == "put" else 4))
        with self.lock:
            self.inside[kind] -= 1
        if kind == "get" and number == self.fails_at:
            raise OSError(errno.ENOSPC, "No space left on device")
        step()


@pytest.fixture
def near(job: Path, kept: Kept, tmp_path: Path) -> Iterator[Near]:
    """A worker in this process, and a list planned whose shards it may make."""
    bench = kept(tmp_path.name)
    names = open_list(job, None, bench)
    planned = plan(names, Wanted(40, 40, seconds=0.0), bench, Watch())
    here = {"protocol": "tcp", "host": "127.0.0.1", "scheduler_port": 0, "dashboard_address": "127.0.0.1:0"}
    with (
        distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=False, silence_logs=100, **here) as two,
        open_cluster(two.scheduler_address) as pool,
    ):
        yield Near(names, planned, bench, pool, tmp_path / "place")


@dataclass(frozen=True)
class Near:
    """What shards are made with, at a place that is a folder; nothing of the product reads its files here."""

    names: NamesList
    planned: Planned
    bench: Bench
    pool: ClusterPool
    folder: Path

    def made(self, slow: Slow, taken: list[int]) -> Iterator[tuple[int, ShardMade]]:
        """Yield the shards, their rows handed over to a slow place and their files fetched from it."""

        def coming() -> Iterator[ShardRequest]:
            for one in put_rows(self.names, self.planned, None, Watch()):
                taken.append(one.number)
                yield one

        place = replace(open_place(str(self.folder)), system=slow, local=False, wait_s=0.0)
        return _made(self.pool, place, self.names, self.planned, self.bench, coming())


def ours() -> list[str]:
    """Return the names of the threads that hand over and fetch; the cluster of this process has its own."""
    return [one.name for one in threading.enumerate() if one.name.startswith(("shards", "pictures"))]


def slow_files(seconds: float, fails_at: int = 0) -> Slow:
    import fsspec

    return Slow(fsspec.filesystem("file", auto_mkdir=True), seconds, fails_at)


def test_a_slow_place_is_waited_for_by_several_shards_at_once(near: Near, serial: dict[str, str]) -> None:
    """Two workers have four shards before their turn, so that four rows are put at once; files as they come."""
    slow, taken = slow_files(0.05), []
    most = 0
    files = Files(near.planned.run.places.sheets, 500)
    joining = Joining(near.planned, files, near.folder.parent)
    for done, (_, made) in enumerate(near.made(slow, taken)):
        most = max(most, len(taken) - done)
        joining.take(made)
        assert ours() != []
    assert slow.most["put"] >= 3
    assert slow.most["get"] >= 2
    assert slow.most["put"] <= SHARDS_AT_ONCE
    assert most <= AHEAD * 2 + SHARDS_AT_ONCE
    assert ours() == []
    assert hashes(near.folder.parent, "sheets.pdf") == {"sheets.pdf": serial["sheets.pdf"]}


@pytest.mark.parametrize("stopped", [False, True])
def test_an_error_and_a_stop_drop_the_rest_and_leave_no_thread(near: Near, stopped: bool) -> None:
    slow, taken = slow_files(0.02, fails_at=0 if stopped else 3), []
    results = near.made(slow, taken)
    if stopped:
        next(results)
        results.close()  # type: ignore[attr-defined]
    else:
        with pytest.raises(WrapwrightError, match="No space left on device") as caught:
            list(results)
        assert caught.value.kind is Kind.UNUSABLE
    assert ours() == []
    calls = dict(slow.calls)
    assert len(taken) < len(near.planned.shards)
    until = time.monotonic() + 10
    while any(near.pool.client.processing().values()) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(near.pool.client.processing().values())
    assert dict(slow.calls) == calls
