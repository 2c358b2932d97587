"""Make the shards of a run over the bench's workers, and keep the runs that stand in the cache within their room."""

from __future__ import annotations

import contextlib
import shutil
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.planning import Planned
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest

# Makes shards somewhere else: (index, shard) as they finish.
Over = Callable[[Sequence[ShardRequest]], Iterator[tuple[int, ShardMade]]]

KEPT_BYTES = 2_000_000_000  # of all runs
_SPARED_S = 3600.0  # a run that was written to so lately may be in use
_FROM, _TO = 0.25, 0.85  # of the whole making


def made_shards(planned: Planned, bench: Bench, watch: Watch, over: Over | None = None) -> tuple[ShardMade, ...]:
    """Return all shards of a run, in order; those that stand are not made again.

    They are made by the bench's pool, or by `over`. A worker that dies is replaced and its shards are made again, once;
    when that gets no further it is told.

    Raises:
        WrapwrightError: as `make_shard`; fault, when a worker died twice over the same shards; stopped.
    """
    from wrapwright.jobs.names.making.shard import make_shard, standing_shard
    from wrapwright.outside.system.pool import WorkerDiedError

    found: dict[int, ShardMade] = {}
    missing: list[ShardRequest] = []
    for request in planned.shards:
        standing = standing_shard(request)
        if standing is None:
            missing.append(request)
        else:
            found[request.number] = standing
    pace = _Pace(planned.run.places.pieces, sum(one.pieces for one in found.values()), watch)
    pace.tell()
    died_at = -1
    while missing:
        try:
            for index, made in over(missing) if over else bench.pool.map(make_shard, missing):
                found[missing[index].number] = made
                pace.done(made.pieces)
            break
        except WorkerDiedError:
            if died_at == len(found):
                raise
            died_at = len(found)
            missing = [one for one in missing if one.number not in found]
    return tuple(found[request.number] for request in planned.shards)


@dataclass
class _Pace:
    """Tells how far it is, how fast it goes, and how long it will take."""

    pieces: int
    made: int
    watch: Watch
    fresh: int = 0
    begun: float = field(default_factory=time.monotonic)

    def done(self, pieces: int) -> None:
        self.made += pieces
        self.fresh += pieces
        self.tell()

    def tell(self) -> None:
        rate = self.fresh / max(time.monotonic() - self.begun, 1e-3)
        words = f"making: {self.made} of {self.pieces} pieces"
        if self.fresh:
            words += f", {rate:.0f} a second, {time_words((self.pieces - self.made) / rate)} left"
        self.watch.step(words, _FROM + (_TO - _FROM) * self.made / max(self.pieces, 1))


def time_words(seconds: float) -> str:
    """Return a time as a person says it: "40 s", "12 min", "3 h 20 min"."""
    if seconds < 90.0:
        return f"{seconds:.0f} s"
    minutes = round(seconds / 60.0)
    return f"{minutes} min" if minutes < 90 else f"{minutes // 60} h {minutes % 60} min"


def make_room_for_runs(folder: Path, spared: Sequence[Path], *, limit_bytes: int = KEPT_BYTES) -> None:
    """Delete the runs that were used longest ago until the rest has at most `limit_bytes`.

    Those in `spared` stay, and those that were written to within an hour: another program may be making them.
    """
    runs = []
    for run in folder.iterdir() if folder.is_dir() else ():
        with contextlib.suppress(OSError):
            size = sum(one.stat().st_size for one in run.iterdir() if one.is_file())
            runs.append((run.stat().st_mtime, size, run))
    kept = sum(size for _, size, _ in runs)
    lately = time.time() - _SPARED_S
    for used, size, run in sorted(runs):
        if kept <= limit_bytes:
            return
        if used < lately and run not in spared:
            shutil.rmtree(run, ignore_errors=True)
            kept -= size
