"""A plan: which stock is cut how; what it costs, how many kinds of sheet it has, and what stays whole of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.sheet.lay.grid import Grid, leaves
from wrapwright.core.sheet.lay.values import Box, Stock
from wrapwright.core.sheet.pack.values import Cut

# A rest smaller than this either way is not worth keeping; common practice, no source.
LEAST_REST_MM = 50.0


@dataclass(frozen=True)
class Planned:
    """One sheet: the stock and its cut tree, items being the grid's classes."""

    stock: int
    cut: Cut


@dataclass(frozen=True)
class Worth:
    """How good a plan is; the less the better, in this order.

    Attributes:
        cost: price when all are known, else sheets (of a roll: millimetres).
        sheets: how many there are.
        kinds: how many differ in their cuts.
        rest: square mm of the largest usable rest, negative.
    """

    cost: float
    sheets: int
    kinds: int
    rest: float

    @property
    def key(self) -> tuple[float, float, int, float]:
        """What plans are compared by."""
        return (round(self.cost, 6), self.sheets, self.kinds, round(self.rest, 3))


def renamed(cut: Cut, held: Sequence[int]) -> Cut:
    """Return the same cuts with items by their place among all classes."""
    if cut.item >= 0:
        return Cut(cut.x, cut.y, cut.width, cut.height, item=held[cut.item], turned=cut.turned)
    children = tuple(renamed(child, held) for child in cut.children)
    return Cut(cut.x, cut.y, cut.width, cut.height, cut.along, children)


def priced(stocks: Sequence[Stock]) -> bool:
    """Return whether the price of every stock is known, so that the least cost can be asked for."""
    return bool(stocks) and all(stock.price is not None for stock in stocks)


def worth(plan: Sequence[Planned], grid: Grid) -> Worth:
    """Return how good a plan is."""
    stocks = grid.request.stocks
    cost = 0.0
    for one in plan:
        stock = stocks[one.stock]
        length = used_mm(one, grid) / 1000.0 if stock.height_mm is None else 1.0
        if priced(stocks):
            cost += (stock.price or 0.0) * length
        else:
            cost += length * 1000.0 if stock.height_mm is None else 1.0
    kinds = len({(one.stock, one.cut) for one in plan})
    rests = [rest_of(one, grid) for one in plan]
    largest = max((area(rest) for rest in rests if rest), default=0.0)
    return Worth(cost, len(plan), kinds, -largest)


def used_mm(one: Planned, grid: Grid) -> float:
    """Return the height of the page: the stock's, or of a roll as much as is needed, in whole mm."""
    stock = grid.request.stocks[one.stock]
    if stock.height_mm is not None:
        return stock.height_mm
    return grid.length_mm(one.stock, max((leaf.y + leaf.height for leaf in leaves(one.cut)), default=0))


def rest_of(one: Planned, grid: Grid) -> Box | None:
    """Return the largest rectangle of a sheet's outermost cuts that stays whole, with the margin beyond it, in mm.

    None when it is no longer or wider than what is worth keeping, and on a roll, whose rest stays on it.
    """
    stock = grid.request.stocks[one.stock]
    if stock.height_mm is None:
        return None
    found: list[Box] = []
    _edges(one.cut, (0.0, 0.0, stock.width_mm, stock.height_mm), one, grid, found)
    kept = [box for box in found if min(box[2] - box[0], box[3] - box[1]) >= LEAST_REST_MM]
    return max(kept, key=area, default=None)


def area(box: Box) -> float:
    """Return the area of a box."""
    return (box[2] - box[0]) * (box[3] - box[1])


def _edges(cut: Cut, box: Box, one: Planned, grid: Grid, found: list[Box]) -> None:
    """Collect the waste at the outer edges of a cut that holds the paper's box, margins in."""
    if cut.item < 0 and not cut.children:
        found.append(box)
        return
    if not cut.children:
        return
    axis = 0 if cut.along == "x" else 1
    step = grid.request.step_mm[axis]
    origin = (grid.bins[one.stock].x, grid.bins[one.stock].y)[axis]
    for child, last in ((cut.children[0], False), (cut.children[-1], True)):
        sides = list(box)
        if last:
            sides[axis] = (origin + (child.x, child.y)[axis]) * step
        else:
            sides[axis + 2] = (origin + (child.x + child.width, child.y + child.height)[axis]) * step
        _edges(child, (sides[0], sides[1], sides[2], sides[3]), one, grid, found)
