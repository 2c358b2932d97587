"""From what pricing found to the cuts of a true sheet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from wrapwright.core.sheet.pack.values import Cut, Item
from wrapwright.core.sheet.stock.price.room import Group

Axis = Literal["x", "y"]


def counts(group: Group, types: int) -> tuple[int, ...]:
    """Return how many copies of each item the group holds."""
    found = [0] * types
    waiting = [group]
    while waiting:
        at = waiting.pop()
        if at.item >= 0:
            found[at.item] += 1
        waiting.extend(at.parts)
    return tuple(found)


def extent(group: Group, items: Sequence[Item]) -> tuple[int, int]:
    """Return the true width and height that the group needs."""
    if group.item >= 0:
        width, height, _, _ = items[group.item]
        return (height, width) if group.turned else (width, height)
    sizes = [extent(part, items) for part in group.parts]
    wide, high = [size[0] for size in sizes], [size[1] for size in sizes]
    return (sum(wide), max(high)) if group.along == "x" else (max(wide), sum(high))


def without(group: Group, over: list[int]) -> Group | None:
    """Return the group less the copies that `over` says (counted down there), or None if nothing is left."""
    if group.item >= 0:
        if over[group.item] > 0:
            over[group.item] -= 1
            return None
        return group
    parts = [part for part in (without(part, over) for part in group.parts) if part is not None]
    if len(parts) < 2:
        return parts[0] if parts else None
    return Group(along=group.along, parts=tuple(parts))


def sheet_cut(group: Group, items: Sequence[Item], bin_: tuple[int, int]) -> Cut:
    """Return the cuts of a sheet that holds the group in its lower left corner, waste in few large pieces."""
    return _placed(group, items, (0, 0, *bin_))


def _placed(group: Group, items: Sequence[Item], cell: tuple[int, int, int, int]) -> Cut:
    x, y, width, height = cell
    need = extent(group, items)
    if need != (width, height):
        side: Axis = "x" if (width - need[0]) * height > width * (height - need[1]) else "y"
        return _beside_waste(group, items, cell, side)
    if group.item >= 0:
        return Cut(x, y, width, height, item=group.item, turned=group.turned)
    along: Axis = "x" if group.along == "x" else "y"
    axis = 0 if along == "x" else 1
    parts = sorted(_flat(group, along), key=lambda part: extent(part, items)[axis], reverse=True)
    children: list[Cut] = []
    for part in parts:
        size = extent(part, items)[axis]
        children.append(_placed(part, items, (x, y, size, height) if axis == 0 else (x, y, width, size)))
        x, y = (x + size, y) if axis == 0 else (x, y + size)
    return _joined(cell, along, children)


def _beside_waste(group: Group, items: Sequence[Item], cell: tuple[int, int, int, int], side: Axis) -> Cut:
    x, y, width, height = cell
    wide, high = extent(group, items)
    if side == "x":
        pair = [_placed(group, items, (x, y, wide, height)), Cut(x + wide, y, width - wide, height)]
    else:
        pair = [_placed(group, items, (x, y, width, high)), Cut(x, y + high, width, height - high)]
    return _joined(cell, side, pair)


def _joined(cell: tuple[int, int, int, int], along: Axis, children: list[Cut]) -> Cut:
    flat = [leaf for child in children for leaf in (child.children if child.along == along else (child,))]
    return Cut(*cell, along=along, children=tuple(flat))


def _flat(group: Group, along: Axis) -> list[Group]:
    if group.along != along:
        return [group]
    return [leaf for part in group.parts for leaf in _flat(part, along)]


def pieces(cut: Cut) -> tuple[int, int]:
    """Return how many copies and how many pieces of waste the cuts leave."""
    if not cut.children:
        return (1, 0) if cut.item >= 0 else (0, 1)
    both = [pieces(child) for child in cut.children]
    return sum(pair[0] for pair in both), sum(pair[1] for pair in both)


def strokes(cut: Cut) -> int:
    """Return how many cuts one sheet takes: each adds one piece."""
    return sum(pieces(cut)) - 1


def emptied(cut: Cut, spare: list[int]) -> Cut:
    """Return the same cuts with copies beyond the order left blank (counted down in `spare`)."""
    if cut.item >= 0 and spare[cut.item] > 0:
        spare[cut.item] -= 1
        return Cut(cut.x, cut.y, cut.width, cut.height)
    children = tuple(emptied(child, spare) for child in cut.children)
    return cut if children == cut.children else Cut(cut.x, cut.y, cut.width, cut.height, cut.along, children)
