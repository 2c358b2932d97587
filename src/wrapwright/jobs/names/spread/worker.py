"""On a worker of a cluster: make one shard of a list from what stands in the place, and put it there."""

from __future__ import annotations

import contextlib
import json
import pickle
import shutil
import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.jobs.names.making.shard import make_shard, put_file, rows_of, shard_name
from wrapwright.jobs.names.making.values import Run, ShardMade, ShardRequest
from wrapwright.jobs.names.spread.values import AT_ONCE, Inputs, SpreadRequest, inside, job_folder
from wrapwright.outside.places.place import Place, part_name

# What the shards of a run share in one process is for one thread at a time.
_ONE = threading.Lock()


def make_spread_shard(request: SpreadRequest) -> ShardMade:
    """Return the shard, made or found in the place: its files stand there by the hashes that come back.

    Raises:
        WrapwrightError: set-up, when this worker would not make the same bytes as the machine that began; as
            `make_shard`; unusable or unreachable, when the place or this worker's folder is.
    """
    from wrapwright.outside.cluster.here import worker_folder, worker_name

    try:
        with _ONE:
            return made_in(worker_folder(), request)
    except WrapwrightError as problem:
        if not problem.where:
            problem.where = f"worker {worker_name()}"
        raise


def made_in(folder: Path, request: SpreadRequest) -> ShardMade:
    """Return the shard, made in a folder of this machine; raises as `make_spread_shard`."""
    place = _place(request.place)
    run = _run(place, request.inputs, folder)
    standing = _standing(place, run, request)
    if standing is not None:
        return standing
    rows = run.folder / shard_name(request.number, "rows")
    place.fetch(part_name(request.rows_sha256), rows, request.rows_sha256)
    lent = _pictures(place, run, rows)
    try:
        made = make_shard(ShardRequest(run, request.number, request.first, request.last))
        files = [run.folder / made.file, run.folder / made.list_file]
        with ThreadPoolExecutor(len(files)) as threads:
            list(threads.map(place.put_file, files, [part_name(made.sha256), part_name(made.list_sha256)]))
        place.put_bytes(json.dumps(vars(made)).encode("ascii"), receipt_name(run, request.number))
        return made
    finally:
        for file in (*lent, *run.folder.glob(f"{shard_name(request.number, '')}*")):
            with contextlib.suppress(OSError):
                file.unlink()


def receipt_name(run: Run, number: int) -> str:
    """Return the name under which it stands what a shard's files are."""
    return f"runs/{run.id[:32]}/{shard_name(number, 'json')}"


def _standing(place: Place, run: Run, request: SpreadRequest) -> ShardMade | None:
    data = place.bytes_of(receipt_name(run, request.number))
    try:
        said: dict[str, Any] = json.loads(data or b"")
        made = ShardMade(**said)
    except (ValueError, TypeError):
        return None
    same = made.number == request.number and made.rows_sha256 == request.rows_sha256
    whole = same and all(place.has(part_name(one)) for one in (made.sha256, made.list_sha256))
    return made if whole else None


@lru_cache(maxsize=2)
def _place(address: str) -> Place:
    from wrapwright.outside.places.opening import open_place

    return open_place(address)


@lru_cache(maxsize=1)
def _run(place: Place, inputs_sha256: str, folder: Path) -> Run:
    """Return the run as this worker makes it: its files fetched into a folder of its own, an older run's deleted."""
    own = folder / "runs" / inputs_sha256[:32]
    for old in (folder / "runs").glob("*"):
        if old != own:
            shutil.rmtree(old, ignore_errors=True)
    try:
        for one in (own / "made", own / "data", own / "fonts", own / job_folder(), folder / "cache"):
            one.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise unusable(f"the worker's folder cannot be written: {error.strerror}.") from error
    inputs = _inputs(place, inputs_sha256, own)
    for part in inputs.parts:
        target = own / (inside(part.name) if part.beside == "job" else Path("fonts") / part.name)
        target.parent.mkdir(parents=True, exist_ok=True)
        place.fetch(part_name(part.sha256), target, part.sha256)
    table = own / inside(inputs.table)
    table.parent.mkdir(parents=True, exist_ok=True)
    table.touch()  # that it is there is looked at; its rows come with each shard
    return replace(
        inputs.run,
        job=own / job_folder() / inputs.run.job,
        folder=own / "made",
        cache=folder / "cache",
        data=own / "data",
        fonts=own / "fonts",
    )


def _inputs(place: Place, sha256: str, own: Path) -> Inputs:
    """Return what the shards share, whose bytes have been held against their hash before they are read.

    Raises:
        WrapwrightError: set-up, when this worker is of another kind than the machine that began.
    """
    from wrapwright.core.base.errors import Kind
    from wrapwright.outside.cluster.alike import differences, likeness, sentence
    from wrapwright.outside.cluster.here import worker_name

    place.fetch(part_name(sha256), own / "inputs", sha256)
    inputs: Inputs = pickle.loads((own / "inputs").read_bytes())
    told = differences(inputs.likeness, likeness())
    if told:
        remedy = "Install the same lock on all machines of one kind of processor; what was made so far is kept."
        raise WrapwrightError(Kind.SETUP, sentence(worker_name(), told), remedy=remedy)
    return inputs


def _pictures(place: Place, run: Run, rows: Path) -> list[Path]:
    """Return the pictures that only rows name, fetched to where the job looks for them."""
    top = run.job.parent
    for _ in job_folder().parts:
        top = top.parent
    found: dict[Path, str] = {}
    for one in rows_of(rows):
        for written, sha256 in one.inputs.items():
            if sha256:
                found[top / inside(written)] = sha256
    lent = {target: sha256 for target, sha256 in found.items() if not target.exists()}
    for target in lent:
        target.parent.mkdir(parents=True, exist_ok=True)
    if lent:
        with ThreadPoolExecutor(AT_ONCE) as threads:
            names = [part_name(sha256) for sha256 in lent.values()]
            list(threads.map(place.fetch, names, lent, lent.values()))
    return list(lent)


def put_made(place: Place, request: ShardRequest, made: ShardMade) -> ShardMade:
    """Return a shard once its files stand in the run's folder here, as if it had been made here.

    Raises:
        WrapwrightError: unusable, when they cannot be fetched or written; unreachable.
    """
    folder = request.run.folder
    pdf, listed = shard_name(request.number, "pdf"), shard_name(request.number, "jsonl")
    place.fetch(part_name(made.sha256), folder / pdf, made.sha256)
    place.fetch(part_name(made.list_sha256), folder / listed, made.list_sha256)
    made = replace(made, number=request.number, file=pdf, list_file=listed)
    put_file(folder / shard_name(request.number, "json"), json.dumps(vars(made)))
    return made
