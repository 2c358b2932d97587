"""A list made by a cluster on this machine: processor time and most memory, read inside each of its processes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from benchmarks.names_parts._lists import job_with

WORKERS = 2
KEY = {"AWS_ACCESS_KEY_ID": "bench", "AWS_SECRET_ACCESS_KEY": "bench", "AWS_DEFAULT_REGION": "us-east-1"}
_WAIT_S = 60.0
# A program: functions of its own main module go to the cluster as they are, and need not be installed there.
RUN = '''
import json, sys, time
from pathlib import Path


def spent():
    """Return processor time, and the most memory in kB: what getrusage calls so counts the starter's as well."""
    status = Path("/proc/self/status")
    if status.is_file():
        peak = int(status.read_text().split("VmHWM:")[1].split()[0])
    else:
        import resource
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // (1000 if sys.platform == "darwin" else 1)
    return [time.process_time(), peak]


if __name__ == "__main__":
    from distributed import Client
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.names.make_names import MakeNames, make_names
    from wrapwright.jobs.open_bench import open_bench

    job, folder, address, place, workers = *map(Path, sys.argv[1:3]), *sys.argv[3:5], int(sys.argv[5])
    if place.startswith("s3://"):
        import fsspec
        fsspec.filesystem("s3").mkdir(place.split("/")[2])
    with Client(address, set_as_default=False) as client:
        client.wait_for_workers(workers, timeout=60)
    bench = open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "data", threads=1)
    begun = time.monotonic()
    made = make_names(MakeNames(job, folder / "out", cluster=address, place=place), bench, Watch())
    wall, own = time.monotonic() - begun, spent()
    with Client(address, set_as_default=False) as client:
        found = {"client": [own], "scheduler": [client.run_on_scheduler(spent)]}
        found["worker"] = list(client.run(spent).values())
    print(json.dumps([wall, made.report["names"]["made"], found]))
'''


@dataclass(frozen=True)
class Spent:
    """What a process spent: seconds, and megabytes at the most."""

    seconds: float
    peak_mb: float


@dataclass(frozen=True)
class Made:
    """A list made by a cluster: client, scheduler and workers as they were at its end."""

    wall_s: float
    rows: int
    spent: Mapping[str, Sequence[Spent]]


def made_by_cluster(folder: Path, rows: int, *, store: bool = False) -> Made:
    """Return what a list of so many rows costs each process of a cluster begun for it; a folder or a store between."""
    job = job_with(folder / "job", rows)
    script = folder / "run.py"
    script.write_text(RUN, encoding="utf-8")
    with _store(folder) if store else _no_store(folder) as (place, environment), _cluster(folder, environment) as where:
        words = [sys.executable, str(script), str(job), str(folder), where, place, str(WORKERS)]
        said = subprocess.run(words, capture_output=True, text=True, check=False, env=environment)
    if said.returncode:
        raise SystemExit(said.stderr)
    wall, made, found = json.loads(said.stdout.splitlines()[-1])
    spent = {name: [Spent(seconds, peak / 1e3) for seconds, peak in all_of] for name, all_of in found.items()}
    return Made(wall, made, spent)


@contextmanager
def _cluster(folder: Path, environment: Mapping[str, str]) -> Iterator[str]:
    """Give the address of a scheduler and its workers, processes of their own."""
    said = folder / "scheduler.json"
    begin = [sys.executable, "-m"]
    words = ["--host", "127.0.0.1", "--port", "0", "--no-dashboard", "--scheduler-file", str(said)]
    with _running([*begin, "distributed.cli.dask_scheduler", *words], environment):
        address = json.loads(_waited_for(said))["address"]
        words = [address, "--no-nanny", "--no-dashboard", "--nthreads", "1", "--local-directory", str(folder / "w")]
        worker = [*begin, "distributed.cli.dask_worker", *words]
        with _running(worker, environment), _running(worker, environment):
            yield address


@contextmanager
def _no_store(folder: Path) -> Iterator[tuple[str, Mapping[str, str]]]:
    yield str(folder / "place"), dict(os.environ)


@contextmanager
def _store(folder: Path) -> Iterator[tuple[str, Mapping[str, str]]]:
    """Give the address of a store that speaks S3, a process of its own that keeps all in memory."""
    port = folder / "port"
    serve = (
        "import sys, threading, pathlib, moto.server as m\n"
        "server = m.ThreadedMotoServer(ip_address='127.0.0.1', port=0, verbose=False); server.start()\n"
        "pathlib.Path(sys.argv[1]).write_text(str(server.get_host_and_port()[1])); threading.Event().wait()"
    )
    with _running([sys.executable, "-c", serve, str(port)], os.environ):
        environment = {**os.environ, **KEY, "AWS_ENDPOINT_URL": f"http://127.0.0.1:{_waited_for(port)}"}
        yield "s3://lists/of-names", environment


@contextmanager
def _running(words: Sequence[str], environment: Mapping[str, str]) -> Iterator[None]:
    running = subprocess.Popen(words, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield
    finally:
        running.kill()
        running.wait()


def _waited_for(file: Path) -> str:
    until = time.monotonic() + _WAIT_S
    while time.monotonic() < until:
        if file.is_file() and (text := file.read_text(encoding="utf-8")):
            return text
        time.sleep(0.05)
    raise SystemExit(f"{file.name} was not written within {_WAIT_S:.0f} s")
