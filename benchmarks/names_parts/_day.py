"""A day of many pieces, played event by event: client, scheduler, store and workers, with failures and stragglers.

The client's processor, the scheduler and the store serve one thing after another, so that queues before them show; the
client's threads wait for the store several at a time, a worker makes one shard at a time. Times are in seconds, sizes
in bytes. The same seed plays the same day.
"""

from __future__ import annotations

import heapq
import random
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

AHEAD = 2  # as the pool over a cluster
SHARDS_AT_ONCE = 8  # whose rows are put, or whose files are fetched, at the same time, as jobs/names/spread does
STARTING = 3  # requests of a worker that begins: what all shards share, the job, the photograph
AT_ONCE = 16  # pictures put at the same time, and fetched by each worker, as there


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
        check_piece_s: the client's work for a piece before the first shard: its row looked through.
        put_piece_s, take_piece_s, join_piece_s: the client's work for a piece meanwhile: its row handed over, its
            sheet fetched, and joined.
        papers_piece_s: the client's work for a piece after the last shard: manifest and handling list.
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
    check_piece_s: float
    put_piece_s: float
    take_piece_s: float
    join_piece_s: float
    papers_piece_s: float


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
        begun_s, made_s, done_s: when all rows had been looked through, when the last shard stood, and when all was
            joined and the papers written.
        worked_s: what workers worked, lost work included.
        tasks, requests, stored: of the scheduler; of the store, and its bytes both ways.
        most_under_way: most shards handed over and not yet taken back.
        busy: share of the time from `begun_s` until `made_s` that scheduler, store and the client's processor worked,
            and that each of the client's threads had a shard on average.
    """

    made: int = 0
    again: int = 0
    begun_s: float = 0.0
    made_s: float = 0.0
    done_s: float = 0.0
    worked_s: float = 0.0
    tasks: int = 0
    requests: int = 0
    stored: float = 0.0
    most_under_way: int = 0
    busy: dict[str, float] = field(default_factory=dict)


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
class _Threads:
    """Threads, each of which has one thing to do at a time; what finds none free waits its turn."""

    free: int
    waiting: deque[Callable[[float], None]] = field(default_factory=deque)
    worked_s: float = 0.0

    def begin(self, now: float, work: Callable[[float], None]) -> None:
        if not self.free:
            self.waiting.append(work)
            return
        self.free -= 1
        work(now)

    def end(self, now: float, since: float) -> None:
        self.worked_s += now - since
        self.free += 1
        if self.waiting:
            self.begin(now, self.waiting.popleft())


@dataclass
class _Worker:
    """One worker: its generation tells a result of an earlier life from one of this."""

    life: int = 0
    up: bool = True
    begun: bool = False
    shard: int | None = None
    since: float = 0.0


class Day:
    """A day played: `pieces` in shards of `a_shard` by `workers`; `here` processors of the client check and write."""

    def __init__(
        self, costs: Costs, trouble: Trouble, pieces: int, a_shard: int, workers: int, seed: int, here: int = 1
    ) -> None:
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
        self.client, self.scheduler, self.store, self.pictures = _Server(), _Server(), _Server(), _Server()
        self.threads = _Threads(SHARDS_AT_ONCE)
        self.putting: set[int] = set()
        self.taken: set[int] = set()
        self.joined_s = 0.0
        self.out_until = 0.0
        self.pieces, self.here = pieces, here
        self.played = Played()

    def play(self) -> Played:
        """Return what came of it."""
        begun = self.played.begun_s = self.costs.check_piece_s * self.pieces / self.here
        for number in range(len(self.workers)):
            self._fail_later(number, begun)
        if self.trouble.outage_s:
            self._at(begun + self.trouble.outage_at_s, self._outage)
        self._at(begun, self._feed)
        played = self.played
        while self.events and played.made < len(self.sizes):
            now, _, event = heapq.heappop(self.events)
            event(now)
        played.done_s = self.joined_s + self.costs.papers_piece_s * self.pieces / self.here
        servers = {"scheduler": self.scheduler, "store": self.store, "client": self.client}
        took = max(played.made_s - begun, 1e-9)
        played.busy = {name: one.worked_s / took for name, one in servers.items()}
        played.busy["threads"] = self.threads.worked_s / took / SHARDS_AT_ONCE
        return played

    def _at(self, when: float, event: Callable[[float], None]) -> None:
        self.counted += 1
        heapq.heappush(self.events, (when, self.counted, event))

    def _moved(self, now: float, size: float, requests: int, beside: int = 0) -> float:
        """Return when so many bytes have gone to or from a worker in so many requests one after another.

        Those `beside` them go AT_ONCE at a time.
        """
        return self._stored(now, size, requests + beside) + (requests + beside / AT_ONCE) * self.costs.request_s

    def _stored(self, now: float, size: float, requests: int) -> float:
        """Return when the store has taken or given so many bytes."""
        self.played.requests += requests
        self.played.stored += size
        return self.store.after(now, size / self.costs.bandwidth)

    def _by_thread(
        self, now: float, work: float, then: Callable[[float], float], done: Callable[[float], None]
    ) -> None:
        """Let a thread of the client work, wait until `then` says, and do what is `done`."""

        def begin(at: float) -> None:
            def worked(when: float) -> None:
                self._at(then(when), ended)

            def ended(when: float) -> None:
                self.threads.end(when, at)
                done(when)

            self._at(self.client.after(at, work), worked)

        self.threads.begin(now, begin)

    def _feed(self, now: float) -> None:
        """Hand over shards while there is room: each one's rows are put first."""
        while (
            len(self.under_way) - len(self.taken) < self.window
            and len(self.taken) < SHARDS_AT_ONCE
            and self.next_shard < len(self.sizes)
        ):
            shard, self.next_shard = self.next_shard, self.next_shard + 1
            self.under_way.add(shard)
            self.played.most_under_way = max(self.played.most_under_way, len(self.under_way))
            self._hand_over(now, shard)

    def _hand_over(self, now: float, shard: int) -> None:
        size, costs = self.sizes[shard], self.costs
        pictures = 3 * size * costs.row_pictures  # looked for, where a store asks twice, and put

        def put(when: float) -> float:
            looked = self.pictures.after(when, pictures / AT_ONCE * costs.request_s)
            return max(looked, self._stored(when, size * costs.row_bytes, 1 + pictures)) + costs.request_s

        def stands(when: float) -> None:
            self.putting.discard(shard)
            self._task(when, shard)

        self.putting.add(shard)
        self._by_thread(now, size * costs.put_piece_s, put, stands)

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
        worker, costs = self.workers[number], self.costs
        worker.shard, worker.since = shard, now
        life = worker.life
        if worker.begun:
            self._fetch(now, number, life, shard)
            return
        worker.begun = True
        ready = self._moved(now, costs.inputs_bytes, STARTING) + costs.start_s
        self._at(ready, lambda when: self._fetch(when, number, life, shard))

    def _fetch(self, now: float, number: int, life: int, shard: int) -> None:
        if self.workers[number].life != life:
            return
        costs, size = self.costs, self.sizes[shard]
        when = self._moved(now, size * costs.row_bytes, 2, size * costs.row_pictures)
        slow = self.trouble.slower if self.random.random() < self.trouble.straggling else 1.0
        when += (costs.shard_s + size * costs.piece_s) * slow
        self._at(when, lambda at: self._put(at, number, life, shard))

    def _put(self, now: float, number: int, life: int, shard: int) -> None:
        if self.workers[number].life != life:
            return
        moved = self._moved(now, self._size(shard), 3) - self.costs.request_s  # both files at once, then the receipt
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
        """Fetch a shard's files and write them."""
        self.taken.add(shard)
        self._feed(now)
        size, costs = self.sizes[shard], self.costs
        self._by_thread(
            now,
            size * costs.take_piece_s,
            lambda when: self._moved(when, self._size(shard), 2),
            lambda when: self._stands(when, shard),
        )

    def _stands(self, now: float, shard: int) -> None:
        """Join a shard that stands here, and hand over the next."""
        self.taken.discard(shard)
        self.under_way.discard(shard)
        if shard not in self.standing:
            self.standing.add(shard)
            self.played.made += 1
            self.played.made_s = now
        self.joined_s = self.client.after(now, self.sizes[shard] * self.costs.join_piece_s)
        self._at(self.joined_s, self._feed)

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
        again = sorted(self.under_way - self.putting - self.taken)
        self.ready.clear()
        for worker in self.workers:
            if worker.shard is not None:
                self.played.worked_s += now - worker.since
            worker.life, worker.shard, worker.begun = worker.life + 1, None, False
        self.played.again += len(again)
        for shard in again:
            self._task(self.out_until, shard)
