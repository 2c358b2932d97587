"""One search on the kernels' tables: the pieces of an order, the sheets they are laid on, and the room it takes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from wrapwright.core.sheet.pack import kernels as row
from wrapwright.core.sheet.pack.trees import cuts_of
from wrapwright.core.sheet.pack.values import Cut, Item


class Attempt:
    """All pieces of an order on a number of equal sheets, as far as they have found room.

    Attributes:
        now: the kernels' table as it stands.
        count: how many pieces there are.
    """

    def __init__(self, items: Sequence[Item], seed: int) -> None:
        """Make room for the pieces; none lies on a sheet yet."""
        self.owners = [index for index, one in enumerate(items) for _ in range(one[2])]
        rows = [(*items[owner][:2], items[owner][3] and items[owner][0] != items[owner][1]) for owner in self.owners]
        self.goods = np.ascontiguousarray(np.array(rows, dtype=np.int32).reshape(-1, 3).T)
        self.count = len(self.owners)
        # Items laid one after the other make five nodes each at the most; where no room is left, an item waits.
        self.now = np.zeros((row.ROWS, 6 * self.count + 64), dtype=np.int32)
        self._trial = np.zeros_like(self.now)
        self._desk = np.zeros((4, 2 * self.now.shape[1]), dtype=np.int32)
        self._past = np.zeros(1)
        self._luck = np.array([seed % 2147483562 + 1, seed * 7919 % 2147483398 + 1, 0, 0], dtype=np.int64)

    @property
    def lies(self) -> bool:
        """Whether every piece lies on a sheet."""
        return bool(self.now[row.COUNTS, row.LEFTS] == 0)

    def clear(self, sheets: int, sheet: tuple[int, int]) -> None:
        """Begin with so many empty sheets and every piece left over."""
        self.now[row.COUNTS, :6] = (0, 0, 0, self.count, *sheet)
        self.now[row.LEFT, : self.count] = np.arange(self.count)
        for _ in range(sheets):
            row.list_free(self.now, row.new_node(self.now, row.FREE, *sheet))

    def take(self, table: row.Table) -> None:
        """Go on from a table kept earlier."""
        row.copy_trees(self.now, table)

    def lay(self) -> None:
        """Lay what is left over once, on new sheets where there is no room."""
        row.recreate(self.now, self.goods, self._desk, self._luck, 1)

    def dissolve(self) -> None:
        """Take the sheet with the least area laid away; its pieces are left over."""
        row.dissolve(self.now, _emptiest(self.now), self._desk)

    def badness(self) -> float:
        """Return the area left over less a little of the worth of what is free, in sheets."""
        return float(row.badness(self.now, self.goods))

    def begin(self, patience: int) -> None:
        """Begin the search here; `patience` is how many steps a worse trial may look back."""
        self._past = np.full(patience, self.badness())
        self._luck[row.STEP] = 0

    def search(self, steps: int, *, go_on: bool = False) -> int:
        """Return how many steps were taken until every piece lies, at most so many; all of them with `go_on`."""
        self._luck[row.GO_ON] = int(go_on)
        return int(row.search(self.now, self._trial, self.goods, self._past, self._desk, self._luck, steps))

    def cuts(self, table: row.Table) -> tuple[Cut, ...]:
        """Return a table's sheets as trees, those that hold nothing left out."""
        return cuts_of(table, self.owners, self.goods[row.ITEM_WIDE].tolist())


def sheets_in(table: row.Table) -> int:
    """Return how many sheets there are, used or not."""
    top = int(table[row.COUNTS, row.TOP])
    return int(((table[row.KIND, :top] != row.GONE) & (table[row.PARENT, :top] < 0)).sum())


def sheets_used(table: row.Table) -> int:
    """Return how many sheets hold something."""
    top = int(table[row.COUNTS, row.TOP])
    held = (table[row.KIND, :top] == row.ITEM) | (table[row.KIND, :top] == row.DIVIDED)
    return int((held & (table[row.PARENT, :top] < 0)).sum())


def _emptiest(table: row.Table) -> int:
    """Return the root of the sheet with the least area laid."""
    top = int(table[row.COUNTS, row.TOP])
    parents = table[row.PARENT, :top]
    held = np.flatnonzero(table[row.KIND, :top] == row.ITEM)
    up = held.copy()
    while (parents[up] >= 0).any():
        up = np.where(parents[up] >= 0, parents[up], up)
    areas = table[row.WIDE, held].astype(np.float64) * table[row.HIGH, held]
    laid = np.bincount(up, weights=areas, minlength=top)
    roots = np.flatnonzero((table[row.KIND, :top] != row.GONE) & (parents < 0))
    return int(roots[np.argmin(laid[roots])])
