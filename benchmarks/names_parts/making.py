"""Making names: what a piece costs beside rendering it fully, and how time and memory grow with the list.

Time is processor time, so that other work on the machine does not count, unless it says wall. Ratios are of one run.
"""

from __future__ import annotations

import json
import math
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from benchmarks.names_parts._lists import job_with
from benchmarks.page import profile_file

PIECES = 500
FULL = 5  # pieces that are rendered fully
FROM = 501  # rows of the list that others are held against: one row more than stands on a contact sheet whole
TURNS, TURNS_TO = 3, 10_000  # so many turns of two workers and one, of lists up to so long
RUN = """
import json, resource, sys, time
from pathlib import Path
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.open_bench import open_bench
if __name__ == "__main__":
    job, folder, cache, workers = Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]), int(sys.argv[4])
    bench = open_bench(cache=cache, data=folder / "data", fonts=folder / "data", threads=workers)
    begun = time.monotonic()
    make_names(MakeNames(job, folder / "out"), bench, Watch())
    wall = time.monotonic() - begun
    own, workers = resource.getrusage(resource.RUSAGE_SELF), resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = [one.ru_utime + one.ru_stime for one in (own, workers)]
    print(json.dumps([wall, *spent, own.ru_maxrss, workers.ru_maxrss]))
"""


@dataclass(frozen=True)
class Run:
    """A making in a process of its own: seconds, and megabytes at the most."""

    wall_s: float
    own_s: float
    workers_s: float
    own_mb: float
    worker_mb: float

    @property
    def all_s(self) -> float:
        """Processor time in all."""
        return self.own_s + self.workers_s


def rows(quick: bool) -> Iterator[str]:  # noqa: FBT001
    """Yield the figures, line by line."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        yield from _a_piece(folder / "piece")
        yield from _growth(folder, [1, PIECES, 1000] if quick else [1, PIECES, 1000, 10_000, 100_000])


def _a_piece(folder: Path) -> Iterator[str]:
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.names.making.base import base_of, colour_of
    from wrapwright.jobs.names.making.planning import Wanted, plan, put_rows
    from wrapwright.jobs.names.making.shard import make_shard
    from wrapwright.jobs.names.opening import open_list
    from wrapwright.jobs.open_bench import open_bench
    from wrapwright.outside.pdf.listed.merging import Pages, merged_pdf
    from wrapwright.outside.pdf.metadata import About

    bench = open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "data", threads=1)
    names = open_list(job_with(folder / "job", PIECES), None, bench)
    planned = plan(names, Wanted(PIECES, PIECES), bench, Watch())
    list(put_rows(names, planned, None, Watch()))
    run = planned.run
    make_shard(planned.shards[0])  # draws the shared artwork, which is no piece's own cost
    (run.folder / "shard-000000.json").unlink()
    begun = time.process_time()
    made = [make_shard(one) for one in planned.shards]
    parts = [
        Pages(run.folder / one.file, 0, asked.last - asked.first)
        for one, asked in zip(made, planned.shards, strict=True)
    ]
    merged_pdf(parts, colour_of(planned.composed), about=About("t", "w", ""), file=folder / "sheets.pdf")
    cost = (time.process_time() - begun) / PIECES
    yield f"{PIECES} names on a tapered wrap, {run.places.a_sheet} a sheet: {cost * 1e3:.2f} ms a piece (goal 2.5)"
    yield f"bytes beyond the shared artwork: {_beyond(folder / 'sheets.pdf') / PIECES / 1e3:.2f} kB a piece (goal 6)"
    full = _full(names, planned, bench, folder)
    yield f"rendered fully: {full * 1e3:.0f} ms a piece, {full / cost:.0f} times as much (goal 150)"
    yield f"ink: at most {_ink_off(base_of(run)):.2f} codes from the raster's (goal 1)"
    converted = open_list(job_with(folder / "converted", 1, profile=profile_file()), None, bench)
    base = base_of(plan(converted, Wanted(1, 1), bench, Watch()).run)
    yield f"ink on the convert route, CMYK: at most {_ink_off(base):.2f} codes from the raster's (goal 1)"


def _beyond(file: Path) -> int:
    """Return the bytes of a file that are neither shared pixels nor the profile."""
    import pikepdf

    shared = 0
    with pikepdf.open(file) as pdf:
        for one in pdf.objects:
            if isinstance(one, pikepdf.Stream) and (one.get("/Subtype") == "/Image" or "/N" in one):
                shared += len(one.read_raw_bytes())
    return file.stat().st_size - shared


def _full(names: Any, planned: Any, bench: Any, folder: Path) -> float:
    """Return the processor time of composing and rendering pieces one by one, all pixels anew."""
    from wrapwright.core.design.borders import bleed_outline
    from wrapwright.core.design.drawlist import PlacedOutline
    from wrapwright.jobs.lay.printing import painted
    from wrapwright.jobs.names.making.base import base_of, colour_of, composed_for
    from wrapwright.jobs.names.making.planning import pieces_of
    from wrapwright.outside.pdf.laid import ArtOf, laid_pdf
    from wrapwright.outside.pdf.metadata import About

    pages, rows_of = base_of(planned.run).pages, pieces_of(names)
    page = pages.page(0, [(number + 1, "") for number in planned.run.places.on(0)])
    begun = time.process_time()
    for number in range(FULL):
        composed = composed_for(names.opened, next(rows_of)[1], bench)
        _, vector = composed.parts
        items = tuple(one for index in vector if isinstance(one := composed.draw_list.items[index], PlacedOutline))
        paint = partial(
            painted, composed, tuple(range(len(composed.draw_list.items))), composed.opened.job.sheet.ppi, 1
        )
        bleed = bleed_outline(pages.good.wrap, pages.good.bleed_mm)
        art = ArtOf(colour_of(composed), composed.colouring.ink, bleed, items, paint)
        scratch = folder / f"scratch-{number}"
        scratch.mkdir()
        one = type(page)(page.width_mm, page.height_mm, page.pieces[:1])
        laid_pdf([one], [art], ppi=300, about=About("t", "w", ""), file=folder / f"full-{number}.pdf", scratch=scratch)
    return (time.process_time() - begun) / FULL


def _ink_off(base: Any) -> float:
    """Return by how many codes of 255 letters' ink is off the pixels of the same colour."""
    import numpy as np

    from wrapwright.jobs.work.painting import device_strips

    colours = np.stack(np.meshgrid(*[np.arange(0, 256, 51)] * 3), axis=-1).reshape(1, -1, 3).astype(np.uint8)
    worst = 0.0
    with device_strips(base.composed.colouring, lambda _first, _last: colours) as strip:
        pixels = strip(0, 1)[0].astype(np.float64)
    for colour, pixel in zip(colours[0], pixels, strict=True):
        ink = base.art.ink(tuple(float(value) / 255.0 for value in colour))
        worst = max(worst, float(np.abs(np.array(ink) * 255.0 - pixel).max()))
    return worst


def _growth(folder: Path, counts: list[int]) -> Iterator[str]:
    cache = folder / "cache"
    first = _ran(folder / "first", cache, 1, 1)
    yield f"1 row on a machine that has made nothing yet: {first.wall_s:.1f} s wall; what follows finds its fonts cut"
    found: dict[int, Run] = {}
    for count in counts:
        found[count] = one = _ran(folder / f"of-{count}", cache, count, 1)
        yield f"{count} rows, one worker: {one.wall_s:.1f} s wall, {one.all_s:.1f} s, {one.own_mb:.0f} MB"
    last = counts[-1]
    yield from _further(folder, cache, found, counts[2:])
    more = found[last].own_mb - found[PIECES].own_mb
    yield f"memory at {last} rows: {more:+.0f} MB beside {PIECES} rows (goal +50)"
    few = _ran(folder / "few", cache, PIECES, 2)
    for count in counts[3:] or [last]:
        yield from _shared(folder, cache, count, few, found[count])


def _further(folder: Path, cache: Path, found: dict[int, Run], counts: list[int]) -> Iterator[str]:
    """Yield what further rows cost, and how that grows with their number.

    What does not hang on the rows is left out: the process, the layout, the shared artwork, the papers and the sample
    on the contact sheet, all of which a list of FROM rows has too. Short lists are run three times, for the middle one.
    """
    base = sorted(_ran(folder / f"from-{turn}", cache, FROM, 1).all_s for turn in range(TURNS))[TURNS // 2]
    yield f"{FROM} rows, one worker: {base:.1f} s (the middle of {TURNS})"
    costs = {count: found[count].all_s - base for count in counts}
    low = counts[0]
    again = [found[low].all_s, *(_ran(folder / f"again-{turn}", cache, low, 1).all_s for turn in range(TURNS - 1))]
    costs[low] = sorted(again)[len(again) // 2] - base
    each = ", ".join(f"{cost / (count - FROM) * 1e3:.2f} ms to {count}" for count, cost in costs.items())
    yield f"each further row: {each}"
    if len(counts) > 1:
        slope = _slope([(math.log(count - FROM), math.log(cost)) for count, cost in costs.items()])
        yield f"slope of log-log of further rows' cost, {low} to {counts[-1]}: {slope:.3f} (goal 0.95 to 1.05)"
        whole = _slope([(math.log(count), math.log(found[count].all_s)) for count in counts])
        yield f"the same of all that a run costs, its start and papers with it: {whole:.3f}"


def _shared(folder: Path, cache: Path, count: int, few: Run, before: Run) -> Iterator[str]:
    """Yield what two workers make of it, each time between two runs of one worker, for the machine's pace changes."""
    times, twos, one = [], [], before
    for number in range(1 if count > TURNS_TO else TURNS):
        twos.append(_ran(folder / f"two-{count}-{number}", cache, count, 2))
        after = _ran(folder / f"one-{count}-{number}", cache, count, 1)
        times.append((one.wall_s + after.wall_s) / 2.0 / twos[-1].wall_s)
        one = after
    two = min(twos, key=lambda run: run.wall_s)
    peak = f"{two.own_mb:.0f} + 2 x {two.worker_mb:.0f} MB"
    yield f"{count} rows, two workers: {two.wall_s:.1f} s wall (goal 60 at 10000), {peak}"
    beside = f"{two.own_mb - few.own_mb:+.0f} MB beside {PIECES} rows (goal +50)"
    yield f"memory at {count} rows, two workers: {beside}; a worker {two.worker_mb:.0f} MB, {few.worker_mb:.0f} there"
    said = ", ".join(f"{one:.2f}" for one in times)
    yield f"two workers against one at {count} rows: {sorted(times)[len(times) // 2]:.2f} times (goal 1.7; {said})"


def _ran(folder: Path, cache: Path, count: int, workers: int) -> Run:
    """Return what a making costs in a process of its own; no sheet of it is left in the cache."""
    job = job_with(folder / "job", count)
    script = folder / "run.py"
    script.write_text(RUN, encoding="utf-8")
    line = [sys.executable, str(script), str(job), str(folder), str(cache), str(workers)]
    said = subprocess.run(line, capture_output=True, text=True, check=False)
    if said.returncode:
        raise SystemExit(said.stderr)
    shutil.rmtree(cache / "lists")
    shutil.rmtree(folder)
    wall, own, others, peak, worker_peak = json.loads(said.stdout)
    unit = 1e6 if sys.platform == "darwin" else 1e3  # bytes there, kilobytes here
    return Run(wall, own, others, peak / unit, worker_peak / unit)


def _slope(points: list[tuple[float, float]]) -> float:
    middle = [sum(one[axis] for one in points) / len(points) for axis in (0, 1)]
    return sum((x - middle[0]) * (y - middle[1]) for x, y in points) / sum((x - middle[0]) ** 2 for x, _ in points)
