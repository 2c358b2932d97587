"""Put the inputs of a run into the place, each file once and by its hash."""

from __future__ import annotations

import hashlib
import pickle
import threading
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import Executor, Future
from dataclasses import dataclass, field, replace
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.design.elements import Text, is_font_file
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.shard import rows_of, shard_name
from wrapwright.jobs.names.making.values import Run, ShardRequest
from wrapwright.jobs.names.spread.values import Beside, Inputs, Part, SpreadRequest, inside
from wrapwright.outside.places.place import Place, part_name
from wrapwright.outside.system.files import file_sha256

if TYPE_CHECKING:
    from wrapwright.jobs.work.opening import Opened

_REMEMBERED = 20_000  # hashes of pictures that are known to stand in the place


def put_inputs(run: Run, opened: Opened, table: str, bench: Bench, place: Place) -> str:
    """Return the hash by which the inputs of a run stand in the place.

    Raises:
        WrapwrightError: unusable, when a file has a name that other machines cannot have, or the place cannot be
            written; refused, when the job file has changed since the run began; unreachable.
    """
    from wrapwright.outside.cluster.alike import likeness

    parts = tuple(_parts(run, opened, bench, place))
    if parts[0].sha256 != run.job_sha256:
        raise _changed(run.job.name)
    shelf = _blank_of(run.job, bench)
    far = replace(run, job=Path(run.job.name), folder=Path(), cache=Path(), data=Path(), fonts=Path(), shelf=shelf)
    data = pickle.dumps(Inputs(far, parts, table, dict(likeness())), protocol=5)
    digest = hashlib.sha256(data).hexdigest()
    if not place.has(part_name(digest)):
        place.put_bytes(data, part_name(digest))
    return digest


def _parts(run: Run, opened: Opened, bench: Bench, place: Place) -> Iterator[Part]:
    """Yield every file of the job that is there, put into the place: the job file first."""
    files: dict[tuple[Beside, str], Path] = {("job", run.job.name): run.job}
    for written in opened.job.files:
        if opened.path_of(written).is_file():
            files["job", written] = opened.path_of(written)
    for text in (one for one in opened.job.elements if isinstance(one, Text)):
        files |= _fonts_of(text, opened.folder, bench.folders.fonts)
    for (beside, written), file in files.items():
        inside(written)
        digest = file_sha256(file)
        place.put_part(file, digest)
        yield Part(beside, written, digest)


def _fonts_of(text: Text, job_folder: Path, own: Path) -> dict[tuple[Beside, str], Path]:
    """Return the font files beside the job, or the user's own, among which a text's font is chosen."""
    from wrapwright.outside.fonts.shelf import fonts_of

    if is_font_file(text.font):
        return {("fonts", text.font): own / text.font} if (own / text.font).is_file() else {}
    wanted = " ".join(text.font.split()).casefold()
    folders: tuple[tuple[Beside, Path], ...] = (("job", job_folder), ("fonts", own))
    return {
        (beside, font.file.name): font.file
        for beside, folder in folders
        for font in fonts_of(folder)
        if font.family.casefold() == wanted
    }


def _blank_of(job: Path, bench: Bench) -> dict[str, tuple[dict[str, object], dict[str, object]]]:
    """Return the shelf with the one blank that a job names; empty when it names none."""
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.outside.jobfile.reading import job_text

    blank = tomllib.loads(job_text(job.read_bytes(), where=job.name).removeprefix("\ufeff")).get("blank")
    name = blank.get("use") if isinstance(blank, dict) else None
    if not isinstance(name, str):
        return {}
    kept = shelf_of(bench)()
    wanted = name.strip().casefold()
    return {one: (dict(table), dict(wrap)) for one, (table, wrap) in kept.items() if one.casefold() == wanted}


@dataclass
class Rows:
    """Puts the rows of shards into the place, and the pictures that they name; several threads may ask it to.

    Attributes:
        opened: the job.
        place: where they are put.
        inputs: hash of the run's inputs.
        threads: put the pictures; others than those that ask.
    """

    opened: Opened
    place: Place
    inputs: str
    threads: Executor
    standing: dict[str, Future[None] | None] = field(default_factory=dict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def put(self, request: ShardRequest) -> SpreadRequest:
        """Return what a worker is asked, once all that it needs stands in the place.

        Raises:
            WrapwrightError: refused, when a picture has changed since the run began; as `put_inputs`.
        """
        file = request.run.folder / shard_name(request.number, "rows")
        digest = file_sha256(file)
        named = {sha256: written for one in rows_of(file) for written, sha256 in one.inputs.items() if sha256}
        for going in self._begun(named):
            going.result()
        self._remember(named)
        self.place.put_file(file, part_name(digest))
        address = self.place.address
        return SpreadRequest(address, self.inputs, request.number, request.first, request.last, digest)

    def _begun(self, named: Mapping[str, str]) -> list[Future[None]]:
        """Return those of the pictures that are still on their way to the place, begun where nobody had."""
        with self.lock:
            for sha256, written in named.items():
                if sha256 not in self.standing:
                    self.standing[sha256] = self.threads.submit(self._put, written, sha256)
            return [going for sha256 in named if (going := self.standing[sha256]) is not None]

    def _put(self, written: str, sha256: str) -> None:
        inside(written)
        file = self.opened.path_of(written)
        if not self.place.has(part_name(sha256)):
            try:
                same = file_sha256(file) == sha256
            except OSError:
                same = False
            if not same:
                raise _changed(written)
            self.place.put_file(file, part_name(sha256))

    def _remember(self, hashes: Iterable[str]) -> None:
        with self.lock:
            self.standing |= dict.fromkeys(hashes)
            for old in list(islice(self.standing, max(0, len(self.standing) - _REMEMBERED))):
                del self.standing[old]


def _changed(name: str) -> WrapwrightError:
    message = f"{name} has been changed while its list was being made."
    return WrapwrightError(Kind.REFUSED, message, remedy="Make it again.", where=name)
