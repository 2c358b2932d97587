"""Plan a list's making: how a sheet is laid, which pieces lie where, and the rows of each shard put ready."""

from __future__ import annotations

import base64
import hashlib
import json
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.design.elements import Text
from wrapwright.core.names.making.places import Order, Places
from wrapwright.core.names.values import Row
from wrapwright.core.sheet.lay.printed.values import Good
from wrapwright.core.sheet.lay.values import Cell, LaidSheet, Layout, LayRequest
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.values import Run, ShardRequest
from wrapwright.outside.system.files import file_sha256

if TYPE_CHECKING:
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.jobfile.together.reading import SheetsAsked

SHEETS_A_SHARD = 50
LEAST_SHARDS = 8  # so many at least where there are enough sheets, so that several workers have something to do
SKIPPED = "skipped.jsonl"
_TRIED = 5  # rows that are tried as the typical one
_LETTERS = 3
_FORM = "4"  # of a run's folder: another form never meets an old one's shards


@dataclass(frozen=True, eq=False)
class Planned:
    """A run ready to be made.

    Attributes:
        run: what its shards share.
        layout: of each kind of sheet as many as are cut at once.
        composed: the composition of the typical row.
        good: what is laid of each piece.
        shards: all of them, in order.
    """

    run: Run
    layout: Layout
    composed: Composition
    good: Good
    shards: tuple[ShardRequest, ...]


@dataclass(frozen=True)
class Wanted:
    """What is to be made of a list.

    Attributes:
        pieces: how many.
        total: how many its rows make in all.
        order: see Places.
        seconds: at most so long is searched for the best sheet.
        rows: numbers of the rows that are made; None: all.
    """

    pieces: int
    total: int
    order: Order = "rows"
    seconds: float = 2.0
    rows: frozenset[int] | None = None


def pieces_of(names: NamesList, rows: frozenset[int] | None = None) -> Iterator[tuple[int, Row]]:
    """Yield every piece's number in the whole list, and its row: one whose quantity is 3 comes three times."""
    number = 0
    for one in names.rows():
        if one.skipped:
            continue
        for _ in range(one.row.quantity):
            number += 1
            if rows is None or one.row.number in rows:
                yield number, one.row


def plan(names: NamesList, wanted: Wanted, bench: Bench, watch: Watch) -> Planned:
    """Return the plan of a list whose rows have been checked.

    Raises:
        WrapwrightError: unusable, when there is no piece; checks, when it fits no paper; as `compose`.
    """
    from wrapwright.jobs.names.making.base import good_of, lettering_of

    watch.step("composing", 0.15)
    typical, composed = _typical(names, wanted.rows, bench)
    mark = _mark(names)
    good, asked = good_of(composed, wanted.total, mark, lettering_of(bench))
    layout = _laid(good, asked, wanted, bench, watch)
    full = max(layout.sheets, key=lambda sheet: len(sheet.pieces))
    pattern = replace(full, pieces=tuple(sorted(full.pieces, key=lambda one: (-round(one.y_mm), round(one.x_mm)))))
    stack = replace(asked.trimmer, paper_mm=composed.opened.job.sheet.thickness_mm).layers
    places = Places(wanted.pieces, len(pattern.pieces), wanted.order, stack)
    run_id = _id(names, composed, wanted, (repr(places), repr(pattern)), bench)
    run = Run(
        id=run_id,
        job=(names.opened.folder / names.opened.name).resolve(),
        job_sha256=names.opened.sha256,
        mark=mark,
        listed=tuple(name for name, _, _ in names.mapping.fields),
        typical=typical,
        places=places,
        total=wanted.total,
        pattern=pattern,
        folder=bench.folders.cache / "lists" / run_id[:32],
        cache=bench.folders.cache,
        data=bench.folders.data,
        fonts=bench.folders.fonts,
    )
    return Planned(run, _as_cut(layout, pattern, places), composed, good, tuple(_shards(run)))


def _typical(names: NamesList, rows: frozenset[int] | None, bench: Bench) -> tuple[Row, Composition]:
    """Return the first row that can be composed, and its composition; what the first lacks when none of some can."""
    from wrapwright.jobs.names.making.base import composed_for

    first: WrapwrightError | None = None
    tried = 0
    last = 0
    for _, row in pieces_of(names, rows):
        if row.number == last:
            continue
        last = row.number
        try:
            return row, composed_for(names.opened, row, bench)
        except WrapwrightError as problem:
            first = first or problem
        tried += 1
        if tried == _TRIED:
            break
    if first is not None:
        raise first
    raise unusable("no row of the list is made.", remedy="Take back a skip, or add rows.", where=names.asked.file)


def _laid(good: Good, asked: SheetsAsked, wanted: Wanted, bench: Bench, watch: Watch) -> Layout:
    """Return how so many pieces are laid as fill two sheets or so: enough to find the fullest sheet."""
    from wrapwright.jobs.lay.arranging import ArrangeParts, arrange_parts
    from wrapwright.jobs.lay.goods import step_of

    stock = asked.stocks[0]
    shape = good.part.shape
    area = stock.width_mm * (stock.height_mm or 1000.0)
    most = max(1, int(area / max(shape.width_mm * shape.height_mm * 0.5, 1.0)))
    part = replace(good.part, copies=min(wanted.pieces, most))
    request = LayRequest((part,), asked.stocks, asked.gutter_mm, asked.way, step_mm=step_of(asked.sheet))
    watch.step("arranging", 0.17)
    quiet = Watch(cancelled=watch.cancelled)  # it counts its own share
    return arrange_parts(ArrangeParts(request, wanted.seconds, asked.trimmer), bench, quiet)


def _as_cut(layout: Layout, pattern: LaidSheet, places: Places) -> Layout:
    """Return the layout that the cut list is made of: of each kind of sheet as many as are cut at once."""
    copies, sheets = 0, []
    kinds = places.alike()
    for count, runs in kinds:
        for _ in range(min(sum(map(len, runs)), places.stack)):
            pieces = tuple(
                replace(one, part=0, copy=copies + place) for place, one in enumerate(pattern.pieces[:count])
            )
            numbers = {one.copy: new.copy for one, new in zip(pattern.pieces, pieces, strict=False)}
            cell = None if pattern.cell is None else _numbered(pattern.cell, numbers)
            rest = pattern.rest if count == kinds[0][0] else None
            sheets.append(replace(pattern, pieces=pieces, cell=cell, rest=rest))
            copies += count
    request = replace(layout.request, parts=(replace(layout.request.parts[0], copies=copies),))
    return replace(layout, request=request, sheets=tuple(sheets))


def _numbered(cell: Cell, numbers: dict[int, int]) -> Cell:
    """Return a sheet's cuts with its copies counted anew; a copy that is not there any more is waste."""
    children = tuple(_numbered(one, numbers) for one in cell.children)
    if cell.part < 0:
        return replace(cell, children=children)
    if cell.copy not in numbers:
        return replace(cell, part=-1, copy=-1, turn_deg=0)
    return replace(cell, part=0, copy=numbers[cell.copy])


def _mark(names: NamesList) -> str:
    return base64.b32encode(hashlib.sha256(names.sha256.encode("ascii")).digest())[:_LETTERS].decode("ascii")


def _id(names: NamesList, composed: Composition, wanted: Wanted, laid: tuple[str, ...], bench: Bench) -> str:
    """Return the hash of all that the sheets depend on, but for what single rows name: that is told with the rows."""
    from wrapwright.jobs.names.making.base import own_of
    from wrapwright.outside.fonts.setting import faces_of
    from wrapwright.outside.fonts.shelf import FontShelf
    from wrapwright.outside.system.installed import version

    job = composed.opened.job
    shelf = FontShelf(job_folder=composed.opened.folder, user_folder=bench.folders.fonts)
    own = own_of(names.opened, [name for name, _, _ in names.mapping.fields])
    texts = [one for index, one in enumerate(names.opened.job.elements) if index in own and isinstance(one, Text)]
    faces = sorted({face.sha256 for text in texts for face in faces_of(text, shelf)})
    rows = "all" if wanted.rows is None else repr(sorted(wanted.rows))
    inputs = sorted(composed.supplied.inputs.items())
    parts = (
        *(_FORM, version(), names.sha256, rows, str(wanted.total), repr(inputs), repr(faces)),
        *(repr(composed.wrapped.wrap), repr(job.sheet), repr(job.colour), *laid),
    )
    return hashlib.sha256("\n".join(parts).encode("utf-8")).hexdigest()


def _shards(run: Run) -> Iterator[ShardRequest]:
    """Yield the shards: whole stacks of sheets, about so many sheets each."""
    stack = run.places.stack if run.places.order == "piles" else 1
    wanted = min(SHEETS_A_SHARD, -(-run.places.sheets // LEAST_SHARDS))
    sheets = max(1, wanted // stack) * stack
    for number, first in enumerate(range(0, run.places.sheets, sheets)):
        yield ShardRequest(run, number, first, min(first + sheets, run.places.sheets))


def put_rows(names: NamesList, planned: Planned, rows: frozenset[int] | None, watch: Watch) -> Iterator[ShardRequest]:
    """Yield the shards in order, the rows of each written into the run's folder before, in the order of its places.

    After the last one the rows that are skipped stand there too. What stands there already is not written anew.

    Raises:
        WrapwrightError: fault, when the list has fewer rows than it had when it was counted; unusable, when nothing
            can be written.
    """
    from wrapwright.jobs.names.making.shard import put_file, put_row, shard_name

    run = planned.run
    put_folder(run.folder)
    put_file(run.folder / f"{names.table.taken.sha256}.table", "")  # by which it goes when the table is removed
    who, skipped = names.mapping.who, list[str]()
    pieces = _counted(names, rows, skipped)
    digest_of = _digests(names)
    for shard in planned.shards:
        _go_on(watch)
        numbers = [piece for sheet in range(shard.first, shard.last) for piece in run.places.on(sheet)]
        found = list(islice(pieces, len(numbers)))
        if len(found) < len(numbers):
            raise WrapwrightError(Kind.FAULT, "the list has become shorter while it was read.", remedy="Make it again.")
        first = min(numbers)
        lines = []
        for place in numbers:
            piece, row = found[place - first]
            inputs = {written: digest_of(written) for written in row.pictures.values()}
            lines.append(put_row(row, piece, row.fields.get(who, ""), inputs))
        put_file(run.folder / shard_name(shard.number, "rows"), "".join(line + "\n" for line in lines))
        yield shard
    if next(pieces, None) is not None:
        raise WrapwrightError(Kind.FAULT, "the list has become longer while it was read.", remedy="Make it again.")
    put_file(run.folder / SKIPPED, "".join(line + "\n" for line in skipped))


def _go_on(watch: Watch) -> None:
    """Stop if the user asked for it; how far it is, the making tells."""
    Watch(cancelled=watch.cancelled).step("", 0.0)


def _counted(names: NamesList, rows: frozenset[int] | None, skipped: list[str]) -> Iterator[tuple[int, Row]]:
    """Yield as `pieces_of`; rows that are skipped are written down on the way."""
    who, number = names.mapping.who, 0
    for one in names.rows():
        wanted = rows is None or one.row.number in rows
        if one.skipped:
            if wanted:
                entry = {"row": one.row.number, "name": one.row.fields.get(who, ""), "row_sha256": one.row.digest}
                skipped.append(json.dumps(entry, ensure_ascii=False))
            continue
        for _ in range(one.row.quantity):
            number += 1
            if wanted:
                yield number, one.row


def _digests(names: NamesList) -> Callable[[str], str]:
    """Return the function from a picture's name as written to its hash, "" where it cannot be read."""

    @lru_cache(maxsize=20_000)
    def digest(written: str) -> str:
        try:
            return file_sha256(names.opened.path_of(written))
        except OSError:
            return ""

    return digest


def put_folder(folder: Path) -> None:
    """Make the folder of a run, marked as used now.

    Raises:
        WrapwrightError: unusable, when it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        os.utime(folder)
    except OSError as error:
        remedy = "Free some room, or name another cache folder."
        raise unusable(f"the folder of the run cannot be made: {error.strerror}.", remedy=remedy) from error
