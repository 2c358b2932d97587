"""What the making of a list is made of: the run that all shards share, and what is asked of and given back by one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wrapwright.core.names.making.places import Places
from wrapwright.core.names.values import Row
from wrapwright.core.sheet.lay.values import LaidSheet


@dataclass(frozen=True)
class Run:
    """What all shards of a run share; frozen, so that a worker works it out once.

    Attributes:
        id: SHA-256 of everything that the result depends on.
        job: the job file.
        job_sha256: of the job file when the run began: a worker that finds another refuses.
        mark: letters in the code beside every piece.
        listed: the fields that the list gives.
        typical: the row by which the shared art is composed.
        places: which piece lies where.
        total: how many pieces the whole list makes: pieces are numbered as in it even when only some are made again.
        pattern: how a full sheet is laid; its pieces in the order in which places are filled.
        folder: of the run, below the cache.
        cache, data, fonts: the bench's folders.
        shelf: the blanks that the job may name, on a machine that keeps none; None: those of the bench's store.
    """

    id: str
    job: Path
    job_sha256: str
    mark: str
    listed: tuple[str, ...]
    typical: Row
    places: Places
    total: int
    pattern: LaidSheet
    folder: Path
    cache: Path
    data: Path
    fonts: Path
    shelf: Mapping[str, tuple[Mapping[str, Any], Mapping[str, Any]]] | None = None

    def __hash__(self) -> int:
        """Return a hash by its id, which names all the rest."""
        return hash((self.id, self.folder))


@dataclass(frozen=True)
class ShardRequest:
    """Make the sheets from `first` to before `last` (from 0) of a run, as the shard of this number."""

    run: Run
    number: int
    first: int
    last: int


@dataclass(frozen=True)
class ShardMade:
    """A shard that stands.

    Attributes:
        number: its own.
        file, sha256: the PDF of its sheets in the run's folder.
        list_file, list_sha256: the list of its pieces, likewise.
        pieces: how many places it has; of them `refused` are empty, for their rows could not be made.
        rows_sha256: of the rows it was made of: with others it is another shard.
        refused: see `pieces`.
    """

    number: int
    file: str
    sha256: str
    list_file: str
    list_sha256: str
    pieces: int
    rows_sha256: str = ""
    refused: int = 0
