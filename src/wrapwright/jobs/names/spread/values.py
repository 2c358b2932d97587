"""What goes to the workers of a list that is made on many machines: names and hashes, never a file's bytes."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from wrapwright.core.base.errors import unusable
from wrapwright.jobs.names.making.values import Run

AT_ONCE = 16  # pictures of rows that go to the place or come from it at the same time: each waits for an answer
SHARDS_AT_ONCE = 8  # shards whose rows go to the place, or whose files come from it, at the same time
DEEP = 8  # so many folders above the job's may be named in it
Beside = Literal["job", "fonts"]


@dataclass(frozen=True)
class Part:
    """A file that a run needs.

    Attributes:
        beside: what its name starts from: the job file, or the user's fonts.
        name: relative, as the job writes it.
        sha256: of its bytes, by which it stands in the place.
    """

    beside: Beside
    name: str
    sha256: str


@dataclass(frozen=True, eq=False)
class Inputs:
    """All that the shards of a run share; it stands in the place by its hash.

    Attributes:
        run: what the shards are made from; its folders are those of each worker, and left out here.
        parts: the files.
        table: name of the list's table; the rows come with each shard.
        likeness: what a worker must have in common with the machine that began.
    """

    run: Run
    parts: tuple[Part, ...]
    table: str
    likeness: Mapping[str, str]


@dataclass(frozen=True)
class SpreadRequest:
    """Make one shard of a run on another machine.

    Attributes:
        place: address of the place.
        inputs: hash of the run's inputs.
        number, first, last: as in ShardRequest.
        rows_sha256: hash of the shard's rows.
    """

    place: str
    inputs: str
    number: int
    first: int
    last: int
    rows_sha256: str


def inside(written: str) -> Path:
    """Return where a file that a job names stands below the folder of a worker's copy, whose job lies DEEP folders in.

    Raises:
        WrapwrightError: unusable, for a path that no other machine has.
    """
    path = Path(os.path.normpath(written))
    ups = sum(1 for one in path.parts if one == "..")
    if path.is_absolute() or path.drive or ups > DEEP:
        raise unusable(
            f"{written} is not found from other machines.",
            remedy="Lay the file beside the job file and name it as it is called there, or make the list here.",
        )
    return job_folder().joinpath(*path.parts) if not ups else Path(*_DOWN[: DEEP - ups], *path.parts[ups:])


_DOWN = tuple(f"at-{number}" for number in range(1, DEEP + 1))


def job_folder() -> Path:
    """Return where the job file lies below the folder of a worker's copy."""
    return Path(*_DOWN)
