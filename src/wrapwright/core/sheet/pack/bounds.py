"""How many sheets are needed at the least: areas weighed by pairs of dual feasible functions.

A function u from [0, 1] to [0, 1] is dual feasible when sizes that together are at most 1 keep values that together
are at most 1. For rectangles in one sheet the sum of u(width) v(height) is then at most 1 as well, however they lie
(S.P. Fekete, J. Schepers, Math. Methods Oper. Res. 60 (2004) 311-329), so no cutting or turning beats the bound.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.pack.values import Item

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
MOST_THRESHOLDS = 120  # of each family and side; more sizes are thinned out
MOST_PARTS = 60  # rounding to one part in so many at most
SLACK = 1e-7  # rounding errors of the sums stay far below


def fewest_sheets(items: Sequence[Item], sheet: tuple[int, int]) -> int:
    """Return a number of sheets that no way of laying the items beats, cut freely or from edge to edge.

    Args:
        items: width, height, copies, may be turned; each fits the sheet.
        sheet: width, height.

    On a square sheet a layout and its reflection in the diagonal show every item both ways round, so the mean of
    both values counts (F. Clautiaux, A. Jouglet, J. El Hayek, EJOR 183 (2007) 1196-1211); else an item that may be
    turned counts with the smaller one.
    """
    wanted = [one for one in items if one[2] > 0]
    if not wanted:
        return 0
    width, height, copies = (np.array([one[k] for one in wanted], dtype=np.int64) for k in range(3))
    upright = (width <= sheet[0]) & (height <= sheet[1])
    lying = (width <= sheet[1]) & (height <= sheet[0]) & np.array([one[3] for one in wanted])
    sides = np.unique(np.concatenate([width, height]))
    across, up = (dual_feasible(sides, whole) for whole in sheet)
    w, h = np.searchsorted(sides, width), np.searchsorted(sides, height)
    both = upright & lying
    most = 1.0
    if sheet[0] == sheet[1]:
        one_way = (across[:, w] * copies) @ up[:, h].T
        most = max(most, float((one_way + one_way.T).max()) / 2)
        if not both.any():
            most = max(most, float(one_way.max()))
    if sheet[0] != sheet[1] or (both.any() and not both.all()):
        most = max(most, _smaller_ways(across, up, (w, h, copies), (upright, lying)))
    return max(1, math.ceil(most - SLACK))


def _smaller_ways(
    across: Floats, up: Floats, goods: tuple[Ints, Ints, Ints], ways: tuple[NDArray[np.bool_], NDArray[np.bool_]]
) -> float:
    """Return the largest sum of what each item weighs at the least in the ways in which it fits the sheet."""
    w, h, copies = goods
    upright, lying = ways
    fixed, turned, either = upright & ~lying, lying & ~upright, upright & lying
    total = (across[:, w[fixed]] * copies[fixed]) @ up[:, h[fixed]].T
    total += (across[:, h[turned]] * copies[turned]) @ up[:, w[turned]].T
    w, h, copies = w[either], h[either], copies[either]
    for one in range(w.size):
        straight = np.multiply.outer(across[:, w[one]], up[:, h[one]])
        quarter = np.multiply.outer(across[:, h[one]], up[:, w[one]])
        total += np.minimum(straight, quarter) * copies[one]
    return float(total.max())


def dual_feasible(sides: Ints, whole: int) -> Floats:
    """Return dual feasible functions of the sides, one row each; a side longer than the whole counts as the whole.

    The families: the side itself; nothing below a threshold and all above its rest; rounding up and down to parts;
    and steps of one threshold (all in Fekete and Schepers 2004), the last in the sharper form of J. Carlier,
    F. Clautiaux, A. Moukrim, Computers & Oper. Res. 34 (2007) 2223-2250.
    """
    size = np.minimum(sides, whole)
    share = size / whole
    rows = [share]
    for parts in range(1, MOST_PARTS + 1):
        even = (parts + 1) * size % whole == 0
        rows.append(np.where(even, share, (parts + 1) * size // whole / parts))
    half = np.unique(np.concatenate([size[2 * size <= whole], whole - size[2 * size > whole]]))
    half = half[half > 0]
    if half.size > MOST_THRESHOLDS:
        half = half[np.unique(np.linspace(0, half.size - 1, MOST_THRESHOLDS).astype(np.int64))]
    for least in half.tolist():
        rows.append(np.where(size > whole - least, 1.0, np.where(size < least, 0.0, share)))
        steps = whole // least
        middle = np.where(2 * size == whole, steps, 2 * (size // least))
        rows.append(np.where(2 * size > whole, 2 * (steps - (whole - size) // least), middle) / (2 * steps))
    return np.unique(np.array(rows), axis=0)


def shortest_strip(items: Sequence[Item], width: int) -> int:
    """Return a length of a strip of this width that no way of laying the items beats.

    Values of the sides across, times the sides along, are at most the length where the function is dual feasible; an
    item that may be turned counts with the smaller product. No item is shorter than its side along.
    """
    wanted = [one for one in items if one[2] > 0]
    if not wanted:
        return 0
    across, along, copies = (np.array([one[k] for one in wanted], dtype=np.int64) for k in range(3))
    turns = np.array([one[3] for one in wanted]) & (along <= width)
    upright = across <= width
    sides = np.unique(np.concatenate([across, along]))
    values = dual_feasible(sides, width)
    straight = values[:, np.searchsorted(sides, across)] * along
    quarter = values[:, np.searchsorted(sides, along)] * across
    least = np.where(turns & upright, np.minimum(straight, quarter), np.where(upright, straight, quarter))
    longest = np.where(turns & upright, np.minimum(along, across), np.where(upright, along, across))
    return max(int(longest.max()), math.ceil(float((least @ copies).max()) - SLACK))
