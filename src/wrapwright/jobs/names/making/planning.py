"""Plan a list's making: how a sheet is laid, which pieces lie where, and the rows of each shard put ready."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.names.making.places import Order, Places
from wrapwright.core.names.values import Row
from wrapwright.core.sheet.lay.printed.values import Good
from wrapwright.core.sheet.lay.values import Cell, LaidSheet, Layout, LayRequest
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.values import Run, ShardRequest

if TYPE_CHECKING:
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.jobfile.together.reading import SheetsAsked

SHEETS_A_SHARD = 25
_LETTERS = 3
_FORM = "1"  # of a run's folder: another form never meets an old one's shards


@dataclass(frozen=True, eq=False)
class Planned:
    """A run ready to be made.

    Attributes:
        run: what its shards share.
        layout: the full sheet, and the last one where it holds fewer.
        composed: the composition of the typical row.
        shards: all of them, in order.
    """

    run: Run
    layout: Layout
    composed: Composition
    shards: tuple[ShardRequest, ...]


def pieces_of(names: NamesList) -> Iterator[Row]:
    """Yield the row of every piece, in the list's order: a row whose quantity is 3 comes three times."""
    for one in names.rows():
        if not one.skipped:
            for _ in range(one.row.quantity):
                yield one.row


def plan(names: NamesList, pieces: int, order: Order, seconds: float, bench: Bench, watch: Watch) -> Planned:
    """Return the plan of a list whose rows have been checked.

    Args:
        names: the list.
        pieces: how many pieces its rows make.
        order: see Places.
        seconds: at most so long is searched for the best sheet.
        bench: as for every job.
        watch: likewise.

    Raises:
        WrapwrightError: unusable, when there is no piece; checks, when it fits no paper; as `compose`.
    """
    from wrapwright.jobs.names.making.base import composed_for, good_of, lettering_of

    typical = next(pieces_of(names), None)
    if typical is None:
        raise unusable("no row of the list is made.", remedy="Take back a skip, or add rows.", where=names.asked.file)
    watch.step("composing", 0.05)
    composed = composed_for(names.opened, typical, bench)
    mark = _mark(names)
    good, asked = good_of(composed, pieces, mark, lettering_of(bench))
    layout = _laid(good, asked, pieces, seconds, bench, watch)
    full = max(layout.sheets, key=lambda sheet: len(sheet.pieces))
    pattern = replace(full, pieces=tuple(sorted(full.pieces, key=lambda one: (-round(one.y_mm), round(one.x_mm)))))
    stack = replace(asked.trimmer, paper_mm=composed.opened.job.sheet.thickness_mm).layers
    places = Places(pieces, len(pattern.pieces), order, stack)
    run_id = _id(names, composed, places, repr(pattern))
    run = Run(
        id=run_id,
        job=(names.opened.folder / names.opened.name).resolve(),
        job_sha256=names.opened.sha256,
        mark=mark,
        listed=tuple(name for name, _, _ in names.mapping.fields),
        typical=typical,
        places=places,
        pattern=pattern,
        folder=bench.folders.cache / "lists" / run_id[:32],
        cache=bench.folders.cache,
        data=bench.folders.data,
        fonts=bench.folders.fonts,
    )
    return Planned(run, _as_printed(layout, pattern, places), composed, tuple(_shards(run)))


def _laid(good: Good, asked: SheetsAsked, pieces: int, seconds: float, bench: Bench, watch: Watch) -> Layout:
    """Return how so many pieces are laid as fill two sheets or so: enough to find the fullest sheet."""
    from wrapwright.jobs.lay.arranging import ArrangeParts, arrange_parts
    from wrapwright.jobs.lay.goods import step_of

    stock = asked.stocks[0]
    shape = good.part.shape
    area = stock.width_mm * (stock.height_mm or 1000.0)
    most = max(1, int(area / max(shape.width_mm * shape.height_mm * 0.5, 1.0)))
    part = replace(good.part, copies=min(pieces, most))
    request = LayRequest((part,), asked.stocks, asked.gutter_mm, asked.way, step_mm=step_of(asked.sheet))
    return arrange_parts(ArrangeParts(request, seconds, asked.trimmer), bench, watch)


def _as_printed(layout: Layout, pattern: LaidSheet, places: Places) -> Layout:
    """Return the layout that the cut list is made of: a full sheet, and the last one where it holds fewer."""
    counts = sorted({len(places.on(sheet)) for sheet in (0, places.sheets - 1)}, reverse=True)
    copies, sheets = 0, []
    for count in counts:
        pieces = tuple(replace(one, part=0, copy=copies + place) for place, one in enumerate(pattern.pieces[:count]))
        numbers = {one.copy: new.copy for one, new in zip(pattern.pieces, pieces, strict=False)}
        cell = None if pattern.cell is None else _numbered(pattern.cell, numbers)
        sheets.append(replace(pattern, pieces=pieces, cell=cell, rest=pattern.rest if count == counts[0] else None))
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
    digest = hashlib.sha256(f"{names.opened.sha256} {names.table.taken.sha256}".encode("ascii")).digest()
    return base64.b32encode(digest)[:_LETTERS].decode("ascii")


def _id(names: NamesList, composed: Composition, places: Places, pattern: str) -> str:
    from wrapwright.outside.system.installed import version

    inputs = sorted(composed.supplied.inputs.items())
    parts = (_FORM, version(), names.sha256, repr(inputs), repr(composed.wrapped.wrap), repr(places), pattern)
    return hashlib.sha256("\n".join(parts).encode("utf-8")).hexdigest()


def _shards(run: Run) -> Iterator[ShardRequest]:
    """Yield the shards: whole stacks of sheets, about so many sheets each."""
    stack = run.places.stack
    sheets = max(1, SHEETS_A_SHARD // stack) * stack
    for number, first in enumerate(range(0, run.places.sheets, sheets)):
        yield ShardRequest(run, number, first, min(first + sheets, run.places.sheets))


def put_rows(names: NamesList, planned: Planned, watch: Watch) -> None:
    """Write each shard's rows into the run's folder, in the order of its places; what stands there is not written anew.

    Raises:
        WrapwrightError: fault, when the list has fewer rows than it had when it was counted.
    """
    from wrapwright.jobs.names.making.shard import put_row, shard_name
    from wrapwright.outside.system.files import write_aside

    run = planned.run
    run.folder.mkdir(parents=True, exist_ok=True)
    rows = pieces_of(names)
    who = names.mapping.who
    for shard in planned.shards:
        watch.step("reading the list", 0.1)
        numbers = [piece for sheet in range(shard.first, shard.last) for piece in run.places.on(sheet)]
        found = list(islice(rows, len(numbers)))
        if len(found) < len(numbers):
            raise WrapwrightError(Kind.FAULT, "the list has become shorter while it was read.", remedy="Make it again.")
        file = run.folder / shard_name(shard.number, "rows")
        if not file.exists():
            first = min(numbers)
            lines = [put_row(found[piece - first], found[piece - first].fields.get(who, "")) for piece in numbers]
            write_aside(file, "".join(line + "\n" for line in lines).encode("utf-8"))
