"""What one piece of a list has of its own: its texts set, its codes made, its pictures read, and how they are drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.design.drawlist import AnyItem, PlacedOutline
from wrapwright.core.design.elements import AnyElement, Code, Text
from wrapwright.core.design.fields import filled
from wrapwright.core.design.kinds.ground import Ground
from wrapwright.core.design.layers import split
from wrapwright.core.design.layout import lay_some
from wrapwright.core.design.supplies import Supply
from wrapwright.core.names.making.letters import PlacedLetters
from wrapwright.core.names.making.own import split_own
from wrapwright.core.names.pieces import elements_of, fields_of
from wrapwright.core.names.values import Row
from wrapwright.jobs.names.making.base import Base, composed_for, renumbered
from wrapwright.jobs.names.making.lettering import LetterSetting, is_plain

if TYPE_CHECKING:
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.fonts.shelf import FontShelf
    from wrapwright.outside.pdf.listed.values import OwnArt, Paint


@dataclass
class Pieces:
    """Draws pieces; the last row's art is kept for further pieces of it.

    Attributes:
        base: what all share.
    """

    base: Base
    lettering: LetterSetting = field(init=False)
    last: tuple[int, OwnArt] | None = field(default=None)

    def __post_init__(self) -> None:
        """Take the faces of the texts."""
        base = self.base
        self.lettering = LetterSetting(base.composed.wrapped.wrap, base.composed.draw_list.bleed_mm, base.shelf)

    def own(self, row: Row, piece: int, inputs: Mapping[str, str]) -> OwnArt:
        """Return a piece's own art; `inputs` are the hashes that its pictures must have.

        Raises:
            WrapwrightError: what its texts, codes or pictures cannot be made of; refused, when a picture has changed.
        """
        if self.last is None or self.last[0] != row.number:
            self.last = (row.number, self._drawn(row, inputs))
        return replace(self.last[1], piece=piece)

    def _drawn(self, row: Row, inputs: Mapping[str, str]) -> OwnArt:
        from wrapwright.outside.pdf.listed.values import Outlined, OwnArt

        base = self.base
        elements = own_of_row(base, row)
        fields = fields_of(base.opened.job.fields, row)
        letters = self._letters(elements, fields)
        rest = {index: one for index, one in elements.items() if index not in letters}
        supplies = supplies_of(rest, fields, base.shelf)
        if supplies is None:
            return self._by_itself(row, elements, inputs)
        wrap, bleed = base.composed.wrapped.wrap, base.composed.draw_list.bleed_mm
        found = split_own(base.stand, lay_some(rest, Ground(wrap, bleed, supplies)).items)
        if found.alone or found.patches:
            return self._by_itself(row, elements, inputs)
        runs = [list[Outlined](run) for run in found.runs]
        for index, copies in letters.items():
            runs[base.stand.slots[index]] += copies
        ordered = tuple(tuple(sorted(run, key=lambda item: item.element)) for run in runs)
        clipped = not base.inside.holds([item for run in found.runs for item in run])
        return OwnArt(row.number, 0, words_of(elements, fields), ordered, clipped=clipped)

    def _letters(
        self, elements: Mapping[int, AnyElement], fields: Mapping[str, str]
    ) -> dict[int, tuple[PlacedLetters, ...]]:
        """Return the texts that can be drawn letter by letter: plain ones, wholly inside, nothing of pixels above."""
        texts = {index: one for index, one in elements.items() if isinstance(one, Text) and is_plain(one)}
        found = {index: self.lettering.placed(index, one, fields) for index, one in texts.items()}
        return {
            index: copies
            for index, copies in found.items()
            if copies and all(self.base.stands_clear(index, one.box()) for one in copies)
        }

    def _by_itself(self, row: Row, elements: Mapping[int, AnyElement], inputs: Mapping[str, str]) -> OwnArt:
        """Return the art of a piece whose own part is pixels: composed as a job of its own, drawn where it differs."""
        from wrapwright.outside.pdf.listed.values import OwnArt

        base = self.base
        composed = composed_for(base.opened, row, base.bench)
        _same(inputs, composed.supplied.inputs)
        draw_list = renumbered(composed.draw_list, base.opened, row)
        composed = replace(composed, draw_list=draw_list)
        fields = fields_of(base.opened.job.fields, row)
        items = draw_list.items
        own = [item for item in items if item.element in elements]
        found = split_own(base.stand, own)
        words = words_of(elements, fields)
        if found.alone:
            raster, vector = split(draw_list)
            outlines = tuple(item for item in (items[index] for index in vector) if isinstance(item, PlacedOutline))
            paint = _paint(base, composed, raster)
            return OwnArt(row.number, 0, words, (outlines,), clipped=True, paint=paint, alone=True)
        drawn = {id(item) for run in found.runs for item in run}
        raster = _raster(base, items, own, drawn)
        paint = _paint(base, composed, raster)
        return OwnArt(row.number, 0, words, found.runs, clipped=True, patches=found.patches, paint=paint)


def _same(then: Mapping[str, str], now: Mapping[str, str]) -> None:
    for file, digest in then.items():
        if now.get(file, digest) != digest:
            message = f"{file} has been changed while its list was being made."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Make it again.", where=file)


def own_of_row(base: Base, row: Row) -> dict[int, AnyElement]:
    """Return the elements that a row's piece has of its own, by their index in the job."""
    elements = base.opened.job.elements
    changed = elements_of(elements, replace(row, hidden=frozenset()))
    return {index: changed[index] for index in sorted(base.own) if elements[index].name not in row.hidden}


def supplies_of(
    elements: Mapping[int, AnyElement], fields: Mapping[str, str], shelf: FontShelf
) -> dict[int, Supply] | None:
    """Return what texts and codes are made of; None where there is a picture or a fill among the elements."""
    from wrapwright.outside.codes.writing import code_modules
    from wrapwright.outside.fonts.setting import set_text

    found: dict[int, Supply] = {}
    for index, element in elements.items():
        if isinstance(element, Text):
            found[index] = set_text(element, fonts=shelf, fields=fields)
        elif isinstance(element, Code):
            found[index] = code_modules(filled(element.text, fields, where=element.name), element.level)
        else:
            return None
    return found


def words_of(elements: Mapping[int, AnyElement], fields: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Return (element, text as set) of the texts and codes among elements."""
    return tuple(
        (one.name, filled(one.text, fields, where=one.name))
        for one in elements.values()
        if isinstance(one, Text | Code)
    )


def _raster(base: Base, items: tuple[AnyItem, ...], own: list[AnyItem], drawn: set[int]) -> tuple[int, ...]:
    """Return the indices of all that is pixels: the shared items that are, and the own ones not drawn as outlines."""
    mine = {id(item) for item in own}
    shared = [index for index, item in enumerate(items) if id(item) not in mine]
    pixels = {shared[number] for number in base.stand.raster}
    return tuple(
        index for index, item in enumerate(items) if index in pixels or (id(item) in mine and id(item) not in drawn)
    )


def _paint(base: Base, composed: Composition, raster: tuple[int, ...]) -> Paint | None:
    from wrapwright.jobs.lay.printing import painted

    if not raster:
        return None
    return partial(painted, composed, raster, base.opened.job.sheet.ppi, 1)
