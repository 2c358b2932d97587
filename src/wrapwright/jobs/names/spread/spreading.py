"""Make the shards of a list on the workers of a cluster instead of here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest
from wrapwright.jobs.names.spread.values import AT_ONCE, SHARDS_AT_ONCE

if TYPE_CHECKING:
    from wrapwright.jobs.names.making.planning import Planned
    from wrapwright.jobs.names.making.running import Over
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.names.spread.values import SpreadRequest
    from wrapwright.outside.cluster.pool import ClusterPool
    from wrapwright.outside.places.place import Place


@dataclass(frozen=True)
class Spread:
    """Where a list is made.

    Attributes:
        cluster: address of the scheduler; "" = here.
        place: address of what all machines reach; with a cluster it is needed, without one it is of no use.
    """

    cluster: str = ""
    place: str = ""


def check_spread(spread: Spread) -> None:
    """Raise what is wrong with the cluster or the place before any work; nothing when the list is made here.

    Raises:
        WrapwrightError: usage, when only one is given or an address is none; set-up, when the extra is not installed or
            a worker would not make the same bytes; unreachable; unusable, when the place may not be written.
    """
    from wrapwright.outside.cluster.pool import open_cluster
    from wrapwright.outside.places.opening import open_place

    if not spread.cluster and not spread.place:
        return
    if not spread.cluster:
        raise WrapwrightError(Kind.USAGE, "a place is of use only with a cluster.", remedy="Add --cluster too.")
    if not spread.place:
        remedy = "Add --place with a folder that all machines see, or s3://bucket/prefix."
        raise WrapwrightError(Kind.USAGE, "a cluster needs a place that all machines reach.", remedy=remedy)
    place = open_place(spread.place)
    with open_cluster(spread.cluster):
        place.check()


@contextmanager
def spread_over(spread: Spread, names: NamesList, planned: Planned, bench: Bench) -> Iterator[Over | None]:
    """Give what makes the shards on the cluster; None when the list is made here.

    Raises:
        WrapwrightError: as `check_spread` and `put_inputs`.
    """
    if not spread.cluster:
        yield None
        return
    from wrapwright.outside.cluster.pool import open_cluster
    from wrapwright.outside.places.opening import open_place

    place = open_place(spread.place)
    with open_cluster(spread.cluster) as pool:
        yield partial(_made, pool, place, names, planned, bench)


def _made(
    pool: ClusterPool, place: Place, names: NamesList, planned: Planned, bench: Bench, missing: Iterable[ShardRequest]
) -> Iterator[tuple[int, ShardMade]]:
    """Yield the shards as they stand here: rows are handed over and files fetched by threads, several at a time."""
    from wrapwright.jobs.names.spread.inputs import Rows, put_inputs
    from wrapwright.jobs.names.spread.worker import make_spread_shard, put_made
    from wrapwright.outside.cluster.way import Beside

    inputs = put_inputs(planned.run, names.opened, names.asked.file, bench, place)
    asked: dict[int, ShardRequest] = {}

    def put(index: int, request: ShardRequest) -> SpreadRequest:
        asked[index] = request
        return rows.put(request)

    def take(index: int, made: ShardMade) -> ShardMade:
        return put_made(place, asked.pop(index), made)

    with _threads(place) as (shards, pictures):
        rows = Rows(names.opened, place, inputs, pictures)
        yield from pool.map(make_spread_shard, missing, Beside(shards, SHARDS_AT_ONCE, put, take))


@contextmanager
def _threads(place: Place) -> Iterator[tuple[Executor, Executor]]:
    """Give threads for shards and for the pictures that their rows name; at the end none of them is left.

    What has not begun is dropped then, and the place does not try again what fails.
    """
    shards, pictures = ThreadPoolExecutor(SHARDS_AT_ONCE, "shards"), ThreadPoolExecutor(AT_ONCE, "pictures")
    try:
        yield shards, pictures
    finally:
        place.ended.set()
        for threads in (shards, pictures):
            threads.shutdown(wait=False, cancel_futures=True)
        for threads in (pictures, shards):
            threads.shutdown(wait=True)
