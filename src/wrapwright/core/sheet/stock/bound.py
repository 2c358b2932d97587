"""How few sheets, or how little money, could ever do: proven by the prices of the fractional answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.columns import Pool, all_of, relax, whole_cost
from wrapwright.core.sheet.stock.cuts import extent
from wrapwright.core.sheet.stock.price.room import WORK, Group, Room, loose_room, room
from wrapwright.core.sheet.stock.values import Order, fits, order

MANY = 10  # items
LEAST_WORK = 1_500_000


@dataclass(frozen=True)
class Bound:
    """A cost below which nothing can go, and what shows it.

    Attributes:
        least: in whole units of the order.
        worth: the value of a copy of each item in the fractional answer.
        rooms: the sheets in which that answer is optimal: true ones, or coarser ones in which even more would fit.
    """

    least: int
    worth: tuple[float, ...]
    rooms: tuple[Room, ...]


def guillotine_bound(items: Sequence[Item], bin_: tuple[int, int]) -> int:
    """Return a number of sheets below which no edge-to-edge cutting of the items can go.

    Turns are allowed per item. The bound of Gilmore and Gomory's linear programme over all guillotine patterns of any
    number of stages, rounded up. Sides with too many points are looked at in coarser steps, rounded so that the bound
    stays true. An item that fits no sheet is an error.
    """
    return bounded(started(order(items, [(bin_[0], bin_[1], 1, None)]))).least


def work_for(call: Order) -> int:
    """Return the steps that one pricing may take: fewer with more items, for then more pricings are needed."""
    return max(LEAST_WORK, WORK * MANY // max(MANY, len(call.items)))


def started(call: Order, work: int = 0) -> Pool:
    """Return the pool of an order with one plain pattern for each item and kind of sheet: a grid of that item."""
    work = work or work_for(call)
    rooms = tuple(room(call.items, (bin_[0], bin_[1]), work) for bin_ in call.bins)
    pool = Pool(call, rooms)
    for kind, (width, height, _, _) in enumerate(call.bins):
        for index, item in enumerate(call.items):
            if item[2] > 0 and fits(item, (width, height)):
                pool.add(kind, _grid(call, index, (width, height)))
    return pool


def _grid(call: Order, index: int, bin_: tuple[int, int]) -> Group:
    """Return as many copies in rows and columns as fit and are ordered, in the better of the two poses."""
    best: tuple[int, Group] | None = None
    for turned in (False, True)[: 1 + call.items[index][3]]:
        leaf = Group(index, turned)
        width, height = extent(leaf, call.items)
        across = min(bin_[0] // width, call.copies[index])
        up = min(bin_[1] // height, call.copies[index] // across) if across else 0
        if across and up and (best is None or across * up > best[0]):
            row = Group(along="x", parts=(leaf,) * across) if across > 1 else leaf
            best = (across * up, Group(along="y", parts=(row,) * up) if up > 1 else row)
    if best is None:
        raise ValueError(f"item {index} fits no sheet of {bin_}")
    return best[1]


def bounded(pool: Pool, work: int = 0) -> Bound:
    """Return the bound; the pool gains the patterns found on the way."""
    if not any(pool.call.copies):
        return Bound(0, (0.0,) * len(pool.call.items), pool.rooms)
    found = relax(pool, all_of(pool.call), exact=True)
    if all(space.exact for space in pool.rooms):
        return Bound(whole_cost(pool.call, found.bound), found.worth, pool.rooms)
    return _loose(pool, work or work_for(pool.call))


def _loose(pool: Pool, work: int) -> Bound:
    """Return the bound in rooms where more fits than in truth; patterns that truly fit are kept."""
    call = pool.call
    rooms = tuple(
        space if space.exact else loose_room(call.items, (bin_[0], bin_[1]), work)
        for space, bin_ in zip(pool.rooms, call.bins, strict=True)
    )
    wide = Pool(call, rooms)
    for column in pool.columns:
        wide.add(column.bin, column.group)
    found = relax(wide, all_of(call), exact=True)
    for column in wide.columns:
        width, height = extent(column.group, call.items)
        if width <= call.bins[column.bin][0] and height <= call.bins[column.bin][1]:
            pool.add(column.bin, column.group)
    return Bound(whole_cost(call, found.bound), found.worth, rooms)
