"""Laying: the parts of a request on the fewest (or cheapest) sheets, step by step, best answer so far at any time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Protocol

from wrapwright.core.sheet.lay.filling import Spot, best_spot
from wrapwright.core.sheet.lay.freely import Freely
from wrapwright.core.sheet.lay.grid import Grid, leaves
from wrapwright.core.sheet.lay.naming import Names
from wrapwright.core.sheet.lay.pins import Pinned, pinned_sheets
from wrapwright.core.sheet.lay.plan import Planned, priced, rest_of, used_mm
from wrapwright.core.sheet.lay.search import Found, searched
from wrapwright.core.sheet.lay.values import Laid, LaidSheet, Layout, LayRequest
from wrapwright.core.sheet.lay.words import layout_words
from wrapwright.core.sheet.nest.values import Nested

_TRIES = 24  # orders in which sheets with pins are filled up


class Laying(Protocol):
    """A search for a layout; the same request and steps give the same answer."""

    def advance(self, steps: int) -> bool:
        """Search on for about so many steps; return whether nothing better can be found."""

    @property
    def layout(self) -> Layout:
        """The best answer so far."""


class ForTrimmer:
    """A search for a layout that a trimmer can cut."""

    def __init__(self, request: LayRequest) -> None:
        """Make ready; see `start`.

        Raises:
            WrapwrightError: unusable, when what is pinned cannot stay.
        """
        self.request = request
        self.grid = Grid(request)
        self.begun = pinned_sheets(self.grid, len(self.grid.classes))
        self.filled, self.left = _filled_up(self.grid, self.begun)
        self._search = searched(Grid(self._beyond_pins()), self.left)
        self._found = Found((), 0.0, proven=False)
        self._done = False
        self.advance(1)

    def _beyond_pins(self) -> LayRequest:
        """Return the request with the sheets that are left of each stock beside those with pins."""
        used = [
            one.stock
            for one, spot in zip(self.begun, self.filled, strict=True)
            if one.laid or (spot is not None and any(leaves(spot.cut())))
        ]
        stocks = tuple(
            stock if stock.at_hand is None else replace(stock, at_hand=max(0, stock.at_hand - used.count(index)))
            for index, stock in enumerate(self.request.stocks)
        )
        return replace(self.request, stocks=stocks)

    def advance(self, steps: int) -> bool:
        """Search on for about so many steps; return whether nothing better can be found."""
        while steps > 0 and not self._done:
            found = next(self._search, None)
            if found is None:
                self._done = True
            else:
                self._found = found[0]
                steps -= found[1]
        return self._done

    @property
    def layout(self) -> Layout:
        """The best answer so far."""
        names = Names(self.grid, [laid for one in self.begun for laid in one.laid])
        sheets = [_pinned(one, spot, self.grid, names) for one, spot in zip(self.begun, self.filled, strict=True)]
        plan = together(self._found.plan)
        sheets += [_laid(one, self.grid, names) for one in plan]
        sheets = [sheet for sheet in sheets if sheet.pieces]
        # Round what is pinned nothing is proven.
        proven = self._found.proven and not self.begun
        bound = 0.0 if self.begun else self._found.bound
        return Layout(
            self.request,
            tuple(sheets),
            bound=_whole(sheets_of(self.request, bound)),
            proven=proven,
            words=layout_words(self.request, sheets, bound, proven=proven),
            over=self.grid.over,
            notes=tuple(self._notes()),
            least_cost=bound if priced(self.request.stocks) else None,
        )

    def _notes(self) -> Iterator[str]:
        for number, one in enumerate(self.begun, 1):
            if one.spot is None and one.laid:
                yield (
                    f"What is pinned on sheet {number} cannot be parted by cuts from edge to edge: this sheet is for "
                    "scissors, and nothing else is laid on it."
                )
        if self._found.missing:
            yield f"The sheets at hand are too few: {self._found.missing} pieces are not laid."


def start(request: LayRequest, nested: Nested | None = None) -> Laying:
    """Return a search that has its first answer.

    Args:
        request: what is laid on which papers.
        nested: nests outlines, where such a thing is installed; None: what is built in.

    Raises:
        WrapwrightError: unusable, when two pinned copies overlap or one lies beyond the paper.
    """
    return Freely(request, nested) if request.way == "free" else ForTrimmer(request)


def together(plan: Sequence[Planned]) -> list[Planned]:
    """Return the sheets that are cut alike one after the other, the kinds in the order of their numbers.

    The fullest sheets come first, so that what is left over is on the last ones.
    """
    kinds: dict[Planned, int] = {}
    for one in plan:
        kinds[one] = kinds.get(one, 0) + 1
    area = {one: sum(leaf.width * leaf.height for leaf in leaves(one.cut)) for one in kinds}
    order = sorted(kinds, key=lambda one: (one.stock, -kinds[one], -area[one]))
    return [one for one in order for _ in range(kinds[one])]


def sheets_of(request: LayRequest, bound: float) -> float:
    """Return how few sheets could do when nothing costs less than `bound`; the bound itself where that is no price."""
    if not priced(request.stocks):
        return bound
    dearest = max(stock.price or 0.0 for stock in request.stocks)
    rolls = any(stock.height_mm is None for stock in request.stocks)
    return 0.0 if rolls or not dearest else bound / dearest


def _whole(bound: float) -> int:
    return int(bound + 1.0 - 1e-6)


def _laid(one: Planned, grid: Grid, names: Names, pinned: Sequence[Laid] = ()) -> LaidSheet:
    stock = grid.request.stocks[one.stock]
    pieces = names.sheet(one, pinned)
    cell = grid.cell(one.cut, one.stock, iter(pieces))
    return LaidSheet(one.stock, stock.width_mm, used_mm(one, grid), tuple(pieces), cell, rest_of(one, grid))


def _pinned(one: Pinned, spot: Spot | None, grid: Grid, names: Names) -> LaidSheet:
    if spot is not None:
        return _laid(Planned(one.stock, spot.cut()), grid, names, one.laid)
    stock = grid.request.stocks[one.stock]
    return LaidSheet(one.stock, stock.width_mm, stock.height_mm or 0.0, one.laid)


def _filled_up(grid: Grid, begun: Sequence[Pinned]) -> tuple[list[Spot | None], list[int]]:
    """Return the sheets with pins filled up as far as they hold more, and how many copies of each class are left."""
    copies = grid.copies()
    for one in begun:
        for laid in one.laid:
            copies[grid.class_of(laid.part)] -= 1
    if not begun:
        return [], copies
    items = grid.items(copies)
    sizes = sorted(range(len(items)), key=lambda at: (-items[at][0] * items[at][1], at))
    best: tuple[float, list[Spot | None], list[int]] | None = None
    for shift in range(max(1, min(_TRIES, len(sizes)))):
        spots = [one.copied() if one is not None else None for one in (each.spot for each in begun)]
        left, covered = list(copies), 0.0
        for index in [*sizes[shift:], *sizes[:shift]]:
            while left[index] and (found := best_spot(_free(spots), items[index])) is not None:
                spot, size, turned = found
                spot.hold(index, size, turned=turned)
                left[index] -= 1
                covered += float(size[0]) * size[1]
        if best is None or covered > best[0]:
            best = (covered, spots, left)
    return (best[1], best[2]) if best else ([], copies)


def _free(spots: Sequence[Spot | None]) -> list[Spot]:
    return [one for spot in spots if spot is not None for one in spot.free()]
