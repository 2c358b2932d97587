"""Sets a row's piece anew, by the way a single piece goes: what a run's files are held against, and shown by."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.design.drawlist import AnyItem, PlacedOutline
from wrapwright.core.design.elements import AnyElement
from wrapwright.core.design.kinds.ground import Ground
from wrapwright.core.design.layers import Box, split
from wrapwright.core.design.layout import lay_some
from wrapwright.core.names.making.own import Stand, split_own, stand_of
from wrapwright.core.names.pieces import elements_of, fields_of
from wrapwright.core.names.values import Row
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.base import composed_for, own_of, renumbered
from wrapwright.jobs.names.making.pieces import supplies_of, words_of
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.opening import Opened

if TYPE_CHECKING:
    from wrapwright.outside.fonts.shelf import FontShelf

Runs = tuple[tuple[PlacedOutline, ...], ...]


@dataclass(frozen=True, eq=False)
class RowArt:
    """What a row's piece has of its own.

    Attributes:
        words: (element, its text as set).
        runs: its outlines, bottom to top, one tuple between two of the shared runs.
        patches: boxes in flat mm within which its pixels are its own too.
        alone: whether all of it is its own: `runs` has one tuple with all outlines.
        composed: its composition, where it has pictures of its own; elements counted as in the whole job.
        raster: indices of all its items that are pixels, shared ones among them.
    """

    words: tuple[tuple[str, str], ...]
    runs: Runs
    patches: tuple[Box, ...] = ()
    alone: bool = False
    composed: Composition | None = None
    raster: tuple[int, ...] = ()


@dataclass(frozen=True, eq=False)
class Anew:
    """Sets rows anew.

    Which elements are a row's own, and which items are pixels, is worked out here once more, apart from the making.

    Attributes:
        opened: the job, without any row.
        composed: the composition of the typical row.
        own: elements that rows change, by their index.
        stand: how the shared items stand.
        shelf: the fonts.
        bench: what pictures are read with.
    """

    opened: Opened
    composed: Composition
    own: frozenset[int]
    stand: Stand
    shelf: FontShelf
    bench: Bench

    def art(self, row: Row) -> RowArt:
        """Return what a row's piece has of its own.

        Raises:
            WrapwrightError: what its texts, codes or pictures cannot be made of.
        """
        elements, fields = self.elements(row), fields_of(self.opened.job.fields, row)
        words = words_of(elements, fields)
        supplies = supplies_of(elements, fields, self.shelf)
        if supplies is not None:
            ground = Ground(self.composed.wrapped.wrap, self.composed.draw_list.bleed_mm, supplies)
            found = split_own(self.stand, lay_some(elements, ground).items)
            if not found.alone and not found.patches:
                return RowArt(words, found.runs)
        composed = composed_for(self.opened, row, self.bench)
        composed = replace(composed, draw_list=renumbered(composed.draw_list, self.opened, row))
        items = composed.draw_list.items
        own = [item for item in items if item.element in elements]
        found = split_own(self.stand, own)
        if not found.alone:
            drawn = {id(item) for run in found.runs for item in run}
            pixels = self._pixels(items, {id(item) for item in own}, drawn)
            return RowArt(words, found.runs, found.patches, composed=composed, raster=pixels)
        raster, vector = split(composed.draw_list)
        outlines = tuple(item for item in (items[index] for index in vector) if isinstance(item, PlacedOutline))
        return RowArt(words, (outlines,), alone=True, composed=composed, raster=raster)

    def _pixels(self, items: tuple[AnyItem, ...], own: set[int], drawn: set[int]) -> tuple[int, ...]:
        """Return which items are pixels: the shared ones that are, and the own ones that are not drawn as outlines."""
        shared = [index for index, item in enumerate(items) if id(item) not in own]
        pixels = {shared[number] for number in self.stand.raster}
        return tuple(
            index for index, item in enumerate(items) if index in pixels or (id(item) in own and id(item) not in drawn)
        )

    def elements(self, row: Row) -> dict[int, AnyElement]:
        """Return the elements that a row's piece has of its own, by their index in the job."""
        elements = self.opened.job.elements
        changed = elements_of(elements, replace(row, hidden=frozenset()))
        return {index: changed[index] for index in sorted(self.own) if elements[index].name not in row.hidden}


def anew_of(names: NamesList, composed: Composition, typical: Row, bench: Bench) -> Anew:
    """Return what sets the rows of a list anew; `composed` is the composition of the typical row."""
    from wrapwright.outside.fonts.shelf import FontShelf

    own = own_of(names.opened, [name for name, _, _ in names.mapping.fields])
    return Anew(
        opened=names.opened,
        composed=composed,
        own=own,
        stand=stand_of(renumbered(composed.draw_list, names.opened, typical), own),
        shelf=FontShelf(job_folder=names.opened.folder, user_folder=bench.folders.fonts),
        bench=bench,
    )


def typical_of(names: NamesList, number: int | None, bench: Bench) -> tuple[Row, Composition]:
    """Return a row of a list by its number, and its composition; of None, the first that is made.

    Raises:
        WrapwrightError: unusable, when there is no such row; as `compose`.
    """
    for one in names.rows():
        if one.skipped or (number is not None and one.row.number != number):
            continue
        return one.row, composed_for(names.opened, one.row, bench)
    raise _no_row(names, number)


def _no_row(names: NamesList, number: int | None) -> WrapwrightError:
    which = "no row that is made" if number is None else f"no row {number}"
    return unusable(f"the list has {which}.", where=names.asked.file)
