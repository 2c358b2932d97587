"""Cut trees as values: made from the kernels' tables, walked, and replayed cut by cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal

from wrapwright.core.sheet.pack import kernels as row
from wrapwright.core.sheet.pack.values import Cut, Item

AXES: tuple[Literal["x", "y"], Literal["x", "y"]] = ("x", "y")


def cuts_of(table: row.Table, owners: Sequence[int], wides: Sequence[int]) -> tuple[Cut, ...]:
    """Return one tree a sheet that holds something; the larger children come first, what is free last.

    Args:
        table: the kernels' table.
        owners: the item each piece is a copy of.
        wides: the width of each piece that is not turned.
    """
    top = int(table[row.COUNTS, row.TOP])
    kinds = table[row.KIND, :top]
    roots = [node for node in range(top) if kinds[node] in (row.ITEM, row.DIVIDED) and table[row.PARENT, node] < 0]
    return tuple(_cut(table, root, owners, wides) for root in roots)


def _children(table: row.Table, node: int) -> list[int]:
    """Return a divided node's children in the order in which they lie."""
    found = []
    child = int(table[row.CHILD, node])
    while child >= 0:
        found.append(child)
        child = int(table[row.NEXT, child])
    side = row.HIGH if table[row.ALONG, node] else row.WIDE
    return sorted(found, key=lambda one: (table[row.KIND, one] == row.FREE, -table[side, one], one))


def _cut(table: row.Table, root: int, owners: Sequence[int], wides: Sequence[int]) -> Cut:
    """Return a node's tree; in loops, so that no depth is too deep."""
    places = {root: (0, 0)}
    below: dict[int, list[int]] = {}
    order = [root]
    for node in order:  # grows while it is walked
        if table[row.KIND, node] != row.DIVIDED:
            continue
        below[node] = _children(table, node)
        x, y = places[node]
        for child in below[node]:
            places[child] = (x, y)
            if table[row.ALONG, node]:
                y += int(table[row.HIGH, child])
            else:
                x += int(table[row.WIDE, child])
        order += below[node]
    made: dict[int, Cut] = {}
    for node in reversed(order):
        x, y = places[node]
        wide, high = int(table[row.WIDE, node]), int(table[row.HIGH, node])
        if node in below:
            children = tuple(made.pop(child) for child in below[node])
            made[node] = Cut(x, y, wide, high, along=AXES[table[row.ALONG, node]], children=children)
        elif table[row.KIND, node] == row.ITEM:
            piece = int(table[row.HELD, node])
            made[node] = Cut(x, y, wide, high, item=owners[piece], turned=wide != wides[piece])
        else:
            made[node] = Cut(x, y, wide, high)
    return made[root]


def walked(cut: Cut) -> Iterator[Cut]:
    """Yield a tree's rectangles, each before what it is divided into."""
    waiting = [cut]
    while waiting:
        one = waiting.pop()
        yield one
        waiting += reversed(one.children)


def pieces(cut: Cut) -> list[Cut]:
    """Return the rectangles that hold an item."""
    return [one for one in walked(cut) if one.item >= 0]


def wastes(cut: Cut) -> list[Cut]:
    """Return the rectangles that hold nothing and are not divided."""
    return [one for one in walked(cut) if one.item < 0 and not one.children]


def faults(cuts: Sequence[Cut], items: Sequence[Item], sheet: tuple[int, int]) -> list[str]:
    """Return what is wrong with sheets cut by their trees: empty when they give exactly the items.

    The sheet is divided step by step as the trees say; each cut must go from edge to edge, so the children of a
    rectangle lie side by side, span it and fill it; each piece must have its item's size.
    """
    found = []
    for cut in cuts:
        if (cut.x, cut.y, cut.width, cut.height) != (0, 0, *sheet):
            found.append(f"a tree of {cut.width} x {cut.height} at {cut.x}, {cut.y} is not the whole sheet")
        found += [words for one in walked(cut) for words in _faults_of(one, items)]
    laid = Counter(one.item for cut in cuts for one in pieces(cut))
    for index, item in enumerate(items):
        if laid[index] != item[2]:
            found.append(f"item {index}: {laid[index]} copies instead of {item[2]}")
    return found


def _faults_of(cut: Cut, items: Sequence[Item]) -> list[str]:
    if cut.width <= 0 or cut.height <= 0:
        return [f"a rectangle of {cut.width} x {cut.height}"]
    if cut.children:
        return _faults_of_division(cut)
    if cut.along:
        return ["a rectangle that is divided into nothing"]
    if cut.item < 0:
        return []
    if cut.item >= len(items):
        return [f"an item {cut.item} that was not asked for"]
    width, height, _, turns = items[cut.item]
    if cut.turned and not turns:
        return [f"item {cut.item} turned, which it may not be"]
    if (cut.width, cut.height) != ((height, width) if cut.turned else (width, height)):
        return [f"item {cut.item} cut to {cut.width} x {cut.height}"]
    return []


def _faults_of_division(cut: Cut) -> list[str]:
    if cut.item >= 0 or cut.along not in AXES or len(cut.children) == 1:
        return ["a rectangle that is divided wrongly"]
    x, y = cut.x, cut.y
    for child in cut.children:
        across = (child.y, child.height) == (cut.y, cut.height) if cut.along == "x" else None
        across = across if across is not None else (child.x, child.width) == (cut.x, cut.width)
        if (child.x, child.y) != (x, y) or not across:
            return [f"a cut at {child.x}, {child.y} that does not go from edge to edge"]
        x, y = (x + child.width, y) if cut.along == "x" else (x, y + child.height)
    ends = (x, cut.y + cut.height) if cut.along == "x" else (cut.x + cut.width, y)
    if ends != (cut.x + cut.width, cut.y + cut.height):
        return ["pieces that do not fill the rectangle they are cut from"]
    return []
