"""The finished files of a run: its sheets joined into one PDF or several, and the manifest of every row."""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import unusable
from wrapwright.jobs.names.making.planning import SKIPPED, Planned
from wrapwright.jobs.names.making.values import Run, ShardMade, ShardRequest

if TYPE_CHECKING:
    from wrapwright.outside.pdf.listed.merging import Pages

MANIFEST = "manifest.csv"
COLUMNS = (
    "row", "piece", "code", "state", "reason", "name", "sheet", "file", "page",
    "x_mm", "y_mm", "width_mm", "height_mm", "turn_deg", "row_sha256", "sha256",
)  # fmt: skip


@dataclass(frozen=True)
class Files:
    """How the sheets of a run are divided into files of `a_file` sheets."""

    sheets: int
    a_file: int

    @property
    def names(self) -> tuple[str, ...]:
        """The files' names, in order."""
        count = -(-self.sheets // self.a_file)
        if count == 1:
            return ("sheets.pdf",)
        digits = max(3, len(str(count)))
        return tuple(f"sheets-{number:0{digits}d}.pdf" for number in range(1, count + 1))

    def of(self, sheet: int) -> tuple[int, int]:
        """Return the file (from 0) and the page (from 1) of a sheet (from 1)."""
        return (sheet - 1) // self.a_file, (sheet - 1) % self.a_file + 1


@dataclass(frozen=True)
class Counts:
    """How many rows ended in which way, and how many pieces were made; `reasons` are why, by the refused row."""

    made: int = 0
    skipped: int = 0
    refused: int = 0
    pieces: int = 0
    reasons: Mapping[int, str] = field(default_factory=dict)


@dataclass
class Joining:
    """Joins shards into the files of sheets, each file as soon as all of its shards stand.

    Attributes:
        planned: the run.
        files: which sheets stand in which file.
        folder: where they go.
    """

    planned: Planned
    files: Files
    folder: Path
    made: dict[int, ShardMade] = field(default_factory=dict)
    waiting: list[set[int]] = field(init=False)

    def __post_init__(self) -> None:
        """Note which shards each file waits for."""
        self.waiting = [set() for _ in self.files.names]
        for shard in self.planned.shards:
            for number in self._files_of(shard):
                self.waiting[number].add(shard.number)

    def take(self, made: ShardMade) -> None:
        """Take a shard, and write the files that waited for it alone.

        Raises:
            WrapwrightError: unusable, when a file cannot be written, or a shard has been deleted meanwhile.
        """
        self.made[made.number] = made
        for number in self._files_of(self.planned.shards[made.number]):
            self.waiting[number].discard(made.number)
            if not self.waiting[number]:
                self._write(number)

    def _files_of(self, shard: ShardRequest) -> range:
        return range(shard.first // self.files.a_file, (shard.last - 1) // self.files.a_file + 1)

    def _write(self, number: int) -> None:
        from wrapwright.jobs.names.making.base import colour_of
        from wrapwright.outside.pdf.listed.merging import merged_pdf
        from wrapwright.outside.pdf.metadata import About
        from wrapwright.outside.system.installed import version

        composed, name = self.planned.composed, self.files.names[number]
        job = composed.opened.job
        about = About(job.title, f"Wrapwright {version()}", job.date.isoformat() if job.date else "")
        try:
            merged_pdf(self._pages(number), colour_of(composed), about=about, file=self.folder / name)
        except OSError as error:
            remedy = "Free some room; what was made so far is kept in the cache."
            raise unusable(f"{name} cannot be written: {error.strerror or error}.", remedy=remedy) from error

    def _pages(self, number: int) -> list[Pages]:
        """Return where the sheets of a file stand in the shards."""
        from wrapwright.outside.pdf.listed.merging import Pages

        first = number * self.files.a_file
        last = min(first + self.files.a_file, self.files.sheets)
        return [
            Pages(
                self.planned.run.folder / self.made[one.number].file,
                max(first, one.first) - one.first,
                min(last, one.last) - one.first,
            )
            for one in self.planned.shards
            if one.first < last and one.last > first
        ]


def write_manifest(run: Run, shards: Sequence[ShardMade], files: Files, file: Path) -> Counts:
    """Write the manifest, rows in the list's order, and return how they ended.

    Every row of the list that was asked for stands in it at least once, a row of three pieces three times, and its
    state is made, skipped or refused; of a refused one nothing was printed. RFC 4180, UTF-8.

    Raises:
        WrapwrightError: unusable, when it cannot be written.
    """
    tally = _Tally()
    try:
        with file.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream, lineterminator="\r\n")
            writer.writerow(COLUMNS)
            names = files.names
            for entry in in_order(run, shards):
                tally.take(entry)
                writer.writerow(_cells(entry, files, names))
    except OSError as error:
        raise unusable(f"{MANIFEST} cannot be written: {error.strerror or error}.") from error
    return tally.counts()


def in_order(run: Run, shards: Sequence[ShardMade]) -> Iterator[dict[str, Any]]:
    """Yield what became of every piece, and every skipped row, in the list's order, in the memory of one shard."""
    skipped = _lines(run.folder / SKIPPED)
    waiting = next(skipped, None)
    for shard in shards:
        for entry in sorted(_lines(run.folder / shard.list_file), key=lambda one: int(one["piece"])):
            while waiting is not None and waiting["row"] < entry["row"]:
                yield waiting
                waiting = next(skipped, None)
            yield entry
    while waiting is not None:
        yield waiting
        waiting = next(skipped, None)


def _lines(file: Path) -> Iterator[dict[str, Any]]:
    with file.open(encoding="utf-8", newline="\n") as stream:
        while lines := list(islice(stream, 1000)):
            yield from map(json.loads, lines)


def _cells(entry: dict[str, Any], files: Files, names: Sequence[str]) -> list[object]:
    if "piece" not in entry:
        return [entry["row"], "", "", "skipped", "", entry["name"], *[""] * 8, entry["row_sha256"], ""]
    who = (entry["row"], entry["piece"])
    if "refused" in entry:
        said = " ".join(str(entry["refused"]).split())
        return [*who, "", "refused", said, entry["name"], *[""] * 8, entry["row_sha256"], ""]
    at, page = files.of(entry["sheet"])
    box = [entry[key] for key in ("x_mm", "y_mm", "width_mm", "height_mm", "turn_deg")]
    place = (entry["sheet"], names[at], page, *box)
    return [*who, entry["code"], "made", "", entry["name"], *place, entry["row_sha256"], entry["sha256"]]


class _Tally:
    """Counts rows by how they ended; the pieces of one row follow each other."""

    def __init__(self) -> None:
        self.rows = {"made": 0, "skipped": 0, "refused": 0}
        self.pieces = 0
        self.last = 0
        self.reasons: dict[int, str] = {}

    def take(self, entry: dict[str, Any]) -> None:
        state = "skipped" if "piece" not in entry else "refused" if "refused" in entry else "made"
        self.pieces += state == "made"
        if entry["row"] == self.last:
            return
        self.last = entry["row"]
        self.rows[state] += 1
        if state == "refused":
            self.reasons[entry["row"]] = entry["refused"]

    def counts(self) -> Counts:
        return Counts(**self.rows, pieces=self.pieces, reasons=self.reasons)
