"""What a shard, a piece, a task and a file in a place cost on this machine: measured, in seconds of processor time."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import numpy as np
from benchmarks.names_parts._day import Costs
from benchmarks.names_parts._lists import names_of

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.checking import ready_list
from wrapwright.jobs.names.contact.handling import handling_pdf
from wrapwright.jobs.names.making.parts import MANIFEST, Files, Joining, write_manifest
from wrapwright.jobs.names.making.planning import Planned, Wanted, plan, put_rows
from wrapwright.jobs.names.making.shard import make_shard
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.spread.inputs import Rows, put_inputs
from wrapwright.jobs.names.spread.values import AT_ONCE
from wrapwright.jobs.names.spread.worker import put_made
from wrapwright.jobs.open_bench import open_bench
from wrapwright.outside.places.opening import open_place
from wrapwright.outside.places.place import Place

NAMED = """format = 1
[blank]
kind = "tapered"
girth_top = "240 mm"
girth_bottom = "220 mm"
wall = "100 mm"
[sheet]
paper = "A3"
[[element]]
kind = "picture"
name = "ground"
file = "ground.png"
width = "wrap"
[[element]]
kind = "text"
text = "{name}"
width = "70 mm"
height = "14 mm"
[names]
file = "crew.csv"
"""
PICTURED = """[[element]]
kind = "picture"
name = "face"
file = "face-0.png"
width = "30 mm"
at = "back"
"""
FACES = 40


def job_in(folder: Path, pieces: int, *, pictures: bool) -> Path:
    """Return the path of a job whose list has so many rows: names alone, or a photograph each as well."""
    from PIL import Image

    random = np.random.default_rng(5)
    grain = random.integers(0, 255, (40, 90, 3), dtype=np.uint8)
    Image.fromarray(grain).resize((2800, 1200)).save(folder / "ground.png")
    for number in range(FACES if pictures else 0):
        face = random.integers(0, 255, (12, 10, 3), dtype=np.uint8)
        Image.fromarray(face).resize((400, 480)).save(folder / f"face-{number}.png")
    rows = [f"{name},face-{at % FACES}.png" if pictures else name for at, name in enumerate(names_of(pieces))]
    (folder / "crew.csv").write_text("\n".join(["name,face" if pictures else "name", *rows]) + "\n", encoding="utf-8")
    more = '[names.pictures]\nface = "face"\n' if pictures else ""
    text = NAMED.replace("[names]", f"{PICTURED}[names]") if pictures else NAMED
    (folder / "job.toml").write_text(text + more, encoding="utf-8")
    return folder / "job.toml"


def costs_of(pieces: int, *, pictures: bool) -> Costs:
    """Return what a list costs here; a store is given common figures, for there is none on this machine."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        one, few = (
            _Run(folder / name, count, pictures=pictures) for name, count in (("all", pieces), ("few", pieces // 4))
        )
        start, shards = one.shards()
        rows, fetch = one.through_a_place()
        sizes = np.array([[1.0, count] for count, _, _ in shards])
        fit = np.linalg.lstsq(sizes, np.array([s for _, s, _ in shards]))[0]
        size = np.linalg.lstsq(sizes, np.array([b for _, _, b in shards]))[0]
        # Of few pieces the difference can drown in the machine's pace, and is no less than nothing.
        each_page_s = max(0.0, (one.handling() - few.handling()) / (one.pieces - few.pieces))
        return Costs(
            piece_s=float(fit[1]),
            shard_s=max(0.0, float(fit[0])),
            start_s=start,
            piece_bytes=float(size[1]),
            shard_bytes=max(0.0, float(size[0])),
            row_bytes=one.row_bytes(),
            row_pictures=int(pictures),
            inputs_bytes=float(one.inputs_bytes()),
            task_s=task_cost(300),
            request_s=0.03,
            bandwidth=100e6,
            check_piece_s=(one.checked() - few.checked()) / (one.pieces - few.pieces),
            put_piece_s=rows / one.pieces,
            take_piece_s=fetch / one.pieces,
            join_piece_s=one.join() / one.pieces,
            papers_piece_s=one.manifest() / one.pieces + each_page_s,
        )


class _Run:
    """A list planned, its shards of several sizes."""

    def __init__(self, folder: Path, pieces: int, *, pictures: bool) -> None:
        folder.mkdir()
        self.folder, self.pieces = folder, pieces
        self.bench = open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "fonts", threads=1)
        job = job_in(folder, pieces, pictures=pictures)
        self.names = open_list(job, None, self.bench)
        self.planned: Planned = plan(self.names, Wanted(pieces, pieces, seconds=0.0), self.bench, Watch())
        list(put_rows(self.names, self.planned, None, Watch()))
        self.made = []
        self.place: Place = open_place(str(folder / "place"))

    def shards(self) -> tuple[float, list[tuple[int, float, float]]]:
        """Return what beginning takes, and (pieces, seconds, bytes) of each shard but the first, and of its halves."""
        found: list[tuple[int, float, float]] = []
        first = 0.0
        for shard in self.planned.shards:
            seconds = timed(lambda shard=shard: self.made.append(make_shard(shard)))
            made = self.made[-1]
            size = sum((shard.run.folder / name).stat().st_size for name in (made.file, made.list_file))
            if shard.number:
                found.append((made.pieces, seconds, size))
            else:
                first = seconds
        tiny = replace(self.planned.shards[1], last=self.planned.shards[1].first + 1)
        (tiny.run.folder / "shard-000001.json").rename(tiny.run.folder / "kept")
        for _ in range(3):
            seconds = timed(lambda: make_shard(tiny))
            size = (tiny.run.folder / "shard-000001.pdf").stat().st_size
            found.append((tiny.run.places.a_sheet, seconds, size))
            (tiny.run.folder / "shard-000001.json").unlink()
        make_shard(self.planned.shards[1])
        middle = sorted(seconds for _, seconds, _ in found)[len(found) // 2]
        return max(0.0, first - middle), found

    def checked(self) -> float:
        """Return what looking through all rows takes, once what it needs is there."""
        ready_list(self.names, self.bench, Watch())
        return timed(lambda: ready_list(self.names, self.bench, Watch()))

    def join(self) -> float:
        """Return what joining the sheets takes."""
        out = self.folder / "out"
        out.mkdir()

        def step() -> None:
            joining = Joining(self.planned, Files(self.planned.run.places.sheets, 500), out)
            for made in self.made:
                joining.take(made)

        return timed(step)

    def manifest(self) -> float:
        """Return what the manifest takes."""
        files = Files(self.planned.run.places.sheets, 500)
        return timed(lambda: write_manifest(self.planned.run, self.made, files, self.folder / MANIFEST))

    def handling(self) -> float:
        """Return what the handling list takes."""
        file, told = self.folder / "handling.pdf", {"rows": None, "refused": {}}
        with self.bench.pool.held() as pool:
            bench = replace(self.bench, pool=pool)
            return timed(lambda: handling_pdf(self.names, self.planned, file, bench, Watch(), **told))

    def through_a_place(self) -> tuple[float, float]:
        """Return what handing over all rows takes, and fetching all shards."""
        run, opened = self.planned.run, self.names.opened
        inputs = put_inputs(run, opened, self.names.asked.file, self.bench, self.place)
        with ThreadPoolExecutor(AT_ONCE) as threads:
            rows = Rows(opened, self.place, inputs, threads)
            for file in run.folder.glob("*.rows"):
                file.unlink()
            out = timed(lambda: [rows.put(one) for one in put_rows(self.names, self.planned, None, Watch())])
        for made in self.made:
            for name, sha256 in ((made.file, made.sha256), (made.list_file, made.list_sha256)):
                self.place.put_part(run.folder / name, sha256)
        shards = list(zip(self.planned.shards, self.made, strict=True))
        return out, timed(lambda: [put_made(self.place, shard, made) for shard, made in shards])

    def row_bytes(self) -> float:
        run = self.planned.run
        rows = sum(file.stat().st_size for file in run.folder.glob("*.rows"))
        faces = [file.stat().st_size for file in self.folder.glob("face-*.png")]
        return rows / self.pieces + (sum(faces) / len(faces) if faces else 0.0)

    def inputs_bytes(self) -> int:
        return sum((self.folder / name).stat().st_size for name in ("job.toml", "ground.png"))


def timed(step: Callable[[], object]) -> float:
    """Return the processor time that a step takes in this process and in its children, in seconds."""
    import psutil

    def now() -> float:
        own = psutil.Process().cpu_times()
        return float(own.user + own.system + getattr(own, "children_user", 0.0) + getattr(own, "children_system", 0.0))

    before = now()
    step()
    return now() - before


def task_cost(tasks: int) -> float:
    """Return the processor time of one empty task, client, scheduler and worker together: at most the scheduler's."""
    from distributed import LocalCluster

    from wrapwright.outside.cluster.pool import open_cluster

    here = {"protocol": "tcp", "host": "127.0.0.1", "scheduler_port": 0, "dashboard_address": "127.0.0.1:0"}
    running = LocalCluster(n_workers=2, threads_per_worker=1, processes=False, silence_logs=100, **here)
    with running, open_cluster(running.scheduler_address) as pool:
        list(pool.map(abs, range(20)))
        before = time.process_time()
        list(pool.map(abs, range(tasks)))
        return (time.process_time() - before) / tasks
