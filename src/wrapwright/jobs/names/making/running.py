"""Make the shards of a run over workers, here or elsewhere, and keep the cache of runs within its room."""

from __future__ import annotations

import contextlib
import shutil
import time
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.making.planning import Planned
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest

# Makes shards: (index, shard) as they finish; they are asked for as workers come free.
Over = Callable[[Iterable[ShardRequest]], Iterator[tuple[int, ShardMade]]]

KEPT_BYTES = 2_000_000_000  # of all runs
_SPARED_S = 3600.0  # a run that was written to so lately may be in use
_FROM, _TO = 0.25, 0.85  # of the whole making


def _nothing(_made: ShardMade) -> None:
    """Do nothing."""


def made_shards(
    planned: Planned,
    coming: Iterable[ShardRequest],
    over: Over,
    watch: Watch,
    done: Callable[[ShardMade], None] = _nothing,
) -> tuple[ShardMade, ...]:
    """Return all shards of a run, in order; those that stand are not made again.

    A worker that dies is replaced and its shards are made again, once; when that gets no further it is told.

    Args:
        planned: the run.
        coming: its shards, each when its rows are put ready; asked for as workers come free.
        over: makes them.
        watch: is told how far it is.
        done: is handed each shard once as soon as it stands, in any order.

    Raises:
        WrapwrightError: as `make_shard`; fault, when a worker died twice over the same shards; stopped.
    """
    from wrapwright.outside.system.pool import WorkerDiedError

    making = _Making(iter(coming), _Pace(planned.run.places.pieces, watch), done)
    making.pace.tell()
    died_at = -1
    while True:
        try:
            making.round(over)
            break
        except WorkerDiedError:
            if died_at == len(making.found):
                raise
            died_at = len(making.found)
            making.ask_again()
    return tuple(making.found[request.number] for request in planned.shards)


@dataclass
class _Making:
    """Hands the shards out and takes them in."""

    coming: Iterator[ShardRequest]
    pace: _Pace
    done: Callable[[ShardMade], None]
    found: dict[int, ShardMade] = field(default_factory=dict)
    asked: list[ShardRequest] = field(default_factory=list)
    again: deque[ShardRequest] = field(default_factory=deque)

    def round(self, over: Over) -> None:
        """Make what is still missing."""
        self.asked = []
        for _, made in over(self._missing()):
            self._take(made, fresh=True)

    def ask_again(self) -> None:
        """Put what was asked for and never came back before what is still to come."""
        self.again = deque([*(one for one in self.asked if one.number not in self.found), *self.again])

    def _missing(self) -> Iterator[ShardRequest]:
        from wrapwright.jobs.names.making.shard import standing_shard

        for request in self._coming():
            standing = standing_shard(request)
            if standing is None:
                self.asked.append(request)
                yield request
            else:
                self._take(standing, fresh=False)

    def _coming(self) -> Iterator[ShardRequest]:
        while self.again:
            yield self.again.popleft()
        yield from self.coming

    def _take(self, made: ShardMade, *, fresh: bool) -> None:
        self.found[made.number] = made
        self.done(made)
        self.pace.done(made.pieces, fresh=fresh)


@dataclass
class _Pace:
    """Tells how far it is, how fast it goes, and how long it will take."""

    pieces: int
    watch: Watch
    made: int = 0
    fresh: int = 0
    begun: float = field(default_factory=time.monotonic)

    def done(self, pieces: int, *, fresh: bool) -> None:
        self.made += pieces
        self.fresh += pieces if fresh else 0
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
