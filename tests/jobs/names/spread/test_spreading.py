"""A list made by a real scheduler and three workers on this machine, held against its serial making byte for byte."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from importlib import import_module
from pathlib import Path

import psutil
import pytest
from tests.jobs.names.spread.conftest import Kept, hashes

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.names.spread.spreading import Spread, check_spread

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
