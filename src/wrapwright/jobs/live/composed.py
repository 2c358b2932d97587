"""A design's document composed for the screen: again only what has changed since it was composed last."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import WrapwrightError, raise_all
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.reading import Document, Trouble, canonical, problems_in, understood

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped
    from wrapwright.core.design.elements import AnyElement
    from wrapwright.core.design.layout import Laid
    from wrapwright.core.design.path import Path as Outline
    from wrapwright.core.design.supplies import Supply
    from wrapwright.data.press import Recipe
    from wrapwright.jobs.work.colouring import Colouring
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.jobs.work.opening import Opened
    from wrapwright.jobs.work.supplying import Supplied


@dataclass(frozen=True, eq=False)
class Tried:
    """A document composed as far as it goes.

    Attributes:
        composition: of all that can be drawn, or None when there is no wrap to draw on.
        indices: for each element of the composition, its index in the document's list.
        troubles: (index in the document's list or None, problem) of all that is wrong.
        key: names the document and the state of its files.
        fonts: names the state of the fonts its texts can be set in.
    """

    composition: Composition | None
    indices: tuple[int, ...]
    troubles: tuple[Trouble, ...]
    key: Hashable
    fonts: Hashable = ()


def composed_of(document: Document, folder: Path, bench: Bench) -> Composition:
    """Return the composition of a document whose files lie in `folder`, as `compose` gives it of a job file.

    Raises:
        WrapwrightError: all that is wrong with it.
    """
    tried = tried_of(document, folder, bench)
    raise_all([problem for _, problem in tried.troubles])
    if tried.composition is None:  # pragma: no cover - raise_all left with the reason
        raise AssertionError("a document that cannot be composed has no problem to show")
    return tried.composition


def tried_of(document: Document, folder: Path, bench: Bench) -> Tried:
    """Return what can be composed of a document, and all that is wrong with it; nothing a user can mend is raised."""
    key = (canonical(document), str(folder), _state_of(document, folder, bench))
    tried: Tried = bench.recent.compositions.get(key, lambda: _tried(document, folder, bench, key))
    return tried


def _state_of(document: Document, folder: Path, bench: Bench) -> Hashable:
    from wrapwright.outside.jobfile.named import files_named

    written = dict.fromkeys(written for _, written in files_named(dict(document)))
    return (*(file_state(folder / one) for one in written), *_font_folders(folder, bench))


def file_state(file: Path) -> Hashable:
    """Return what changes when a file does: its path, size and time of change; None for both when it is not there."""
    try:
        about = file.stat()
    except (OSError, ValueError):
        return (str(file), None, None)
    return (str(file), about.st_size, about.st_mtime_ns)


def _font_folders(folder: Path, bench: Bench) -> tuple[Hashable, ...]:
    """Return the state of the fonts in the two folders where texts look for theirs."""
    from wrapwright.outside.fonts.shelf import ENDINGS

    found: list[Hashable] = []
    for place in (folder, bench.folders.fonts):
        try:
            names = sorted(one.name for one in place.iterdir() if one.suffix.casefold() in ENDINGS)
        except OSError:
            continue
        found += [file_state(place / name) for name in names]
    return tuple(found)


def _tried(document: Document, folder: Path, bench: Bench, key: Hashable) -> Tried:
    read = understood(document, folder, bench)
    troubles = list(read.troubles)
    if read.opened is None:
        return Tried(None, (), tuple(troubles), key)
    bare, recipe, wrapped = _wrapped(read.opened, bench, troubles)
    if wrapped is None:
        return Tried(None, (), tuple(troubles), key)
    fonts = _font_folders(folder, bench)
    composing = _Composing(bare, wrapped, bench, troubles, fonts)
    kept = [(index, element) for index, element in zip(read.indices, bare.job.elements, strict=True)]
    rows = [row for index, element in kept if (row := composing.row(index, element)) is not None]
    opened = replace(bare, job=replace(bare.job, elements=tuple(row.element for row in rows)))
    supplied = _gathered(rows)
    opened, colouring = _coloured(opened, supplied, bench, troubles)
    composition = _put_together(opened, rows, supplied, colouring, (recipe, wrapped))
    return Tried(composition, tuple(row.index for row in rows), tuple(troubles), key, fonts)


def _wrapped(opened: Opened, bench: Bench, troubles: list[Trouble]) -> tuple[Opened, Recipe | None, Wrapped | None]:
    """Return the job, its recipe and its wrap; a wish for the wrap that cannot be is told and left out."""
    from wrapwright.core.blank.readings import WrapRequest
    from wrapwright.core.blank.wrapped import wrap_blank
    from wrapwright.jobs.work.heating import heat_of, recipe_named

    recipe = _noted(None, troubles, lambda: recipe_named(opened.job.recipe))
    for wish in (opened.job.wrap, WrapRequest()):
        job = replace(opened.job, wrap=wish)
        setup = heat_of(job, recipe)
        key = (job.blank, wish, setup)
        found: list[Trouble] = []
        make = partial(wrap_blank, *key)
        wrapped: Wrapped | None = _noted(None, found, partial(bench.recent.wraps.get, key, make))
        troubles += [one for one in found if one[1].message not in {old.message for _, old in troubles}]
        if wrapped is not None:
            return replace(opened, job=job), recipe, wrapped
    return opened, recipe, None


def _noted(index: int | None, troubles: list[Trouble], step: Callable[[], Any]) -> Any:
    """Return what a step returns, or None with its problems added under the element's index."""
    try:
        return step()
    except WrapwrightError as problem:
        troubles += [(index, one) for one in problems_in(problem)]
        return None


@dataclass(frozen=True, eq=False)
class _Row:
    """One element made ready and laid: index in the document; items and extents of it are of element 0."""

    index: int
    element: AnyElement
    supply: Supply
    mask: Outline | None
    inputs: Mapping[str, str]
    laid: Laid


@dataclass(frozen=True, eq=False)
class _Composing:
    """What every element is made ready and laid with."""

    opened: Opened
    wrapped: Wrapped
    bench: Bench
    troubles: list[Trouble]
    fonts: Hashable

    def row(self, index: int, element: AnyElement) -> _Row | None:
        """Return an element made ready and laid, or None with its problems told."""
        return _noted(index, self.troubles, lambda: self._row(index, element))  # type: ignore[no-any-return]

    def _row(self, index: int, element: AnyElement) -> _Row:
        shelves = self.bench.recent
        key = self._supply_key(element)
        supplied: Supplied = shelves.supplies.get(key, lambda: self._supplied(element))
        supply, mask = supplied.supplies.get(0), supplied.masks.get(0)
        wrap, bleed = self.wrapped.wrap, self.opened.job.wrap.bleed_mm
        laid: Laid = shelves.laid.get((element, wrap, bleed, key), lambda: self._laid(element, supply, mask))
        return _Row(index, element, supply, mask, supplied.inputs, laid)

    def _supplied(self, element: AnyElement) -> Supplied:
        from wrapwright.jobs.work.supplying import supplied

        alone = replace(self.opened, job=replace(self.opened.job, elements=(element,)))
        return supplied(alone, self.wrapped.wrap.trim_width_mm, self.bench)

    def _laid(self, element: AnyElement, supply: Supply, mask: Outline | None) -> Laid:
        from wrapwright.core.design.layout import lay_out
        from wrapwright.jobs.work.colouring import recolouring

        return lay_out(
            (element,),
            wrap=self.wrapped.wrap,
            bleed_mm=self.opened.job.wrap.bleed_mm,
            supplies={0: supply},
            masks={} if mask is None else {0: mask},
            fields=self.opened.job.fields,
            recolour=recolouring,
        )

    def _supply_key(self, element: AnyElement) -> Hashable:
        """Return all that what an element is made of hangs on: not where it lies, nor its colours."""
        from wrapwright.core.design.elements import Code, Picture, Text, Tile
        from wrapwright.jobs.work.supplying import longest_px

        fields = tuple(sorted(self.opened.job.fields.items()))
        if isinstance(element, Picture | Tile):
            mask = element.mask.file if isinstance(element, Picture) and element.mask else ""
            longest = longest_px(element, self.wrapped.wrap.trim_width_mm, self.opened.job.sheet.ppi)
            files = tuple(file_state(self.opened.path_of(file)) for file in (element.file, mask) if file)
            return (type(element).__name__, files, longest)
        if isinstance(element, Text):
            plain = replace(element, at_deg=(), up_mm=None, turn_deg=0.0, lay="auto", opacity=1.0, colour="")
            return (plain, fields, self.fonts, str(self.opened.folder), self._font_file(element))
        if isinstance(element, Code):
            return ("Code", element.text, element.level, fields)
        return type(element).__name__

    def _font_file(self, element: Any) -> Hashable:
        from wrapwright.core.design.elements import is_font_file

        return file_state(self.opened.path_of(element.font)) if is_font_file(element.font) else None


def _gathered(rows: Sequence[_Row]) -> Supplied:
    from wrapwright.jobs.work.supplying import Supplied

    found = Supplied()
    for at, row in enumerate(rows):
        if row.supply is not None:
            found.supplies[at] = row.supply
        if row.mask is not None:
            found.masks[at] = row.mask
        found.inputs.update(row.inputs)
    return found


def _coloured(opened: Opened, supplied: Supplied, bench: Bench, troubles: list[Trouble]) -> tuple[Opened, Colouring]:
    """Return the job and its colours; a profile that cannot be used is told and the driver's route taken instead."""
    from wrapwright.core.colour.request import ColourRequest
    from wrapwright.jobs.work.supplying import as_written

    found: Colouring | None = _noted(None, troubles, lambda: _colouring(opened, supplied, bench))
    if found is None:
        opened = replace(opened, job=replace(opened.job, colour=ColourRequest()))
        found = _colouring(opened, supplied, bench)
    elif found.there is not None and opened.job.colour.profile is not None:
        supplied.inputs[as_written(opened.job.colour.profile)] = found.there.device.sha256
    return opened, found


def _colouring(opened: Opened, supplied: Supplied, bench: Bench) -> Colouring:
    from wrapwright.core.design.supplies import Art
    from wrapwright.jobs.work.colouring import colouring_of
    from wrapwright.jobs.work.supplying import Supplied

    colour = opened.job.colour
    arts = tuple(art.id for art in supplied.supplies.values() if isinstance(art, Art) and art.kind == "pixels")
    profile = None if colour.profile is None else file_state(opened.path_of(colour.profile))
    alone = Supplied(dict(supplied.supplies))
    found: Colouring = bench.recent.colourings.get((colour, profile, arts), lambda: colouring_of(opened, alone, bench))
    return found


def _put_together(
    opened: Opened,
    rows: Sequence[_Row],
    supplied: Supplied,
    colouring: Colouring,
    blank: tuple[Recipe | None, Wrapped],
) -> Composition:
    from wrapwright.core.design.drawlist import DrawList
    from wrapwright.core.design.supplies import Art
    from wrapwright.jobs.work.composing import Composition

    recipe, wrapped = blank
    items = tuple(
        replace(item, element=at) if at else item for at, row in enumerate(rows) for item in row.laid.draw_list.items
    )
    extents = tuple(
        replace(extent, element=at) if at else extent
        for at, row in enumerate(rows)
        for extent in row.laid.draw_list.extents
    )
    notes = [f"{row.element.name}: {note}" for row in rows if isinstance(row.supply, Art) for note in row.supply.notes]
    laid = [remark for row in rows for remark in row.laid.remarks]
    empty = () if opened.job.elements else ("The job has no [[element]]: nothing but the marks is printed.",)
    remarks = tuple(dict.fromkeys((*empty, *wrapped.questions, *laid, *notes, *colouring.remarks)))
    draw_list = DrawList(wrapped.wrap, opened.job.wrap.bleed_mm, items, extents)
    return Composition(opened, wrapped, supplied, colouring, draw_list, recipe, remarks)
