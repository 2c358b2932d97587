"""Ruin and recreate on cut trees: the inner loops, compiled where a compiler is installed.

A sheet is a tree. A node is free, an item, or divided: its children lie side by side along one axis, span the other
one wholly, and at most one of them is free. To recreate, an item goes into the free node, the way round and by the
first cut that leave the most worth in what stays free; worth grows faster than area, so large rests are liked.
To ruin, a node with all that lies below it becomes free again, joins a free sibling, and where nothing else is left
its parent is free. Only +, -, x, / and square roots are used, so that every machine gets the same trees.

All sheets are one table of whole numbers, so that copying is one move of memory and nothing is counted or allocated
on the way. Its rows are named below; each is as long as the table's room for nodes. A node takes one place in the
rows KIND to LISTED; FREE_NODE to WORTH list the free nodes, SPARE the places not used below the top, LEFT the items
on no sheet; COUNTS holds how many of each there are and the sheet's sides.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.pack.compiled import compiled

Table = NDArray[np.int32]
Luck = NDArray[np.int64]

FREE, ITEM, DIVIDED, GONE = 0, 1, 2, 3
KIND, WIDE, HIGH, ALONG, PARENT, CHILD, NEXT, BEFORE, HELD, LISTED = range(10)
FREE_NODE, FREE_WIDE, FREE_HIGH, WORTH, SPARE, LEFT, COUNTS = range(10, 17)
ROWS = 17
TOP, FREES, SPARES, LEFTS, SHEET_WIDE, SHEET_HIGH = range(6)  # in COUNTS
ITEM_WIDE, ITEM_HIGH, TURNS = 0, 1, 2  # rows of goods, one column an item
STACK, ORDER, KEYS, GAINS = 0, 1, 2, 3  # rows of the desk, room to work on, twice as long as those of the trees
STEP, GO_ON = 2, 3  # in luck, behind the generator's two numbers; go on when everything lies (1) or stop (0)

WHOLE_WORTH = np.float32(2**28)
NO_PLACE = np.int32(-(2**30))
REST_WEIGHT = 0.03 / 2**28
BLINK = 0.02  # how often the best place is overlooked, so that the next best has its turn
ROWS_OF_A_PLACE = 5  # nodes made at the most when an item is laid, a new sheet included


@compiled
def drawn(luck: Luck) -> float:
    """Return the next number in (0, 1) of L'Ecuyer's combined generator (Comm. ACM 31 (1988) 742-749)."""
    luck[0] = luck[0] * 40014 % 2147483563
    luck[1] = luck[1] * 40692 % 2147483399
    apart = luck[0] - luck[1]
    if apart < 1:
        apart += 2147483562
    return float(apart) / 2147483563.0


@compiled
def unit_of(trees: Table) -> np.float32:
    """Return 1 / the sheet's area."""
    return np.float32(1.0 / (float(trees[COUNTS, SHEET_WIDE]) * float(trees[COUNTS, SHEET_HIGH])))


@compiled
def new_node(trees: Table, kind: int, wide: int, high: int) -> int:
    """Return a fresh node; the caller has made sure that there is room."""
    if trees[COUNTS, SPARES] > 0:
        trees[COUNTS, SPARES] -= 1
        node = int(trees[SPARE, trees[COUNTS, SPARES]])
    else:
        node = int(trees[COUNTS, TOP])
        trees[COUNTS, TOP] += 1
    trees[KIND, node] = kind
    trees[WIDE, node] = wide
    trees[HIGH, node] = high
    trees[PARENT, node] = -1
    trees[CHILD, node] = -1
    trees[NEXT, node] = -1
    trees[BEFORE, node] = -1
    trees[HELD, node] = -1
    return node


@compiled
def give_back(trees: Table, node: int) -> None:
    """Take a node out of use."""
    trees[KIND, node] = GONE
    trees[SPARE, trees[COUNTS, SPARES]] = node
    trees[COUNTS, SPARES] += 1


@compiled
def list_free(trees: Table, node: int) -> None:
    """Enter a free node in the list of free ones; it is worth its share of the sheet to the power 1.25."""
    place = trees[COUNTS, FREES]
    trees[COUNTS, FREES] += 1
    share = np.float32(trees[WIDE, node]) * np.float32(trees[HIGH, node]) * unit_of(trees)
    trees[LISTED, node] = place
    trees[FREE_NODE, place] = node
    trees[FREE_WIDE, place] = trees[WIDE, node]
    trees[FREE_HIGH, place] = trees[HIGH, node]
    trees[WORTH, place] = np.int32(share * np.sqrt(np.sqrt(share)) * WHOLE_WORTH)


@compiled
def unlist_free(trees: Table, node: int) -> None:
    """Strike a node from the list of free ones."""
    place = trees[LISTED, node]
    trees[COUNTS, FREES] -= 1
    last = trees[COUNTS, FREES]
    for row in range(FREE_NODE, WORTH + 1):
        trees[row, place] = trees[row, last]
    trees[LISTED, trees[FREE_NODE, place]] = place


@compiled
def link(trees: Table, parent: int, node: int) -> None:
    """Make a node its parent's first child."""
    first = trees[CHILD, parent]
    trees[PARENT, node] = parent
    trees[NEXT, node] = first
    trees[BEFORE, node] = -1
    if first >= 0:
        trees[BEFORE, first] = node
    trees[CHILD, parent] = node


@compiled
def unlink(trees: Table, node: int) -> None:
    """Take a node out of its parent's children."""
    before, after = trees[BEFORE, node], trees[NEXT, node]
    if before >= 0:
        trees[NEXT, before] = after
    else:
        trees[CHILD, trees[PARENT, node]] = after
    if after >= 0:
        trees[BEFORE, after] = before


@compiled
def cut_off(trees: Table, at: int, along: int, size: int) -> int:
    """Return a new node cut off a free node that is larger along the axis (0 = x, 1 = y); the rest stays free."""
    side = WIDE if along == 0 else HIGH
    wide, high = trees[WIDE, at], trees[HIGH, at]
    host = trees[PARENT, at]
    rest = at
    if host >= 0 and trees[ALONG, host] == along:
        trees[side, at] -= size
    else:
        host = at
        trees[KIND, at] = DIVIDED
        trees[ALONG, at] = along
        rest = new_node(trees, FREE, wide, high)
        trees[side, rest] -= size
        link(trees, host, rest)
    list_free(trees, rest)
    strip = new_node(trees, FREE, wide, high)
    trees[side, strip] = size
    link(trees, host, strip)
    return strip


@compiled
def lay(trees: Table, at: int, item: int, wide: int, high: int) -> None:
    """Put an item in a free node that is large enough for it; the first cut is the one that leaves the larger rest."""
    unlist_free(trees, at)
    along = 0 if float(trees[WIDE, at]) * float(high) >= float(trees[HIGH, at]) * float(wide) else 1
    for _ in range(2):
        side, size = (WIDE, wide) if along == 0 else (HIGH, high)
        if size < trees[side, at]:
            at = cut_off(trees, at, along, size)
        along = 1 - along
    trees[KIND, at] = ITEM
    trees[HELD, at] = item


@compiled
def set_aside(trees: Table, item: int) -> None:
    """Enter an item among those on no sheet."""
    trees[LEFT, trees[COUNTS, LEFTS]] = item
    trees[COUNTS, LEFTS] += 1


@compiled
def empty(trees: Table, node: int, desk: Table) -> None:
    """Take everything out of a node that is not free; it is free then, but on no list."""
    if trees[KIND, node] == ITEM:
        set_aside(trees, trees[HELD, node])
    waiting = 0
    child = trees[CHILD, node]
    while child >= 0 or waiting > 0:
        if child < 0:
            waiting -= 1
            child = desk[STACK, waiting]
        after = trees[NEXT, child]
        if trees[KIND, child] == ITEM:
            set_aside(trees, trees[HELD, child])
        elif trees[KIND, child] == FREE:
            unlist_free(trees, child)
        else:
            desk[STACK, waiting] = trees[CHILD, child]
            waiting += 1
        give_back(trees, child)
        child = after
    trees[KIND, node] = FREE
    trees[CHILD, node] = -1
    trees[HELD, node] = -1


@compiled
def ruin(trees: Table, node: int, desk: Table) -> None:
    """Free a node that is not free, with all below it, and join what is free then."""
    empty(trees, node, desk)
    while trees[PARENT, node] >= 0:
        parent = trees[PARENT, node]
        other, children = -1, 0
        child = trees[CHILD, parent]
        while child >= 0:
            children += 1
            if child != node and trees[KIND, child] == FREE:
                other = child
            child = trees[NEXT, child]
        if other >= 0:
            unlist_free(trees, other)
            side = WIDE if trees[ALONG, parent] == 0 else HIGH
            trees[side, node] += trees[side, other]
            unlink(trees, other)
            give_back(trees, other)
            children -= 1
        if children > 1:
            break
        give_back(trees, node)
        node = parent
        trees[KIND, node] = FREE
        trees[CHILD, node] = -1
    list_free(trees, node)


@compiled
def weigh(trees: Table, wide: int, high: int, desk: Table, start: int) -> None:
    """Write what is gained by laying a rectangle in each free node; NO_PLACE where it does not fit.

    Both ways of cutting leave the same area in two rests: the better one leaves the larger rest. Without branches, so
    that the processor works at several places at once.
    """
    unit = unit_of(trees)
    own_wide, own_high = np.float32(wide) * unit, np.float32(high) * unit
    for one in range(trees[COUNTS, FREES]):
        beside, above = trees[FREE_WIDE, one] - wide, trees[FREE_HIGH, one] - high
        right, up = np.float32(max(beside, 0)), np.float32(max(above, 0))
        large = unit * max(right * np.float32(trees[FREE_HIGH, one]), up * np.float32(trees[FREE_WIDE, one]))
        small = min(own_wide * up, own_high * right)
        rests = large * np.sqrt(np.sqrt(large)) + small * np.sqrt(np.sqrt(small))
        gain = np.int32(rests * WHOLE_WORTH) - trees[WORTH, one]
        desk[GAINS, start + one] = gain if (beside >= 0) & (above >= 0) else NO_PLACE


@compiled
def best_place(trees: Table, goods: Table, item: int, desk: Table, luck: Luck) -> int:
    """Return where most is gained: the place in the list of free nodes, plus its length if turned; -1: nowhere."""
    places = int(trees[COUNTS, FREES])
    weigh(trees, goods[ITEM_WIDE, item], goods[ITEM_HIGH, item], desk, 0)
    if goods[TURNS, item] == 1:
        weigh(trees, goods[ITEM_HIGH, item], goods[ITEM_WIDE, item], desk, places)
        places *= 2
    while True:
        most = NO_PLACE
        for one in range(places):
            most = max(most, desk[GAINS, one])
        if most == NO_PLACE:
            return -1
        found = 0
        while desk[GAINS, found] != most:
            found += 1
        if drawn(luck) >= BLINK:
            return found
        desk[GAINS, found] = NO_PLACE


@compiled
def put(trees: Table, goods: Table, item: int, desk: Table, luck: Luck, grow: int) -> None:
    """Lay an item in the best place, on a new sheet where `grow` is 1 and there is none, else leave it over."""
    found = -1
    if trees.shape[1] - trees[COUNTS, TOP] + trees[COUNTS, SPARES] >= ROWS_OF_A_PLACE:
        found = best_place(trees, goods, item, desk, luck)
        if found < 0 and grow == 1:
            list_free(trees, new_node(trees, FREE, trees[COUNTS, SHEET_WIDE], trees[COUNTS, SHEET_HIGH]))
            while found < 0:
                found = best_place(trees, goods, item, desk, luck)
    if found < 0:
        set_aside(trees, item)
        return
    frees = trees[COUNTS, FREES]
    wide, high = goods[ITEM_WIDE, item], goods[ITEM_HIGH, item]
    if found >= frees:
        wide, high = high, wide
        found -= frees
    lay(trees, trees[FREE_NODE, found], item, wide, high)


@compiled
def recreate(trees: Table, goods: Table, desk: Table, luck: Luck, grow: int) -> None:
    """Lay what is left over, large items first more or less, by a measure drawn by lot."""
    count = trees[COUNTS, LEFTS]
    measure = int(8 * drawn(luck))
    area = float(trees[COUNTS, SHEET_WIDE]) * float(trees[COUNTS, SHEET_HIGH])
    around = float(trees[COUNTS, SHEET_WIDE]) + float(trees[COUNTS, SHEET_HIGH])
    for one in range(count):
        item = trees[LEFT, one]
        wide, high = float(goods[ITEM_WIDE, item]), float(goods[ITEM_HIGH, item])
        size = 1.0
        if measure <= 2:
            size = wide * high / area
        elif measure <= 4:
            size = max(wide, high) / around
        elif measure <= 6:
            size = (wide + high) / around
        key = int(1e9 * size * (0.6 + 0.8 * drawn(luck)))
        at = one
        while at > 0 and desk[KEYS, at - 1] < key:
            desk[KEYS, at] = desk[KEYS, at - 1]
            desk[ORDER, at] = desk[ORDER, at - 1]
            at -= 1
        desk[KEYS, at] = key
        desk[ORDER, at] = item
    trees[COUNTS, LEFTS] = 0
    for one in range(count):
        put(trees, goods, desk[ORDER, one], desk, luck, grow)


@compiled
def badness(trees: Table, goods: Table) -> float:
    """Return the area left over less a little of the worth of what is free, in sheets."""
    area, worth = 0.0, 0
    for one in range(trees[COUNTS, LEFTS]):
        item = trees[LEFT, one]
        area += float(goods[ITEM_WIDE, item]) * float(goods[ITEM_HIGH, item])
    for one in range(trees[COUNTS, FREES]):
        worth += int(trees[WORTH, one])
    return area / (float(trees[COUNTS, SHEET_WIDE]) * float(trees[COUNTS, SHEET_HIGH])) - REST_WEIGHT * float(worth)


@compiled
def copy_trees(new: Table, old: Table) -> None:
    """Make the one like the other; loops become moves of memory, nine times as fast as slices."""
    for row in range(FREE_NODE):
        for one in range(old[COUNTS, TOP]):
            new[row, one] = old[row, one]
    for row in range(FREE_NODE, SPARE):
        for one in range(old[COUNTS, FREES]):
            new[row, one] = old[row, one]
    for one in range(old[COUNTS, SPARES]):
        new[SPARE, one] = old[SPARE, one]
    for one in range(old[COUNTS, LEFTS]):
        new[LEFT, one] = old[LEFT, one]
    for one in range(SHEET_HIGH + 1):
        new[COUNTS, one] = old[COUNTS, one]


@compiled
def ruin_some(trees: Table, desk: Table, luck: Luck) -> None:
    """Ruin one node and, with three chances in four each time, another."""
    again = True
    while again:
        for _ in range(20):
            node = int(trees[COUNTS, TOP] * drawn(luck))
            kind = trees[KIND, node]
            if kind == ITEM or (kind == DIVIDED and (trees[PARENT, node] >= 0 or drawn(luck) < 0.3)):
                ruin(trees, node, desk)
                break
        again = drawn(luck) < 0.75


@compiled
def search(
    now: Table, trial: Table, goods: Table, past: NDArray[np.float64], desk: Table, luck: Luck, steps: int
) -> int:
    """Return how many steps were taken until nothing is left over, or `steps`.

    `now` is changed; `trial` is room of the same size. A trial is kept when it is no worse than now, or better than
    what was kept as many steps ago as `past` is long (late acceptance: E.K. Burke, Y. Bykov, EJOR 258 (2017) 70-78).
    """
    bad = badness(now, goods)
    for step in range(steps):
        if now[COUNTS, LEFTS] == 0 and luck[GO_ON] == 0:
            return step
        copy_trees(trial, now)
        ruin_some(trial, desk, luck)
        recreate(trial, goods, desk, luck, 0)
        worse = badness(trial, goods)
        at = luck[STEP] % past.size
        luck[STEP] += 1
        if worse <= bad or worse < past[at]:
            bad = worse
            copy_trees(now, trial)
        past[at] = min(past[at], bad)
    return steps


@compiled
def dissolve(trees: Table, root: int, desk: Table) -> None:
    """Take a sheet out of use; its items are left over."""
    if trees[KIND, root] != FREE:
        ruin(trees, root, desk)
    unlist_free(trees, root)
    give_back(trees, root)
