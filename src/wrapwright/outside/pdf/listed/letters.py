"""Letters as PDF operators: the words of each glyph's path are made once, a text's numbers are put in all together."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.names.making.letters import Letter, PlacedLetters

Array = NDArray[np.float64]
Kept = NDArray[np.bool_]


@dataclass
class Letters:
    """Knows how glyphs are written, by glyph and by which of its straight edges are straight."""

    known: dict[tuple[int, bytes], tuple[str, Kept]] = field(default_factory=dict)
    kept: list[Letter] = field(default_factory=list)

    def ops(self, text: PlacedLetters, matrix: Array) -> str:
        """Return the operators that construct a text's path; `matrix` (3x3) takes flat mm to whole steps of a grid."""
        at, words, masks = 0, [], []
        for one in text.letters:
            count = len(one.lines)
            form, mask = self._form(one, text.straight[at : at + count].tobytes())
            words.append(form)
            masks.append(mask)
            at += count
        points = text.points[np.concatenate(masks)]
        steps = np.rint(points @ matrix[:2, :2].T + matrix[:2, 2]).astype(np.int64)
        return "\n".join(words) % tuple(steps.ravel().tolist())

    def _form(self, letter: Letter, straight: bytes) -> tuple[str, Kept]:
        key = (id(letter), straight)
        if key not in self.known:
            self.kept.append(letter)  # so that no other object takes over its id
            self.known[key] = _formed(letter, np.frombuffer(straight, dtype=np.bool_))
        return self.known[key]


def _formed(letter: Letter, straight: Kept) -> tuple[str, Kept]:
    """Return a glyph's path with %d for each number, and which of its control points they stand for."""
    lines = set(letter.lines[straight].tolist())
    mask = np.ones(len(letter.points), dtype=np.bool_)
    words: list[str] = []
    curve = 0
    for count in letter.chains:
        words.append("%d %d m")
        for number in range(curve, curve + count):
            first = int(letter.starts[number])
            if number not in lines:
                words.append("%d %d %d %d %d %d c")
                continue
            mask[first + 1 : first + 3] = False
            if number < curve + count - 1:
                words.append("%d %d l")
            else:  # the last line home is drawn by closing
                mask[first + 3] = False
        words.append("h")
        curve += count
    return "\n".join(words), mask
