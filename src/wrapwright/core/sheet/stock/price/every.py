"""Every pattern that could still belong to a better answer, by what it holds: the kernels."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.pack.compiled import compiled

Whole = NDArray[np.int64]
Small = NDArray[np.int16]
Tables = tuple[Whole, Whole, Whole, Whole]  # rests and halves of the two sides, as in the pricing kernel
Lists = tuple[Small, Whole, Whole]  # what patterns hold, what that is worth, how they were made


@compiled
def slacks(value: Whole, tables: Tables, slack: int) -> Whole:
    """Return how much value each rectangle may lose when the whole sheet may lose `slack`; below 0: not needed."""
    rest_x, rest_y, half_x, half_y = tables
    wide, high = value.shape
    room = np.full((wide, high), -1, dtype=np.int64)
    room[wide - 1, high - 1] = slack
    for i in range(wide - 1, 0, -1):
        for j in range(high - 1, 0, -1):
            if room[i, j] < 0:
                continue
            loss = room[i, j] - value[i, j]
            room[i - 1, j] = max(room[i - 1, j], loss + value[i - 1, j])
            room[i, j - 1] = max(room[i, j - 1], loss + value[i, j - 1])
            for a in range(1, half_x[i] + 1):
                b = rest_x[i, a]
                still = loss + value[a, j] + value[b, j]
                room[a, j] = max(room[a, j], still)
                room[b, j] = max(room[b, j], still)
            for a in range(1, half_y[j] + 1):
                b = rest_y[j, a]
                still = loss + value[i, a] + value[i, b]
                room[i, a] = max(room[i, a], still)
                room[i, b] = max(room[i, b], still)
    return room


@compiled
def holds(one: Small, other: Small) -> bool:
    """Return whether one pattern holds at least what the other does."""
    for k in range(one.shape[0]):  # noqa: SIM110 (a plain loop stops early when compiled)
        if one[k] < other[k]:
            return False
    return True


@compiled
def offer(here: Lists, number: int, new: Small, gain: int, how: Whole) -> int:
    """Take a pattern into a rectangle's list unless one there holds as much, drop what it outdoes; return the length.

    A full list is left as it is: the caller sees its length.
    """
    held, worth, made = here
    at = 0
    while at < number:
        if worth[at] >= gain and holds(held[at], new):
            return number
        if worth[at] <= gain and holds(new, held[at]):
            number -= 1
            held[at] = held[number]
            worth[at] = worth[number]
            made[at] = made[number]
        else:
            at += 1
    if number < held.shape[0]:
        held[number] = new
        worth[number] = gain
        made[number] = how
        number += 1
    return number


@compiled
def from_items(here: Lists, place: tuple[int, int], cells: Whole, prices: Whole, least: int) -> int:
    """Return the length of a rectangle's new list of single items that just fit it."""
    how = np.zeros(3, dtype=np.int64)
    new = np.zeros(here[0].shape[1], dtype=np.int16)
    number = 0
    for k in range(cells.shape[0]):
        item = cells[k, 0]
        if cells[k, 1] == place[0] and cells[k, 2] == place[1] and prices[item] >= least:
            new[:] = 0
            new[item] = 1
            how[1] = k
            number = offer(here, number, new, prices[item], how)
    return number


@compiled
def from_smaller(store: Lists, here: Lists, number: int, span: Whole, least: int) -> int:
    """Return the length of the list when the patterns of a smaller rectangle have been offered."""
    held, worth, made = store
    for p in range(span[0], span[1]):
        if worth[p] >= least:
            number = offer(here, number, held[p], worth[p], made[p])
    return number


@compiled
def from_pairs(
    store: Lists, here: Lists, number: int, spans: tuple[Whole, Whole], caps: Small, prices: Whole, aim: tuple[int, int]
) -> int:
    """Return the length of the list when every pattern of one rectangle beside every one of another was offered.

    `aim` is the least worth, and how the two lie (1 side by side, 2 on top of each other).
    """
    held, worth, _ = store
    least, side = aim
    new = np.zeros(caps.shape[0], dtype=np.int16)
    how = np.zeros(3, dtype=np.int64)
    how[0] = side
    for p in range(spans[0][0], spans[0][1]):
        for q in range(spans[1][0], spans[1][1]):
            if worth[p] + worth[q] < least:
                continue
            gain = 0
            for k in range(caps.shape[0]):
                new[k] = min(held[p, k] + held[q, k], caps[k])
                gain += new[k] * prices[k]
            if gain >= least:
                how[1] = p
                how[2] = q
                number = offer(here, number, new, gain, how)
    return number


@compiled
def work_of(spans: tuple[Whole, Whole], number: int) -> int:
    """Return about how many comparisons it takes to offer all pairs of two lists to a third."""
    pairs = (spans[0][1] - spans[0][0]) * (spans[1][1] - spans[1][0])
    return int(pairs * (1 + number))


@compiled
def cut_apart(i: int, j: int, cut: int, tables: Tables) -> tuple[int, int, int, int]:
    """Return the points of the two rectangles that a cut leaves: first all cuts across, then all along."""
    rest_x, rest_y, half_x, _ = tables
    if cut <= half_x[i]:
        return cut, j, rest_x[i, cut], j
    a = cut - half_x[i]
    return i, a, i, rest_y[j, a]


@compiled
def room_for(most: int, types: int) -> Lists:
    """Return empty lists for so many patterns."""
    return (
        np.zeros((most, types), dtype=np.int16),
        np.zeros(most, dtype=np.int64),
        np.zeros((most, 3), dtype=np.int64),
    )


@compiled
def every(
    value: Whole, room: Whole, tables: Tables, cells: Whole, caps: Small, prices: Whole, limits: tuple[int, int, int]
) -> tuple[Lists, int, int]:
    """Return the patterns of all rectangles needed that no other outdoes, and where the whole sheet's begin and end.

    A pattern is made of a cell (how 0: its index), or of two patterns side by side (1) or on top of each other (2);
    one of a smaller rectangle keeps how it was made. Begin is -1 when there were more patterns than the first limit or
    about more comparisons than the second. With a third limit above 0 no rectangle keeps more patterns than that: many
    good ones then, not all.
    """
    wide, high = value.shape
    most, budget, few = limits
    store = room_for(most, caps.shape[0])
    here = room_for(few if few > 0 else most // 8, caps.shape[0])
    spans = np.zeros((wide, high, 2), dtype=np.int64)
    size = 0
    work = 0
    for place in range(wide * high):
        i, j = place // high, place % high
        if i == 0 or j == 0 or room[i, j] < 0:
            continue
        least = value[i, j] - room[i, j]
        number = from_items(here, (i, j), cells, prices, least)
        number = from_smaller(store, here, number, spans[i - 1, j], least)
        number = from_smaller(store, here, number, spans[i, j - 1], least)
        for cut in range(1, tables[2][i] + tables[3][j] + 1):
            i1, j1, i2, j2 = cut_apart(i, j, cut, tables)
            if value[i1, j1] + value[i2, j2] < least:
                continue
            both = (spans[i1, j1], spans[i2, j2])
            work += work_of(both, number)
            if work > budget:
                return store, -1, -1
            number = from_pairs(store, here, number, both, caps, prices, (least, 1 if j1 == j2 and i1 < i else 2))
        if size + number > most or (few == 0 and number >= most // 8):
            return store, -1, -1
        for k in range(number):
            store[0][size + k] = here[0][k]
            store[1][size + k] = here[1][k]
            store[2][size + k] = here[2][k]
        spans[i, j, 0] = size
        spans[i, j, 1] = size + number
        size += number
    return store, spans[wide - 1, high - 1, 0], spans[wide - 1, high - 1, 1]
