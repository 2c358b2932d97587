"""The search of the trimmer's way: patterns for many equal parts, ruin and recreate for few, the best of both kept.

It runs in slices, so that whoever watches the time can stop it; the same request and steps give the same answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wrapwright.core.sheet.lay.filling import filled, fits
from wrapwright.core.sheet.lay.grid import Grid, leaves
from wrapwright.core.sheet.lay.plan import Planned, priced, renamed, worth

# What a slice of column generation counts for, in steps of ruin and recreate: about as long.
SLICE = 4000
CHUNK = 2000
TIDY = 12_000  # steps for fewer and larger rests on the same sheets
MOST_CLASSES = 60  # for column generation
MOST_PACKED = 3000  # pieces for ruin and recreate
Plan = tuple[Planned, ...]


@dataclass(frozen=True)
class Found:
    """An answer and what is known of the least: `bound` in sheets, millimetres of a roll, or money; 0 for nothing."""

    plan: Plan
    bound: float
    proven: bool
    missing: int = 0


def searched(grid: Grid, copies: Sequence[int]) -> Iterator[tuple[Found, int]]:
    """Yield the best answer so far for so many copies of each class, and the steps it took since the last.

    Ends when the answer is proven; else it goes on as long as it is asked.
    """
    keeper = _Keeper(grid)
    if not any(copies):
        yield Found((), 0.0, proven=True), 0
        return
    patterned = sum(1 for count in copies if count) <= MOST_CLASSES
    if not patterned or sum(copies) <= MOST_PACKED:
        keeper.offer(plain(grid, copies), 0.0)
        yield keeper.found(), 1
    if patterned:
        for answer, missing, bound, proven in _patterns(grid, copies):
            keeper.offer(answer, bound, missing)
            keeper.proven = proven or keeper.proven
            yield keeper.found(), SLICE
    if not keeper.plan:
        keeper.offer(plain(grid, copies), 0.0)
        yield keeper.found(), 1
    if not keeper.done():
        yield from _packed(grid, copies, keeper)


class _Keeper:
    """Keeps the best plan and the highest bound."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self.plan: Plan = ()
        self.key: tuple[float, ...] = ()
        self.missing = 0
        self.bound = 0.0
        self.proven = False

    def offer(self, plan: Plan | None, bound: float, missing: int = 0) -> None:
        """Keep a plan when it is better than what is kept."""
        self.bound = max(self.bound, bound)
        if plan is None or not within_hand(plan, self.grid):
            return
        key = (missing, *worth(plan, self.grid).key)
        if not self.plan or key < self.key:
            self.plan, self.key, self.missing = plan, key, missing

    def done(self) -> bool:
        """Return whether nothing better is possible."""
        return self.proven or self.found().proven

    def found(self) -> Found:
        """Return what is kept."""
        cost = self.key[1] if self.key else 0.0
        reached = self.missing == 0 and bool(self.plan) and self.bound > 0 and cost <= self.bound + 1e-6
        return Found(self.plan, self.bound, reached, self.missing)


def within_hand(plan: Plan, grid: Grid) -> bool:
    """Return whether no stock is used more often than there are sheets of it."""
    for index, stock in enumerate(grid.request.stocks):
        if stock.at_hand is not None and sum(one.stock == index for one in plan) > stock.at_hand:
            return False
    return True


def plain(grid: Grid, copies: Sequence[int]) -> Plan | None:
    """Return the best plan on one stock, filled one item after the other; None when none takes everything."""
    best: Plan | None = None
    items = grid.items(copies)
    order = sorted(
        (at for at in range(len(items)) if items[at][2]), key=lambda at: (-max(items[at][:2]), -min(items[at][:2]), at)
    )
    for stock, one in enumerate(grid.bins):
        room = (one.width, one.height)
        if not all(fits(items[at], room) for at in order):
            continue
        plan = tuple(Planned(stock, sheet.cut()) for sheet in filled(items, order, room))
        if within_hand(plan, grid) and (best is None or worth(plan, grid).key < worth(best, grid).key):
            best = plan
    return best


def _patterns(grid: Grid, copies: Sequence[int]) -> Iterator[tuple[Plan, int, float, bool]]:
    """Yield what column generation finds on the cut sheets: plan, copies missing, bound, whether it is proven."""
    from wrapwright.core.sheet.stock.cutting import improve_stock, single_sheets

    stocks = grid.request.stocks
    usable = [
        index
        for index, (stock, one) in enumerate(zip(stocks, grid.bins, strict=True))
        if stock.height_mm is not None and min(one.width, one.height) > 0
    ]
    held = [at for at, count in enumerate(copies) if count]
    items = grid.items(copies)
    if not all(any(fits(items[at], (grid.bins[k].width, grid.bins[k].height)) for k in usable) for at in held):
        return
    money = priced(stocks)
    bins = [
        (grid.bins[k].width, grid.bins[k].height, (stocks[k].price or 1.0) if money else 1.0, stocks[k].at_hand)
        for k in usable
    ]
    whole = len(usable) == len(stocks)  # with a roll beside it, less may be possible
    for answer in improve_stock([items[at] for at in held], bins, seed=grid.request.seed):
        plan = tuple(
            Planned(usable[kind], renamed(cut, held)) for kind, cut in single_sheets(answer) if any(leaves(cut))
        )
        yield plan, sum(answer.missing), float(answer.bound) if whole else 0.0, answer.proven and whole


def _packed(grid: Grid, copies: Sequence[int], keeper: _Keeper) -> Iterator[tuple[Found, int]]:
    """Yield what ruin and recreate finds, on each stock that takes everything by itself, in turns."""
    from wrapwright.core.sheet.lay.engines import engines_of

    if sum(copies) > MOST_PACKED:
        return
    running = [(one, -1) for one in engines_of(grid, copies, int(keeper.bound))]
    while running:
        going = []
        for one, size in running:
            proven = one.advance(CHUNK)
            if one.size != size:
                keeper.offer(one.plan(), one.bound())
                one.tidy(TIDY)
                keeper.offer(one.plan(), one.bound())
            if not proven:
                going.append((one, one.size))
            yield keeper.found(), CHUNK
        running = going
        if keeper.done():
            return
