"""Laying: the parts of a request on the fewest (or cheapest) sheets, step by step, best answer so far at any time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from wrapwright.core.sheet.lay.filling import filled
from wrapwright.core.sheet.lay.grid import Grid
from wrapwright.core.sheet.lay.naming import Names
from wrapwright.core.sheet.lay.plan import Planned, rest_of, used_mm, worth
from wrapwright.core.sheet.lay.values import LaidSheet, Layout, LayRequest

Nested = Callable[..., Any]


class Laying:
    """A search for a layout; the same request and steps give the same answer."""

    def __init__(self, request: LayRequest, nested: Nested | None = None) -> None:
        self.request = request
        self.nested = nested
        self.grid = Grid(request)
        self.plan: tuple[Planned, ...] = ()
        self.bound = 0
        self.done = False

    def advance(self, steps: int) -> bool:
        """Search on for so many steps; return whether nothing better can be found (or is looked for)."""
        del steps
        if not self.done:
            self.plan = _plain(self.grid)
            self.done = True
        return True

    @property
    def layout(self) -> Layout:
        """The best answer so far."""
        if not self.plan:
            self.advance(0)
        names = Names(self.grid)
        sheets = tuple(_laid(one, self.grid, names) for one in self.plan)
        return Layout(self.request, sheets, bound=self.bound, over=self.grid.over)


def start(request: LayRequest, nested: Nested | None = None) -> Laying:
    """Return a search that has not begun yet.

    Args:
        request: what is laid on which papers.
        nested: lays outlines freely, where such a thing is installed; None: what is built in.
    """
    return Laying(request, nested)


def _laid(one: Planned, grid: Grid, names: Names) -> LaidSheet:
    stock = grid.request.stocks[one.stock]
    pieces = names.sheet(one)
    cell = grid.cell(one.cut, one.stock, iter(pieces))
    return LaidSheet(one.stock, stock.width_mm, used_mm(one, grid), tuple(pieces), cell, rest_of(one, grid))


def _plain(grid: Grid) -> tuple[Planned, ...]:
    """Return the best plan of one stock for everything, filled one item after the other."""
    best: tuple[Planned, ...] = ()
    for stock, one in enumerate(grid.bins):
        items = grid.items(grid.copies())
        if not items or not all(_fits(item[:2], (one.width, one.height), turn=item[3]) for item in items):
            continue
        order = sorted(range(len(items)), key=lambda at: (-max(items[at][:2]), -min(items[at][:2]), at))
        sheets = filled(items, order, (one.width, one.height))
        plan = tuple(Planned(stock, sheet.cut()) for sheet in sheets)
        if not best or worth(plan, grid).key < worth(best, grid).key:
            best = plan
    return best


def _fits(size: Sequence[int], room: tuple[int, int], *, turn: bool) -> bool:
    upright = size[0] <= room[0] and size[1] <= room[1]
    return upright or (turn and size[1] <= room[0] and size[0] <= room[1])
