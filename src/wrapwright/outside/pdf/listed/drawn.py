"""What is read of the pages of a list: pieces with what is drawn of them, in which order and within what, and codes."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.names.matching import Outline

Array = NDArray[np.float64]
Matrix = tuple[float, float, float, float, float, float]


@dataclass(frozen=True, eq=False)
class Shape:
    """A painted path.

    Attributes:
        matrix: its units -> page mm.
        ops: its construction operators, one letter each ("e" for re).
        numbers: their operands.
        paint: "fill", "fill even-odd" or "line"; "limit" of a path that only limits what is drawn.
        ink: operands of the colour operator in force, fill or line as painted.
        wide: of a line, in its units.
    """

    matrix: Matrix
    ops: str
    numbers: Array
    paint: str
    ink: tuple[float, ...]
    wide: float = 0.0

    def outline(self) -> Outline:
        """Return its curves in page mm, edges that close a chain among them."""
        return _outline(self.ops, self.numbers, self.matrix)


Limits = tuple[Shape, ...]


@dataclass(frozen=True)
class CalledForm:
    """A form that is called: its number in the file, its name on the page, and its matrix onto the page, mm."""

    number: tuple[int, int]
    name: str
    matrix: Matrix


@dataclass(frozen=True, eq=False)
class ReadPicture:
    """A picture: its pixels' bytes row by row, how many pixels it is wide and high, and its box in page mm."""

    pixels: bytes
    width_px: int
    height_px: int
    box: tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)
class ReadPiece:
    """What the content says of one piece.

    Attributes:
        row, number: as it says; 0 where it says none.
        words: by element, the text it says.
        shapes: what is drawn of its own, in order.
        forms: those that it calls, in order.
        pictures: those of its own, in order.
        order: of all of these, bottom to top: "shape", "form" or "picture", and the paths that limit it.
        strange: what else stands there, and no sheet of ours has, as PDF calls it.
    """

    row: int
    number: int
    words: dict[str, str]
    shapes: list[Shape] = field(default_factory=list)
    forms: list[CalledForm] = field(default_factory=list)
    pictures: list[ReadPicture] = field(default_factory=list)
    order: list[tuple[str, Limits]] = field(default_factory=list)
    strange: list[str] = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class ReadForm:
    """What a form draws, in mm for each of its own units, and the box (likewise) beyond which nothing of it shows."""

    drawn: ReadPiece
    bounds: tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)
class ReadCode:
    """A code that is drawn as rectangles.

    Attributes:
        modules: True is dark, top row first.
        middle: page mm.
        module_mm: the side of a module on the page.
        ink: operands of the colour operator in force.
        forms: the first that are called after it.
    """

    modules: NDArray[np.bool_]
    middle: tuple[float, float]
    module_mm: float
    ink: tuple[float, ...]
    forms: list[CalledForm] = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class ReadPage:
    """One page: its size in mm, its pieces in order, the codes beside them, and what is strange outside its pieces."""

    width_mm: float
    height_mm: float
    pieces: tuple[ReadPiece, ...]
    codes: tuple[ReadCode, ...]
    strange: tuple[str, ...] = ()


_COUNTS = np.zeros(256, dtype=np.int64)
_COUNTS[[ord("m"), ord("l"), ord("c")]] = (2, 2, 6)


def _outline(letters: str, numbers: Array, matrix: Matrix) -> Outline:
    if "e" in letters:
        letters, numbers = _without_boxes(letters, numbers)
    ops = np.frombuffer(letters.encode("ascii"), dtype=np.uint8)
    counts = _COUNTS[ops]
    if len(ops) == 0 or int(counts.sum()) != len(numbers) or letters[0] != "m":
        return Outline(np.zeros((0, 4, 2)), np.zeros(0, dtype=np.bool_))
    points = numbers.reshape(-1, 2)
    a, b, c, d, e, f = matrix
    points = points @ np.array([[a, b], [c, d]]) + np.array([e, f])
    last = np.cumsum(counts) // 2 - 1  # the point on which each operator ends; of h the one before it
    begun = np.maximum.accumulate(np.where(ops == ord("m"), last, 0))
    ends = np.where(ops == ord("h"), begun, last)
    start = np.concatenate([[0], ends[:-1]])
    lines, bends = (ops == ord("l")) | (ops == ord("h")), ops == ord("c")
    drawn = lines | bends
    curves = np.empty((len(ops), 4, 2))
    curves[:, 0], curves[:, 3] = points[start], points[ends]
    curves[:, 1], curves[:, 2] = curves[:, 0], curves[:, 3]
    curves[bends, 1], curves[bends, 2] = points[last[bends] - 2], points[last[bends] - 1]
    closing = (ops == ord("h")) & (np.abs(curves[:, 0] - curves[:, 3]).max(axis=1) == 0.0)
    kept = drawn & ~closing
    return Outline(curves[kept], lines[kept])


def _without_boxes(letters: str, numbers: Array) -> tuple[str, Array]:
    """Return construction operators with every `re` as the four edges it stands for."""
    out, found, at = "", [], 0
    for one in letters:
        count = 4 if one == "e" else int(_COUNTS[ord(one)])
        here = numbers[at : at + count]
        at += count
        if one == "e" and len(here) == 4:
            x, y, wide, tall = here.tolist()
            out += "mlllh"
            found.append(np.array([x, y, x + wide, y, x + wide, y + tall, x, y + tall]))
        else:
            out += one
            found.append(here)
    return out, np.concatenate(found) if found else np.zeros(0)
