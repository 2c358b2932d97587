"""The engines of ruin and recreate as the search drives them: on cut sheets, and on rolls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from wrapwright.core.sheet.lay.filling import fits
from wrapwright.core.sheet.lay.grid import Grid
from wrapwright.core.sheet.lay.plan import Planned, priced, renamed
from wrapwright.core.sheet.pack.values import Cut, Item

if TYPE_CHECKING:
    from wrapwright.core.sheet.pack.strips import Strip
    from wrapwright.core.sheet.pack.trimmer import Packing

Plan = tuple[Planned, ...]


class Engine(Protocol):
    """A search on one stock by itself."""

    def advance(self, steps: int) -> bool:
        """Search on; return whether nothing better is possible."""

    def tidy(self, steps: int) -> None:
        """Search for so many steps for fewer and larger rests at the same cost."""

    @property
    def size(self) -> int:
        """What gets less when a better answer is found."""

    def plan(self) -> Plan | None:
        """Return the best answer; None when it cannot be printed."""

    def bound(self) -> float:
        """Return the cost that no way of laying beats; 0 where other papers could be used."""


def engines_of(grid: Grid, copies: Sequence[int], bound: int) -> list[Engine]:
    """Return a search on each stock that takes all copies; `bound` is what is known of the sheets of a single stock."""
    from wrapwright.core.sheet.pack.strips import Strip
    from wrapwright.core.sheet.pack.trimmer import Packing

    held = [at for at, count in enumerate(copies) if count]
    items: list[Item] = [grid.items(copies)[at] for at in held]
    stocks, seed = grid.request.stocks, grid.request.seed
    found: list[Engine] = []
    for index, (stock, one) in enumerate(zip(stocks, grid.bins, strict=True)):
        if min(one.width, one.height) <= 0 or not all(fits(item, (one.width, one.height)) for item in items):
            continue
        if stock.height_mm is None:
            found.append(_OnRoll(grid, index, held, Strip(items, one.width, seed=seed)))
        else:
            least = bound if len(stocks) == 1 and not priced(stocks) else 0
            found.append(_OnSheets(grid, index, held, Packing(items, (one.width, one.height), seed=seed, bound=least)))
    return found


class _OnSheets:
    def __init__(self, grid: Grid, stock: int, held: Sequence[int], packing: Packing) -> None:
        self.grid, self.stock, self.held, self.packing = grid, stock, held, packing

    def advance(self, steps: int) -> bool:
        return self.packing.advance(steps)

    def tidy(self, steps: int) -> None:
        self.packing.tidy(steps)

    @property
    def size(self) -> int:
        return self.packing.sheets

    def plan(self) -> Plan | None:
        return tuple(Planned(self.stock, renamed(cut, self.held)) for cut in self.packing.best)

    def bound(self) -> float:
        stocks = self.grid.request.stocks
        if len(stocks) > 1:
            return 0.0
        return self.packing.bound * ((stocks[0].price or 1.0) if priced(stocks) else 1.0)


class _OnRoll:
    def __init__(self, grid: Grid, stock: int, held: Sequence[int], strip: Strip) -> None:
        self.grid, self.stock, self.held, self.strip = grid, stock, held, strip

    def advance(self, steps: int) -> bool:
        return self.strip.advance(steps)

    def tidy(self, steps: int) -> None:
        """Leave the strip as it is: its waste is what lies between the pieces."""

    @property
    def size(self) -> int:
        return self.strip.length

    def plan(self) -> Plan | None:
        pages = _pages(renamed(self.strip.best, self.held), self.grid.bins[self.stock].height)
        return None if pages is None else tuple(Planned(self.stock, page) for page in pages)

    def bound(self) -> float:
        stocks = self.grid.request.stocks
        if len(stocks) > 1:
            return 0.0
        millimetres = self.grid.length_mm(self.stock, self.strip.bound)
        return millimetres / 1000.0 * (stocks[0].price or 1.0) if priced(stocks) else millimetres


def _pages(cut: Cut, longest: int) -> list[Cut] | None:
    """Return a strip as pages no longer than can be: parted between what stands above each other; None if it cannot."""
    if cut.height <= longest:
        return [cut]
    if cut.along != "y" or any(child.height > longest for child in cut.children):
        return None
    pages: list[list[Cut]] = [[]]
    length = 0
    for child in cut.children:
        if length + child.height > longest:
            pages.append([])
            length = 0
        pages[-1].append(_raised(child, length - child.y))
        length += child.height
    return [
        replace(cut, y=0, height=sum(child.height for child in page), children=tuple(page)) for page in pages if page
    ]


def _raised(cut: Cut, by: int) -> Cut:
    return replace(cut, y=cut.y + by, children=tuple(_raised(child, by) for child in cut.children))
