"""Texts of pieces set letter by letter: quick, and the same as the whole composition would have them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.elements import Text
from wrapwright.core.design.kinds.ground import Ground, across, placed, reach_turns, text_lay, visible_laps
from wrapwright.core.design.layers import Box
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import bent
from wrapwright.core.names.making.letters import Letter, PlacedLetters, SetLetters, bent_letters

if TYPE_CHECKING:
    from wrapwright.outside.fonts.face import Face
    from wrapwright.outside.fonts.shelf import FontShelf

_MORE = 1.2  # so much further may letters reach round than their distance from the middle says, on a taper too


def is_plain(text: Text) -> bool:
    """Return whether a text is set straight, in one colour, with no line round it."""
    return text.arc_mm == 0.0 and text.outline is None and text.opacity >= 1.0


class LetterSetting:
    """Sets texts on one wrap; glyphs are worked out once."""

    def __init__(self, wrap: FlatWrap, bleed_mm: float, shelf: FontShelf) -> None:
        """Take the wrap and the fonts."""
        self.ground = Ground(wrap, bleed_mm, {})
        self.turns = reach_turns(self.ground, (-bleed_mm, wrap.height_mm + bleed_mm))
        self.shelf = shelf
        self.letter = lru_cache(maxsize=4096)(_letter)
        self.faces: dict[int, tuple[Face, ...]] = {}

    def placed(self, index: int, text: Text, fields: Mapping[str, str]) -> tuple[PlacedLetters, ...]:
        """Return a text's letters, copy by copy; nothing where they have to be set in another way.

        Raises:
            WrapwrightError: as `set_text`.
        """
        from wrapwright.outside.fonts.setting import faces_of, set_glyphs

        if index not in self.faces:
            self.faces[index] = faces_of(text, self.shelf)
        glyphs = set_glyphs(text, faces=self.faces[index], fields=fields)
        letters, kept = [], []
        for number, (face, glyph) in enumerate(glyphs.glyphs):
            letter = self.letter(face, glyph)
            if letter is None:
                return ()
            if len(letter.points):
                letters.append(letter)
                kept.append(number)
        if not letters:
            return ()
        origins, scales = np.array(glyphs.origins)[kept], np.array(glyphs.scales)[kept]
        whole = SetLetters(tuple(letters), origins, scales)
        left, bottom, right, top = whole.box()
        lay = text_lay(self.ground, text, text.lay, across(right - left, top - bottom, text.turn_deg))
        colour = rgb_of(text.colour, where=text.name)
        found = []
        for copy, at in enumerate(text.at_deg):
            placement = placed(self.ground, text, at, lay, text.turn_deg)
            points = bent_letters(whole, placement) if self._shows_once((left, bottom, right, top), placement) else None
            if points is None:
                return ()
            found.append(PlacedLetters(index, copy, whole.letters, *points, colour))
        return tuple(found)

    def _shows_once(self, box: Box, placement: Placement) -> bool:
        """Return whether what lies in a local box shows nowhere else: not in the overlap, nor beyond the other end."""
        wrap = self.ground.wrap
        if wrap.plate is not None:
            return True
        first, last = self.turns
        far = math.hypot(max(abs(box[0]), abs(box[2])), max(abs(box[1]), abs(box[3])))
        half = _MORE * 360.0 * far / min(wrap.turn_length(0.0), wrap.turn_length(wrap.height_mm))
        if placement.turn + half - 360.0 < first and placement.turn - half + 360.0 > last:
            return True
        return visible_laps(self.ground, bent(rectangle(*box), placement)) == (0,)


def _letter(face: Face, glyph: int) -> Letter | None:
    return Letter.of(face.glyph_path(glyph))
