"""A row's outlines set anew letter by letter, for most rows; for the others by the way of a single piece."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from wrapwright.core.design.elements import Text
from wrapwright.core.design.layers import overlap
from wrapwright.core.names.making.letters import PlacedLetters
from wrapwright.core.names.making.own import Inside
from wrapwright.core.names.matching import Outline
from wrapwright.core.names.pieces import fields_of
from wrapwright.core.names.values import Row
from wrapwright.jobs.names.making.lettering import LetterSetting, is_plain
from wrapwright.jobs.names.making.pieces import words_of
from wrapwright.jobs.names.proving.alike import Wanted, wanted_of
from wrapwright.jobs.names.proving.anew import Anew, RowArt


@dataclass(frozen=True, eq=False)
class WantedPiece:
    """What a row's piece should be: its words, its paths in order, and its art where it has pixels of its own."""

    words: dict[str, str]
    paths: tuple[Wanted, ...]
    art: RowArt | None = None


@dataclass
class Quick:
    """Sets rows anew; glyphs are worked out once.

    Attributes:
        anew: the way of a single piece.
    """

    anew: Anew
    setting: LetterSetting = field(init=False)
    inside: Inside = field(init=False)

    def __post_init__(self) -> None:
        """Take the fonts and the wrap."""
        composed = self.anew.composed
        self.setting = LetterSetting(composed.wrapped.wrap, composed.draw_list.bleed_mm, self.anew.shelf)
        self.inside = Inside.of(self.anew.stand.draw_list)

    def piece(self, row: Row) -> WantedPiece:
        """Return what a row's piece should be.

        Raises:
            WrapwrightError: what its texts, codes or pictures cannot be made of.
        """
        elements, fields = self.anew.elements(row), fields_of(self.anew.opened.job.fields, row)
        found: list[Wanted] = []
        for index, element in elements.items():
            if not isinstance(element, Text) or not is_plain(element):
                return self.alone(row)
            copies = self.setting.placed(index, element, fields)
            if not copies or not all(self._clear(one) for one in copies):
                return self.alone(row)
            found += [Wanted(_curves(one), one.colour, 0.0, index) for one in copies]
        slots = self.anew.stand.slots
        ordered = sorted(found, key=lambda one: (slots[one.element], one.element))
        return WantedPiece(dict(words_of(elements, fields)), tuple(ordered))

    def alone(self, row: Row) -> WantedPiece:
        """Return what a row's piece should be, by the way of a single piece.

        Raises:
            WrapwrightError: as `piece`.
        """
        art = self.anew.art(row)
        paths = tuple(wanted_of(item) for run in art.runs for item in run)
        return WantedPiece(dict(art.words), paths, art if art.patches or art.alone else None)

    def _clear(self, one: PlacedLetters) -> bool:
        """Return whether letters lie wholly on the wrap, and nothing that is pixels above them."""
        box = one.box()
        above = any(other > one.element and overlap(box, over) for other, over in self.anew.stand.boxes)
        return not above and self.inside.holds_box(box)


def _curves(text: PlacedLetters) -> Outline:
    """Return the curves of all letters of a text."""
    sizes = [len(one.points) for one in text.letters]
    firsts = np.cumsum([0, *sizes[:-1]])
    starts = np.concatenate([one.starts + first for one, first in zip(text.letters, firsts, strict=True)])
    curves = text.points[starts[:, None] + np.arange(4)]
    return Outline(curves, np.zeros(len(curves), dtype=np.bool_))
