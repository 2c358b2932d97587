"""Rectangles on the fewest sheets for a trimmer: every cut goes from edge to edge of what lies before it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack import kernels as row
from wrapwright.core.sheet.pack.bounds import fewest_sheets
from wrapwright.core.sheet.pack.trees import cuts_of
from wrapwright.core.sheet.pack.values import CutBin, Item

LONGEST = 2**24  # sides are weighed in single precision, exact up to here
MOST_PIECES = 20_000
PATIENCE = 500  # steps that a worse trial may look back
FIRST_TRIES = 12
SPAN = 150_000  # steps of an attempt; beginning anew helps more than going on


class Packing:
    """The fewest sheets found so far, better from call to call.

    A layout is there at once. Each further search takes one sheet away and lays its items among the others until all
    lie or the search is begun anew. The same items, seed and number of steps give the same trees on every machine.
    """

    def __init__(self, items: Sequence[Item], sheet: tuple[int, int], *, seed: int, bound: int = 0) -> None:
        """Lay everything a first time.

        Args:
            items: width, height, copies and whether it may be turned by a quarter, in whole numbers.
            sheet: width and height.
            seed: any whole number.
            bound: sheets needed at least, when more is known than areas tell.

        Raises:
            WrapwrightError: no sheet or item, or one of no size or of more than 2^24; an item larger than the sheet;
                more than 20,000 pieces.
        """
        _check(items, sheet)
        self._items, self._sheet = tuple(items), sheet
        self.bound = max(bound, fewest_sheets(items, sheet))
        self._owners = [index for index, one in enumerate(items) for _ in range(one[2])]
        goods = [(*items[owner][:2], items[owner][3] and items[owner][0] != items[owner][1]) for owner in self._owners]
        self._goods = np.ascontiguousarray(np.array(goods, dtype=np.int32).reshape(-1, 3).T)
        count = len(self._owners)
        # A tree of n items laid one after the other has at most 5 n nodes; with no room left an item waits.
        self._now = np.zeros((row.ROWS, 6 * count + 64), dtype=np.int32)
        self._trial = np.zeros_like(self._now)
        self._desk = np.zeros((4, 2 * self._now.shape[1]), dtype=np.int32)
        self._past = np.zeros(PATIENCE)
        self._luck = np.array([seed % 2147483562 + 1, seed * 7919 % 2147483398 + 1, 0], dtype=np.int64)
        self._tried = 0
        self._kept = self._now.copy()
        self._lay_first()

    @property
    def best(self) -> tuple[CutBin, ...]:
        """One tree a sheet."""
        return cuts_of(self._kept, self._owners, self._goods[row.ITEM_WIDE].tolist())

    @property
    def sheets(self) -> int:
        """How many sheets the best layout takes."""
        return self._sheets

    @property
    def proven(self) -> bool:
        """Whether no layout takes fewer sheets."""
        return self._sheets <= self.bound

    def advance(self, steps: int) -> bool:
        """Return whether no fewer sheets are possible, after at most so many steps of search."""
        while steps > 0 and not self.proven:
            if self._tried >= self._span:
                self._begin()
            share = min(steps, self._span - self._tried)
            taken = row.search(self._now, self._trial, self._goods, self._past, self._desk, self._luck, share)
            self._tried += taken
            steps -= taken
            if self._now[row.COUNTS, row.LEFTS] == 0:
                self._keep()
        return self.proven

    def _lay_first(self) -> None:
        count = len(self._owners)
        least = float("inf")
        for _ in range(max(1, min(FIRST_TRIES, 6000 // max(count, 1)))):
            self._clear(0)
            row.recreate(self._now, self._goods, self._desk, self._luck, 1)
            size = _used(self._now) + row.badness(self._now, self._goods)
            if size < least:
                least = size
                row.copy_trees(self._kept, self._now)
        row.copy_trees(self._now, self._kept)
        self._keep()

    def _keep(self) -> None:
        """Keep the layout, which leaves nothing over, and begin the search for one with a sheet less."""
        row.copy_trees(self._kept, self._now)
        self._sheets = _used(self._kept)
        self._attempts = 0
        self._begin()

    def _begin(self) -> None:
        """Begin with one sheet less than the best: first with its emptiest one taken away, then from nothing."""
        if self._attempts == 0:
            row.copy_trees(self._now, self._kept)
            while _roots(self._now) > max(self._sheets - 1, 0):
                row.dissolve(self._now, _emptiest(self._now), self._desk)
        else:
            self._clear(self._sheets - 1)
        self._past[:] = row.badness(self._now, self._goods)
        self._luck[row.STEP] = 0
        self._tried = 0
        self._span = SPAN
        self._attempts += 1

    def _clear(self, sheets: int) -> None:
        """Make the table one of so many empty sheets with every piece left over."""
        count = len(self._owners)
        self._now[row.COUNTS, :6] = (0, 0, 0, count, *self._sheet)
        self._now[row.LEFT, :count] = np.arange(count)
        for _ in range(sheets):
            row.list_free(self._now, row.new_node(self._now, row.FREE, *self._sheet))


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


def _roots(table: row.Table) -> int:
    """Return how many sheets there are, used or not."""
    top = int(table[row.COUNTS, row.TOP])
    return int(((table[row.KIND, :top] != row.GONE) & (table[row.PARENT, :top] < 0)).sum())


def _used(table: row.Table) -> int:
    """Return how many sheets hold something."""
    top = int(table[row.COUNTS, row.TOP])
    held = (table[row.KIND, :top] == row.ITEM) | (table[row.KIND, :top] == row.DIVIDED)
    return int((held & (table[row.PARENT, :top] < 0)).sum())


def _check(items: Sequence[Item], sheet: tuple[int, int]) -> None:
    """Refuse what cannot be meant, with its figure."""
    if not (0 < sheet[0] <= LONGEST and 0 < sheet[1] <= LONGEST):
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"A sheet is {sheet[0]} x {sheet[1]}; its sides must be from 1 to {LONGEST}.",
            remedy="Correct the paper or its margins.",
        )
    for index, (width, height, copies, turns) in enumerate(items):
        if width <= 0 or height <= 0 or copies < 0:
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1} is {width} x {height}, {copies} times; sides must be above 0, copies not below.",
                remedy="Correct the order.",
            )
        if not ((width <= sheet[0] and height <= sheet[1]) or (turns and width <= sheet[1] and height <= sheet[0])):
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1}, {width} x {height}, does not fit a sheet of {sheet[0]} x {sheet[1]}"
                f"{', turned or not' if turns else ' unturned'}.",
                remedy="Take a larger paper, or split it into panels.",
            )
    count = sum(item[2] for item in items)
    if count > MOST_PIECES:
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"{count} pieces are more than {MOST_PIECES} at once.",
            remedy="Split the order; equal pieces are best cut from stock in whole sheets.",
        )
