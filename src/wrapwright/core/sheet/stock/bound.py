"""How few sheets, or how little money, could ever do: proven by the prices of the fractional answer."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.columns import Pool, all_of, relax, whole_cost
from wrapwright.core.sheet.stock.cuts import extent
from wrapwright.core.sheet.stock.room import Group, Room, loose_room, room
from wrapwright.core.sheet.stock.values import Order, fits, order

POINTS = 260  # a side for patterns and for bounds: one pricing takes about 10 ms


def guillotine_bound(items: Sequence[Item], bin_: tuple[int, int]) -> int:
    """Return a number of sheets below which no edge-to-edge cutting of the items can go.

    Turns are allowed per item. The bound of Gilmore and Gomory's linear programme over all guillotine patterns of any
    number of stages, rounded up. Sides with too many points are looked at in coarser steps, rounded so that the bound
    stays true. An item that fits no sheet is an error.
    """
    call = order(items, [(bin_[0], bin_[1], 1, None)])
    return least_cost(started(call))


def started(call: Order, limit: int = POINTS) -> Pool:
    """Return the pool of an order with one plain pattern for each item and kind of sheet: a grid of that item."""
    rooms = tuple(room(call.items, (bin_[0], bin_[1]), limit) for bin_ in call.bins)
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


def least_cost(pool: Pool, limit: int = POINTS) -> int:
    """Return the bound in whole units of the order; the pool gains the patterns found on the way."""
    if not any(pool.call.copies):
        return 0
    found = relax(pool, all_of(pool.call), exact=True)
    bound = found.bound
    if any(not space.exact for space in pool.rooms):
        bound = _loose(pool, limit)
    return whole_cost(pool.call, bound) if bound is not None else 0


def _loose(pool: Pool, limit: int) -> Fraction | None:
    call = pool.call
    rooms: list[Room] = [
        space if space.exact else loose_room(call.items, (bin_[0], bin_[1]), limit)
        for space, bin_ in zip(pool.rooms, call.bins, strict=True)
    ]
    wide = Pool(call, tuple(rooms))
    for column in pool.columns:
        wide.add(column.bin, column.group)
    found = relax(wide, all_of(call))
    for column in wide.columns:
        width, height = extent(column.group, call.items)
        if width <= call.bins[column.bin][0] and height <= call.bins[column.bin][1]:
            pool.add(column.bin, column.group)
    return found.bound
