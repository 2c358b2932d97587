"""The guillotine knapsack: the most valuable way to cut every rectangle between points, exactly."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.pack.compiled import compiled

Whole = NDArray[np.int64]


@compiled
def best_values(base: Whole, rest_x: Whole, rest_y: Whole, half_x: Whole, half_y: Whole) -> Whole:
    """Return the value of every rectangle: the best of one item, of a smaller rectangle, and of two after a cut.

    Gilmore & Gomory's recursion (Oper. Res. 14 (1966) 1045-1074) with waste.

    `base` holds the value of one item that lies in the rectangle from 0 to the points (i, j); a rest [i, a] is the
    largest point that remains of point i when point a is cut off; a half [i] the largest a not over half of point i.
    """
    wide, high = base.shape
    value = np.zeros((wide, high), dtype=np.int64)
    across = np.zeros((high, wide), dtype=np.int64)
    for i in range(1, wide):
        for j in range(1, high):
            best = base[i, j]
            best = max(best, value[i - 1, j])
            best = max(best, value[i, j - 1])
            row = across[j]
            for a in range(1, half_x[i] + 1):
                both = row[a] + row[rest_x[i, a]]
                best = max(best, both)
            column = value[i]
            for a in range(1, half_y[j] + 1):
                both = column[a] + column[rest_y[j, a]]
                best = max(best, both)
            value[i, j] = best
            across[j, i] = best
    return value
