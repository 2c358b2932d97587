"""A request in whole numbers: the papers as bins and the parts as items, and cut trees back in millimetres.

Parts whose clear rooms are alike in size and may turn alike are one item: which of them lies in which place is
decided at the end, so that an order stays together.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from wrapwright.core.sheet.lay.values import Box, Cell, Laid, LayRequest, Part, Stock
from wrapwright.core.sheet.pack.values import Cut, Item

LONGEST_MM = 3000.0  # of one page of a roll; longer layings are parted into several pages
_HAIR = 1e-6  # of a step: what rounding may have added


@dataclass(frozen=True)
class Bin:
    """The area of a stock that cuts divide, in steps from the paper's lower left corner."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True)
class Class:
    """Parts that need the same rectangle.

    Attributes:
        width, height: in steps, at turn 0.
        upright, turned: whether it may lie as it is, and a quarter round.
        parts: indices of its parts.
    """

    width: int
    height: int
    upright: bool
    turned: bool
    parts: tuple[int, ...]


def turned_box(box: Box, turn_deg: int) -> Box:
    """Return what lies beyond the four sides (left, bottom, right, top) after quarter turns anticlockwise."""
    left, bottom, right, top = box
    return {
        0: box,
        90: (top, left, bottom, right),
        180: (right, top, left, bottom),
        270: (bottom, right, top, left),
    }[turn_deg]


def room_of(part: Part, turn_deg: int = 0) -> tuple[float, float]:
    """Return width and height in mm of a part with its clear room, turned so."""
    left, bottom, right, top = part.clear_mm
    size = (part.shape.width_mm + left + right, part.shape.height_mm + bottom + top)
    return size if turn_deg % 180 == 0 else size[::-1]


def bare_mm(request: LayRequest, choose: str = "least") -> float:
    """Return how far clear rooms may reach beyond the printable area: what of them never holds ink.

    The least of all parts' sides, or the most (`choose` = "most"); never over half the gutter, for a label strip
    keeps its words that far from its edge.
    """
    if not request.parts:
        return 0.0
    over = [clear - bleed for part in request.parts for clear, bleed in zip(part.clear_mm, part.bleed_mm, strict=True)]
    return max(0.0, min(min(over) if choose == "least" else max(over), request.gutter_mm / 2.0))


@dataclass(frozen=True)
class Grid:
    """The request on its grid."""

    request: LayRequest

    @cached_property
    def bare_mm(self) -> float:
        """How far clear rooms may reach beyond the printable area."""
        return bare_mm(self.request)

    def bin(self, stock: Stock) -> Bin:
        """Return the area of a stock that cuts divide; of a roll, one page as long as can be."""
        left, bottom, right, top = stock.margins_mm
        bare, (across, along) = self.bare_mm, self.request.step_mm
        height = LONGEST_MM if stock.height_mm is None else stock.height_mm
        x, y = (_up((margin - min(bare, margin)) / step) for margin, step in ((left, across), (bottom, along)))
        end_x = _down((stock.width_mm - right + min(bare, right)) / across)
        end_y = _down((height - top + min(bare, top)) / along)
        return Bin(x, y, max(0, end_x - x), max(0, end_y - y))

    @cached_property
    def classes(self) -> tuple[Class, ...]:
        """The parts that fit some stock, alike ones together, in the order of their first parts."""
        found: dict[tuple[int, int, bool, bool], list[int]] = {}
        for index, part in enumerate(self.request.parts):
            need = self._need(part)
            if need is not None:
                found.setdefault(need, []).append(index)
        return tuple(Class(*need, tuple(parts)) for need, parts in found.items())

    @cached_property
    def over(self) -> tuple[int, ...]:
        """Indices of the parts that fit no stock."""
        held = {part for one in self.classes for part in one.parts}
        return tuple(index for index in range(len(self.request.parts)) if index not in held)

    @cached_property
    def bins(self) -> tuple[Bin, ...]:
        """One for each stock."""
        return tuple(self.bin(stock) for stock in self.request.stocks)

    def _need(self, part: Part) -> tuple[int, int, bool, bool] | None:
        """Return width, height, whether it may lie upright and turned, in steps; None when it fits no stock."""
        across, along = self.request.step_mm
        upright, turned = (any(turn % 180 == rest for turn in part.turns) for rest in (0, 90))
        wide, high = room_of(part)
        lying = (_up(wide / across), _up(high / along))
        standing = (_up(high / across), _up(wide / along))
        fits = upright and any(_within(lying, one) for one in self.bins)
        fits_turned = turned and any(_within(standing, one) for one in self.bins)
        # Where the printer's scale differs across and along, a part that may turn is as large as it is either way.
        both = (max(lying[0], standing[1]), max(lying[1], standing[0]))
        if fits and fits_turned and any(_within(both, one) or _within(both[::-1], one) for one in self.bins):
            return (*both, True, True)
        if fits:
            return (*lying, True, False)
        return (standing[1], standing[0], False, True) if fits_turned else None

    def class_of(self, part: int) -> int:
        """Return the index of a part's class."""
        return next(index for index, one in enumerate(self.classes) if part in one.parts)

    def items(self, copies: Sequence[int]) -> tuple[Item, ...]:
        """Return the classes as items of which so many copies are laid; one that only lies turned is turned already."""
        return tuple(
            (one.width, one.height, count, one.turned) if one.upright else (one.height, one.width, count, False)
            for one, count in zip(self.classes, copies, strict=True)
        )

    def copies(self) -> list[int]:
        """Return how many copies there are of each class."""
        return [sum(self.request.parts[part].copies for part in one.parts) for one in self.classes]

    def lies_turned(self, item: int, cut: Cut) -> bool:
        """Return whether the copy of a class in a cut lies a quarter round."""
        return cut.turned if self.classes[item].upright else True

    def cell(self, cut: Cut, stock: int, held: Iterator[Laid]) -> Cell:
        """Return a cut tree in mm; `held` gives what lies in its leaves with an item, in the tree's order."""
        one, (across, along) = self.bins[stock], self.request.step_mm
        corner = ((one.x + cut.x) * across, (one.y + cut.y) * along)
        size = (cut.width * across, cut.height * along)
        if cut.item >= 0:
            laid = next(held)
            return Cell(*corner, *size, part=laid.part, copy=laid.copy, turn_deg=laid.turn_deg)
        return Cell(*corner, *size, cut.along, tuple(self.cell(child, stock, held) for child in cut.children))

    def length_mm(self, stock: int, steps: int) -> float:
        """Return the length of a roll's page, in whole mm, on which so many steps are used."""
        one, margin = self.bins[stock], self.request.stocks[stock].margins_mm[3]
        end = (one.y + steps) * self.request.step_mm[1] + max(0.0, margin - self.bare_mm)
        return float(max(1, math.ceil(end - _HAIR)))

    def corner_mm(self, cut: Cut, stock: int, part: Part, turn_deg: int) -> tuple[float, float]:
        """Return the lower left corner of the trim's box of a part that lies in a leaf."""
        one, (across, along) = self.bins[stock], self.request.step_mm
        left, bottom, _, _ = turned_box(part.clear_mm, turn_deg)
        return (one.x + cut.x) * across + left, (one.y + cut.y) * along + bottom


def _within(size: tuple[int, int], one: Bin) -> bool:
    return size[0] <= one.width and size[1] <= one.height


def _up(value: float) -> int:
    return math.ceil(value - _HAIR)


def _down(value: float) -> int:
    return math.floor(value + _HAIR)


def leaves(cut: Cut) -> Iterator[Cut]:
    """Yield the parts of a cut tree that hold an item, in the tree's order."""
    if cut.item >= 0:
        yield cut
    for child in cut.children:
        yield from leaves(child)


def turn_of(part: Part, *, turned: bool) -> int:
    """Return the part's first turn that lies so."""
    return next(turn for turn in part.turns if (turn % 180 == 90) == turned)
