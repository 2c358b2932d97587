"""Pages drawn from lines and words alone: what is on them, and the pen that draws it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, joined, polygon
from wrapwright.core.sheet.marks import SetLabel, line, motion
from wrapwright.core.sheet.room import exact_box

Array = NDArray[np.float64]
Point = tuple[float, float]

BLACK = 0.0
GREY = 0.45  # for what is only to be read
PALE = 0.78  # for what is cut away
_SPACE = 0.42  # of a cap height, between words that are measured one by one
LEADING = 1.95  # of a cap height, from base line to base line


@dataclass(frozen=True, eq=False)
class Ink:
    """A filled shape (nonzero) of one grey: 0 black, 1 paper; words are drawn on a coarser grid than lines."""

    grey: float
    path: Path
    words: bool = False


@dataclass(frozen=True, eq=False)
class DrawnPage:
    """A page: exactly the paper, page mm from its lower left corner, inks bottom to top."""

    width_mm: float
    height_mm: float
    inks: tuple[Ink, ...]


class Pen:
    """Draws on a page, in true millimetres; the page's own scale correction is applied when it is finished."""

    def __init__(self, set_label: SetLabel) -> None:
        self._set = lru_cache(maxsize=None)(set_label)
        self._widths: dict[tuple[str, float], float] = {}
        self._inks: list[Ink] = []

    def shape(self, path: Path, grey: float = BLACK) -> None:
        """Fill a shape."""
        self._inks.append(Ink(grey, path))

    def line(self, start: Point, end: Point, width_mm: float, grey: float = BLACK) -> None:
        """Draw a straight line with square cut ends."""
        self.shape(line(np.array(start), np.array(end), width_mm), grey)

    def chain(self, points: Iterable[Point], width_mm: float, grey: float = BLACK) -> None:
        """Draw a line through points, one after the other."""
        corners = list(points)
        parts = [line(np.array(a), np.array(b), width_mm) for a, b in pairwise(corners) if a != b]
        self.shape(joined(parts), grey)

    def arrow(self, start: Point, end: Point, width_mm: float, head_mm: float, grey: float = BLACK) -> None:
        """Draw an arrow whose tip is `end`."""
        a, b = np.array(start), np.array(end)
        along = (b - a) / float(np.linalg.norm(b - a))
        side = np.array([-along[1], along[0]]) * head_mm * 0.36
        neck = b - along * head_mm
        self.line(start, (float(neck[0]), float(neck[1])), width_mm, grey)
        corners = (b, neck + side, neck - side)
        self.shape(polygon([(float(x), float(y)) for x, y in corners]), grey)

    def width(self, text: str, cap_mm: float) -> float:
        """Return how wide words are set, in mm."""
        if (text, cap_mm) not in self._widths:
            box = exact_box(self._set(text, cap_mm)) if text.strip() else (0.0, 0.0, 0.0, 0.0)
            self._widths[text, cap_mm] = box[2] - min(box[0], 0.0)
        return self._widths[text, cap_mm]

    def text(
        self, words: str, at: Point, cap_mm: float, *, share: float = 0.0, turn: float = 0.0, grey: float = BLACK
    ) -> None:
        """Set words: `at` is on their base line, at `share` of their width (0 start, 1/2 middle, 1 end)."""
        path = self._set(words, cap_mm)
        if path.subpaths:
            back = motion(0.0, (-share * self.width(words, cap_mm), 0.0))
            self._inks.append(Ink(grey, path.times(motion(turn, at) @ back), words=True))

    def lines_of(self, words: str, cap_mm: float, width_mm: float) -> list[str]:
        """Return a paragraph as lines no longer than `width_mm`, but for single words that are."""
        lines: list[str] = []
        length = 0.0
        for word in words.split():
            wide = self.width(word, cap_mm)
            if lines and length + _SPACE * cap_mm * 1.2 + wide <= width_mm:
                lines[-1] += f" {word}"
                length += _SPACE * cap_mm * 1.2 + wide
            else:
                lines.append(word)
                length = wide
        return lines

    def paragraph(self, words: str, at: Point, cap_mm: float, width_mm: float, *, grey: float = BLACK) -> float:
        """Set a paragraph whose first line's capitals hang from `at`; return the height it took."""
        lines = self.lines_of(words, cap_mm, width_mm)
        for number, one in enumerate(lines):
            self.text(one, (at[0], at[1] - cap_mm - number * LEADING * cap_mm), cap_mm, grey=grey)
        return len(lines) * LEADING * cap_mm

    def page(self, size: tuple[float, float], scale: tuple[float, float] = (1.0, 1.0)) -> DrawnPage:
        """Return the page of this size; true lengths on it are divided by the printer's scale along its x and y."""
        to_page = np.diag([1.0 / scale[0], 1.0 / scale[1], 1.0])
        inks = tuple(Ink(one.grey, one.path.times(to_page), one.words) for one in self._inks)
        return DrawnPage(size[0], size[1], inks)
