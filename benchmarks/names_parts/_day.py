"""A day of many pieces, played event by event: client, scheduler, store and workers, with failures and stragglers.

Each of client, scheduler and store serves one thing after another, so that queues before them show; a worker makes one
shard at a time. Times are in seconds, sizes in bytes. The same seed plays the same day.
"""

from __future__ import annotations

import heapq
import random
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

AHEAD = 2  # as the pool over a cluster
AT_ONCE = 16  # pictures fetched or put at the same time, as jobs/names/spread does


@dataclass(frozen=True)
class Costs:
    """What things cost.

    Attributes:
        piece_s, shard_s, start_s: work of a worker: for a piece, beside that for a shard, and once when it begins.
        piece_bytes, shard_bytes: what a shard's files hold for a piece, and beside that.
        row_bytes: of a piece's row, the pictures that it names included.
        row_pictures: how many these are.
        inputs_bytes: what every worker fetches once.
        task_s: the scheduler's work for one task.
        request_s: latency of one request to the store.
        bandwidth: of the store, bytes a second, for all together.
        client_piece_s, client_shard_s: the client's work for a piece and a shard: rows handed over, files fetched.
        join_piece_s: the client's work for a piece at the end: sheets joined, manifest written.
    """

    piece_s: float
    shard_s: float
    start_s: float
    piece_bytes: float
    shard_bytes: float
    row_bytes: float
    row_pictures: int
    inputs_bytes: float
    task_s: float
    request_s: float
    bandwidth: float
    client_piece_s: float
    client_shard_s: float
    join_piece_s: float


@dataclass(frozen=True)
class Trouble:
    """What goes wrong.

    Attributes:
        failure_s: mean time between two failures of one worker; 0: never.
        silent: share of the failures that nobody notices before `noticed_s`: a machine that hangs.
        noticed_s: so long a silent one is waited for.
        back_s: so long until another worker stands in its place.
        straggling, slower: share of the shards that take so many times as long.
        outage_at_s, outage_s: the scheduler is gone from then, so long; 0: never.
    """

    failure_s: float = 0.0
    silent: float = 0.0
    noticed_s: float = 300.0
    back_s: float = 120.0
    straggling: float = 0.0
    slower: float = 1.0
    outage_at_s: float = 0.0
    outage_s: float = 0.0


@dataclass
class Played:
    """What came of a day.

    Attributes:
        made: shards that stand at the client, each counted once.
        again: times a shard was begun again.
        made_s, done_s: when the last shard stood, and when all was joined.
        worked_s: what workers worked, lost work included.
        tasks, requests, stored: of the scheduler; of the store, and its bytes both ways.
        most_under_way: most shards handed over and not yet taken back.
        busy: share of the time until `made_s` that scheduler and store worked, and the client worked or waited for it.
    """

    made: int = 0
    again: int = 0
    made_s: float = 0.0
    done_s: float = 0.0
    worked_s: float = 0.0
    tasks: int = 0
    requests: int = 0
    stored: float = 0.0
    most_under_way: int = 0
    busy: dict[str, float] = field(default_factory=lambda: {"scheduler": 0.0, "store": 0.0, "client": 0.0})


@dataclass
class _Server:
    """Serves one thing after another."""

    free_s: float = 0.0
    worked_s: float = 0.0

    def after(self, now: float, takes: float) -> float:
        self.free_s = max(self.free_s, now) + takes
        self.worked_s += takes
        return self.free_s


@dataclass
class _Worker:
    """One worker: its generation tells a result of an earlier life from one of this."""

    life: int = 0
    up: bool = True
    begun: bool = False
    shard: int | None = None
    since: float = 0.0


class Day:
    """A day played: `pieces` in shards of `a_shard` by `workers`."""

    def __init__(self, costs: Costs, trouble: Trouble, pieces: int, a_shard: int, workers: int, seed: int) -> None:
        self.costs, self.trouble, self.random = costs, trouble, random.Random(seed)
        self.sizes = [min(a_shard, pieces - first) for first in range(0, pieces, a_shard)]
        self.workers = [_Worker() for _ in range(workers)]
        self.window = AHEAD * workers
        self.events: list[tuple[float, int, Callable[[float], None]]] = []
        self.counted = 0
        self.next_shard = 0
        self.under_way: set[int] = set()
        self.ready: deque[int] = deque()
        self.standing: set[int] = set()
        self.client, self.scheduler, self.store = _Server(), _Server(), _Server()
        self.out_until = 0.0
        self.pieces = pieces
        self.played = Played()

    def play(self) -> Played:
        """Return what came of it."""
        for number in range(len(self.workers)):
            self._fail_later(number, 0.0)
        if self.trouble.outage_s:
            self._at(self.trouble.outage_at_s, self._outage)
        self._feed(0.0)
        played = self.played
        while self.events and played.made < len(self.sizes):
            now, _, event = heapq.heappop(self.events)
            event(now)
        played.done_s = played.made_s + self.costs.join_piece_s * self.pieces
        for name, server in (("scheduler", self.scheduler), ("store", self.store), ("client", self.client)):
            played.busy[name] = server.worked_s / max(played.made_s, 1e-9)
        return played

    def _at(self, when: float, event: Callable[[float], None]) -> None:
        self.counted += 1
        heapq.heappush(self.events, (when, self.counted, event))

    def _moved(self, now: float, size: float, requests: int, beside: int = 0) -> float:
        """Return when so many bytes have gone to or from the store in so many requests one after another.

        Those `beside` them go AT_ONCE at a time.
        """
        self.played.requests += requests + beside
        self.played.stored += size
        waits = (requests + beside / AT_ONCE) * self.costs.request_s
        return self.store.after(now, size / self.costs.bandwidth) + waits

    def _client(self, now: float, work: float, size: float, requests: int, beside: int = 0) -> float:
        """Return when the client has worked and waited for the store: it does one thing after another."""
        begun = max(self.client.free_s, now)
        moved = self._moved(begun + work, size, requests, beside)
        return self.client.after(begun, moved - begun)

    def _feed(self, now: float) -> None:
        """Hand over shards while there is room: each one's rows are put first."""
        while len(self.under_way) < self.window and self.next_shard < len(self.sizes):
            shard, self.next_shard = self.next_shard, self.next_shard + 1
            self.under_way.add(shard)
            self.played.most_under_way = max(self.played.most_under_way, len(self.under_way))
            size = self.sizes[shard]
            work, pictures = size * self.costs.client_piece_s / 2, size * self.costs.row_pictures
            put = self._client(now, work, size * self.costs.row_bytes, 2, 2 * pictures)
            self._at(put, lambda when, shard=shard: self._task(when, shard))

    def _task(self, now: float, shard: int) -> None:
        self.played.tasks += 1
        self._at(
            max(self.scheduler.after(now, self.costs.task_s), self.out_until), lambda when: self._given(when, shard)
        )

    def _given(self, now: float, shard: int) -> None:
        self.ready.append(shard)
        self._set_to_work(now)

    def _set_to_work(self, now: float) -> None:
        for number, worker in enumerate(self.workers):
            if not self.ready or now < self.out_until:
                return
            if worker.up and worker.shard is None:
                self._begin(now, number, self.ready.popleft())

    def _begin(self, now: float, number: int, shard: int) -> None:
        worker, costs, size = self.workers[number], self.costs, self.sizes[shard]
        worker.shard, worker.since = shard, now
        when = now
        if not worker.begun:
            worker.begun = True
            when = self._moved(when, costs.inputs_bytes, 6) + costs.start_s
        when = self._moved(when, size * costs.row_bytes, 2, size * costs.row_pictures)
        slow = self.trouble.slower if self.random.random() < self.trouble.straggling else 1.0
        when += (costs.shard_s + size * costs.piece_s) * slow
        life = worker.life
        self._at(when, lambda at: self._put(at, number, life, shard))

    def _put(self, now: float, number: int, life: int, shard: int) -> None:
        if self.workers[number].life != life:
            return
        moved = self._moved(now, self._size(shard), 5)
        self._at(moved, lambda when: self._finished(when, number, life, shard))

    def _size(self, shard: int) -> float:
        return self.costs.shard_bytes + self.sizes[shard] * self.costs.piece_bytes

    def _finished(self, now: float, number: int, life: int, shard: int) -> None:
        worker = self.workers[number]
        if worker.life != life or worker.shard != shard:
            return
        self.played.worked_s += now - worker.since
        worker.shard = None
        told = max(self.scheduler.after(now, self.costs.task_s), self.out_until)
        self._at(told, lambda when: self._take(when, shard))
        self._set_to_work(now)

    def _take(self, now: float, shard: int) -> None:
        """Fetch a shard's files, write them, and hand over the next."""
        work = self.costs.client_shard_s + self.sizes[shard] * self.costs.client_piece_s / 2
        moved = self._client(now, work, self._size(shard), 2)
        self._at(moved, lambda when: self._stands(when, shard))

    def _stands(self, now: float, shard: int) -> None:
        self.under_way.discard(shard)
        if shard not in self.standing:
            self.standing.add(shard)
            self.played.made += 1
            self.played.made_s = now
        self._feed(now)

    def _fail_later(self, number: int, now: float) -> None:
        if self.trouble.failure_s:
            self._at(
                now + self.random.expovariate(1.0 / self.trouble.failure_s), lambda when: self._fails(when, number)
            )

    def _fails(self, now: float, number: int) -> None:
        worker = self.workers[number]
        lost, worker.shard = worker.shard, None
        worker.life, worker.up, worker.begun = worker.life + 1, False, False
        if lost is not None:
            self.played.worked_s += now - worker.since
            self.played.again += 1
            silent = self.random.random() < self.trouble.silent
            self._at(now + (self.trouble.noticed_s if silent else 0.0), lambda when: self._task(when, lost))
        self._at(now + self.trouble.back_s, lambda when: self._back(when, number))
        self._fail_later(number, now + self.trouble.back_s)

    def _back(self, now: float, number: int) -> None:
        self.workers[number].up = True
        self._set_to_work(now)

    def _outage(self, now: float) -> None:
        """The scheduler is gone: what was handed over is handed over again when it is back; what stands is found."""
        self.out_until = now + self.trouble.outage_s
        again = sorted(self.under_way)
        self.ready.clear()
        for worker in self.workers:
            if worker.shard is not None:
                self.played.worked_s += now - worker.since
            worker.life, worker.shard, worker.begun = worker.life + 1, None, False
        self.played.again += len(again)
        for shard in again:
            self._task(self.out_until, shard)
