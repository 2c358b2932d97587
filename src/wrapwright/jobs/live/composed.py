"""A design's document composed for the screen: again only what has changed since it was composed last."""

from __future__ import annotations

import hashlib
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError, raise_all
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.composing.rows import Row, Rows, file_state, font_folders, noted_for
from wrapwright.jobs.live.composing.understood import Document, Trouble, canonical, understood
from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped
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


def state_named(tried: Tried) -> str:
    """Return what the address of a picture that may be kept for ever says: another when the pixels may be others."""
    return hashlib.sha256(repr((version(), tried.key)).encode("utf-8")).hexdigest()[:16]


def _state_of(document: Document, folder: Path, bench: Bench) -> Hashable:
    from wrapwright.outside.jobfile.named import files_named

    written = dict.fromkeys(written for _, written in files_named(dict(document)))
    files = (file_state(folder / one) for one in written)
    return (*files, *font_folders(folder, bench), _recipe_state(document, bench), _heater_state(document, bench))


def _recipe_state(document: Document, bench: Bench) -> Hashable:
    """Return the recipe that a document names as it stands now: one kept anew gives another wrap."""
    from wrapwright.jobs.press.kept.recipes import recipe_named

    press = document.get("press")
    name = press.get("recipe") if isinstance(press, dict) else None
    try:
        return recipe_named(name if isinstance(name, str) else None, bench)
    except WrapwrightError as problem:
        return str(problem)


def _heater_state(document: Document, bench: Bench) -> Hashable:
    """Return the heater that a document names as it stands now; None for none of its own."""
    from wrapwright.jobs.press.kept.heaters import heater_named

    press = document.get("press")
    name = press.get("heater") if isinstance(press, dict) else None
    try:
        return heater_named(name, bench).heater if isinstance(name, str) else None
    except WrapwrightError as problem:
        return str(problem)


def _tried(document: Document, folder: Path, bench: Bench, key: Hashable) -> Tried:
    from wrapwright.jobs.press.plan.for_job import heat_of_job
    from wrapwright.jobs.work.plating import outline_input, with_outline

    read = understood(document, folder, bench)
    troubles = list(read.troubles)
    if read.opened is None:
        return Tried(None, (), tuple(troubles), key)
    plated: Opened | None = noted_for(None, troubles, partial(with_outline, read.opened, bench))
    if plated is None:  # its drawing is absent or of no use, which has been said
        return Tried(None, (), tuple(troubles), key)
    bare, recipe, wrapped = _wrapped(plated, bench, troubles)
    if wrapped is None:
        return Tried(None, (), tuple(troubles), key)
    fonts = font_folders(folder, bench)
    composing = Rows(bare, wrapped, bench, troubles, fonts)
    kept = [(index, element) for index, element in zip(read.indices, bare.job.elements, strict=True)]
    rows = [row for index, element in kept if (row := composing.row(index, element)) is not None]
    opened = replace(bare, job=replace(bare.job, elements=tuple(row.element for row in rows)))
    supplied = _gathered(rows)
    supplied.inputs = {**outline_input(bare), **supplied.inputs}
    opened, colouring = _coloured(opened, supplied, bench, troubles)
    heat = noted_for(None, troubles, lambda: heat_of_job(bare.job, recipe, wrapped.profile, bench))
    composition = _put_together(opened, rows, supplied, colouring, (recipe, wrapped))
    if heat is not None:
        composition = replace(composition, heat=heat, remarks=(*composition.remarks, *heat.remarks))
    return Tried(composition, tuple(row.index for row in rows), tuple(troubles), key, fonts)


def _wrapped(opened: Opened, bench: Bench, troubles: list[Trouble]) -> tuple[Opened, Recipe | None, Wrapped | None]:
    """Return the job, its recipe and its wrap; a wish for the wrap that cannot be is told and left out."""
    from wrapwright.core.blank.readings import WrapRequest
    from wrapwright.core.blank.wrapped import wrap_blank
    from wrapwright.jobs.press.kept.recipes import recipe_named
    from wrapwright.jobs.work.heating import heat_of

    recipe = noted_for(None, troubles, lambda: recipe_named(opened.job.recipe, bench))
    for wish in (opened.job.wrap, WrapRequest()):
        job = replace(opened.job, wrap=wish)
        setup = heat_of(job, recipe)
        key = (job.blank, wish, setup)
        found: list[Trouble] = []
        make = partial(wrap_blank, *key)
        wrapped: Wrapped | None = noted_for(None, found, partial(bench.recent.wraps.get, key, make))
        troubles += [one for one in found if one[1].message not in {old.message for _, old in troubles}]
        if wrapped is not None:
            return replace(opened, job=job), recipe, wrapped
    return opened, recipe, None


def _gathered(rows: Sequence[Row]) -> Supplied:
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

    found: Colouring | None = noted_for(None, troubles, lambda: _colouring(opened, supplied, bench))
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
    rows: Sequence[Row],
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
    empty = () if opened.job.elements else ("There is no element on this wrap: nothing but the marks is printed.",)
    remarks = tuple(dict.fromkeys((*empty, *wrapped.questions, *laid, *notes, *colouring.remarks)))
    draw_list = DrawList(wrapped.wrap, opened.job.wrap.bleed_mm, items, extents)
    return Composition(opened, wrapped, supplied, colouring, draw_list, recipe, remarks)
