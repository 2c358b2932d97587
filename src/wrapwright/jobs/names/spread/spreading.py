"""Make the shards of a list on the workers of a cluster instead of here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest

if TYPE_CHECKING:
    from wrapwright.jobs.names.making.planning import Planned
    from wrapwright.jobs.names.making.running import Over
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.names.spread.values import SpreadRequest


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
    from wrapwright.jobs.names.spread.inputs import Rows, put_inputs
    from wrapwright.jobs.names.spread.worker import make_spread_shard, put_made
    from wrapwright.outside.cluster.pool import open_cluster
    from wrapwright.outside.places.opening import open_place

    place = open_place(spread.place)
    with open_cluster(spread.cluster) as pool:
        inputs = put_inputs(planned.run, names.opened, names.asked.file, bench, place)
        rows = Rows(names.opened, place, inputs)

        def over(missing: Iterable[ShardRequest]) -> Iterator[tuple[int, ShardMade]]:
            asked: dict[int, ShardRequest] = {}

            def put() -> Iterator[SpreadRequest]:
                for index, one in enumerate(missing):
                    asked[index] = one
                    yield rows.put(one)

            for index, made in pool.map(make_spread_shard, put()):
                yield index, put_made(place, asked.pop(index), made)

        yield over
