"""Each row of a list with all that is doubtful in it by itself, found here or by workers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.decisions import Decisions
from wrapwright.core.names.values import Cells, Problem
from wrapwright.jobs.bench import Bench, Folders, HeldPool, Watch
from wrapwright.jobs.names.measuring import Measuring
from wrapwright.jobs.names.opening import NamesList, open_list
from wrapwright.jobs.names.values import Read
from wrapwright.outside.system.pool import surely

_STEP = 200  # rows between two looks at the wish to stop, and rows that a worker is given at once

Examined = tuple[Read, tuple[Problem, ...]]


def examined(names: NamesList, bench: Bench, watch: Watch, pool: HeldPool | None = None) -> Iterator[Examined]:
    """Yield each row, in order, with all that is doubtful in it by itself; of a skipped row nothing is told.

    Args:
        names: the list.
        bench: what texts are measured with.
        watch: is told how far it is.
        pool: measures the rows, of a list whose job is a file; None: they are measured here.
    """
    found = _here(names, bench) if pool is None else _over(names, bench, pool)
    for count, (one, problems) in enumerate(found):
        if count % _STEP == 0:
            watch.step(f"checking row {one.row.number}", 0.05 + 0.9 * (1.0 - 1.0 / (1.0 + count / 10_000)))
        yield one, problems


def _here(names: NamesList, bench: Bench) -> Iterator[Examined]:
    measuring = Measuring(names, bench)
    for one in names.rows():
        yield one, () if one.skipped else measuring.problems(one)


@dataclass(frozen=True)
class _Rows:
    """Some rows of the list of a job file that has this hash; undecided ones as cells, which cost less to send."""

    job: Path
    sha256: str
    folders: Folders
    rows: tuple[Read | Cells, ...]


def _over(names: NamesList, bench: Bench, pool: HeldPool) -> Iterator[Examined]:
    """Yield as `examined`; of rows that were given out only as many are held as the workers have before them."""
    job, digest = names.opened.folder / names.opened.name, names.sha256
    given, found = dict[int, tuple[Read, ...]](), dict[int, _Problems]()

    def coming() -> Iterator[_Rows]:
        rows, number = names.rows(), 0
        while some := tuple(islice(rows, _STEP)):
            given[number] = some
            number += 1
            sent = tuple(one.cells if one.decision is None and one.lost is None else one for one in some)
            yield _Rows(job, digest, bench.folders, sent)

    turn = 0
    for index, problems in surely(pool, _problems_of, coming()):
        found[index] = problems
        while turn in found:
            yield from zip(given.pop(turn), found.pop(turn), strict=True)
            turn += 1


_Problems = tuple[tuple[Problem, ...], ...]


def _problems_of(request: _Rows) -> _Problems:
    measuring = _measuring(request.job, request.sha256, request.folders)
    reads = (one if isinstance(one, Read) else measuring.names.read(one, Decisions()) for one in request.rows)
    return tuple(() if one.skipped else measuring.problems(one) for one in reads)


@lru_cache(maxsize=1)
def _measuring(job: Path, sha256: str, folders: Folders) -> Measuring:
    from wrapwright.jobs.open_bench import open_bench

    bench = open_bench(cache=folders.cache, data=folders.data, fonts=folders.fonts, threads=1)
    names = open_list(job, None, bench)
    if names.sha256 != sha256:
        message = "The job, its table or what was decided has been changed while it was being checked."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Make it again.", where=job.name)
    return Measuring(names, bench)
