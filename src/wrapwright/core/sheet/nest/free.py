"""Laying for scissors or a plotter: any outlines on the fewest sheets, step by step, the best so far at hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count as counting

import numpy as np

from wrapwright.core.sheet.lay.plan import priced
from wrapwright.core.sheet.lay.values import LaidSheet, LayRequest
from wrapwright.core.sheet.nest.alike.blocks import Block, best_block
from wrapwright.core.sheet.nest.bound import least_cost, least_sheets
from wrapwright.core.sheet.nest.boxes import boxed_plan
from wrapwright.core.sheet.nest.finish import Filled, finished, sound
from wrapwright.core.sheet.nest.ground import Down, Ground, filled
from wrapwright.core.sheet.nest.kinds import area_of, fits, kinds_of
from wrapwright.core.sheet.nest.nofit import NoFit
from wrapwright.core.sheet.nest.pins import as_down, pinned_sheets
from wrapwright.core.sheet.nest.strips import on_roll, on_sheets
from wrapwright.core.sheet.nest.values import Nested

PLAIN_STEPS = 60
_ROUNDS = 24  # of orders with some chance in them
_MANY_KINDS = 12
_LATTICES = 3
_LIKINGS = (1.0, 1.25, 1.6)


def lay_free(
    request: LayRequest, nested: Nested | None = None, *, begin: Sequence[LaidSheet] = (), steps: int = PLAIN_STEPS
) -> tuple[LaidSheet, ...]:
    """Return the sheets that hold all copies that fit some paper, laid freely.

    Args:
        request: parts, papers, gutter and pins.
        nested: nests outlines in a strip, where somebody can.
        begin: sheets that hold everything already (laid for the trimmer, say): the answer is never worse.
        steps: how many sheets are filled in search of a better answer, once there is one.
    """
    laying = FreeLaying(request, nested, begin=begin)
    while not laying.advance(steps) and not laying.sheets:
        pass
    return laying.sheets


class FreeLaying:
    """A search for a free layout; the same request and steps give the same answer.

    Args:
        request: parts, papers, gutter and pins.
        nested: nests outlines in a strip, where somebody can.
        begin: sheets that hold everything already.
        asked: what was asked where `request` keeps pieces a little farther apart than that: pins and bounds are held
            against it.

    Raises:
        WrapwrightError: unusable, when what is pinned cannot stay.

    Attributes:
        bound: no way of laying needs fewer sheets (on rolls alone: whole millimetres).
        least_cost: no way of laying costs less; None where not every price is known.
        over: indices of parts that fit no paper.
        sheets: the best so far.
    """

    def __init__(
        self,
        request: LayRequest,
        nested: Nested | None = None,
        *,
        begin: Sequence[LaidSheet] = (),
        asked: LayRequest | None = None,
    ) -> None:
        self.request, self._nested = request, nested
        asked = asked or request
        self.kinds = kinds_of(request)
        self._pinned = pinned_sheets(asked)
        self.areas = [area_of(stock) for stock in request.stocks]
        held = [kind for kind in self.kinds if any(fits(kind, area) for area in self.areas)]
        self.over = tuple(sorted(part for kind in self.kinds if kind not in held for part in kind.parts))
        self.bound = least_sheets(asked, held)
        self.least_cost = least_cost(asked, held) if priced(request.stocks) else None
        self.sheets = tuple(begin)
        self._plan: tuple[Filled, ...] = ()
        self._no_fit = NoFit([kind.lyings for kind in self.kinds])
        self._blocks: dict[tuple[int, int, int], Block] = {}
        self._set(upwards=True, liking=1.0)
        self._work = self._search()
        self.done = not held

    def advance(self, steps: int) -> bool:
        """Search on for so many steps, each the filling of one sheet; return whether the search has ended."""
        for _ in range(steps):
            if not self.done:
                self.done = next(self._work, None) is None
        return self.done

    @property
    def proven(self) -> bool:
        """Whether the sheets (millimetres of roll) used equal the bound, or cost no more than they must."""
        if not self.sheets:
            return False
        cost, used, _ = self._cost_of(self.sheets)
        return used <= self.bound if self.least_cost is None else cost <= self.least_cost + 1e-6

    def _search(self) -> Iterator[int]:
        """Try what promises most first; yield after each sheet."""
        by_area = sorted(range(len(self.kinds)), key=lambda at: (-self.kinds[at].area, at))
        stocks = range(len(self.areas))
        if not self.sheets and not self.request.pins:
            yield from self._as_boxes()
        for first in stocks:
            if self.proven:
                return
            order = [first, *(one for one in stocks if one != first)]
            for upwards, liking in ((True, 1.5), (False, 1.0)):
                self._set(upwards=upwards, liking=liking)
                yield from self._attempt(order, by_area)
        if self._nested is not None:
            yield from self._nest()
        dice = np.random.default_rng(self.request.seed)
        for turn in range(_ROUNDS):
            if self.proven:
                return
            noise = dice.uniform(0.5, 1.5, len(self.kinds))
            shuffled = sorted(by_area, key=lambda at: -self.kinds[at].area * noise[at])
            order = list(np.roll(list(stocks), int(dice.integers(len(self.areas)))))
            self._set(upwards=turn % 2 == 0, liking=float(dice.choice(_LIKINGS)))
            yield from self._attempt([int(one) for one in order], shuffled)

    def _as_boxes(self) -> Iterator[int]:
        """Begin with everything cut as boxes, on each of the papers of which there is enough."""
        for at, stock in enumerate(self.request.stocks):
            if stock.height_mm is None:
                continue
            plan = boxed_plan(self.request, self.kinds, at, self.areas[at], self._copies())
            if plan and (stock.at_hand is None or len(plan) <= stock.at_hand):
                self._offer(plan)
            yield 1

    def _set(self, *, upwards: bool, liking: float) -> None:
        """Say how sheets are filled, from below or from the left, and how much more large parts count."""
        self._upwards = upwards
        self._worth = [kind.area**liking for kind in self.kinds]

    def _attempt(self, stocks: Sequence[int], order: Sequence[int]) -> Iterator[int]:
        """Fill sheet after sheet, each as full as it can be made."""
        left = self._copies()
        pinned = self._pinned
        plan: dict[int, Filled] = {}
        for at, one in pinned.items():
            held_down = as_down(self.request, self.kinds, one)
            ground = Ground(self.kinds, self._no_fit, self.areas[one.stock], down=held_down)
            held = len(ground.down)
            left = filled(ground, order, left, upwards=self._upwards)
            plan[at] = Filled(one.stock, tuple(ground.down[held:]), one.pins)
            yield 1
        slots = (at for at in counting() if at not in pinned)
        while any(left):
            stock = self._next_stock(stocks, left, list(plan.values()))
            if stock is None:
                return
            best: tuple[tuple[float, ...], tuple[Down, ...]] | None = None
            for seed in self._seeds(stock, left):
                found = self._fill(stock, seed, order, left)
                best = found if best is None or found[0] > best[0] else best
                yield 1
            if best is None or not best[1]:
                return
            left = self._repeat(plan, slots, Filled(stock, best[1]), left)
        yield from self._cheaper(plan, order)
        self._offer(tuple(plan[at] for at in sorted(plan)))

    def _copies(self) -> list[int]:
        pinned = [pin.part for pin in self.request.pins]
        return [
            sum(self.request.parts[part].copies - pinned.count(part) for part in kind.parts if part not in self.over)
            for kind in self.kinds
        ]

    def _next_stock(self, stocks: Sequence[int], left: Sequence[int], plan: Sequence[Filled]) -> int | None:
        """Return the first stock of which there is some and on which something goes that is still to be laid."""
        for stock in stocks:
            at_hand = self.request.stocks[stock].at_hand
            if at_hand is not None and sum(one.stock == stock for one in plan) >= at_hand:
                continue
            if any(more and fits(kind, self.areas[stock]) for kind, more in zip(self.kinds, left, strict=True)):
                return stock
        return None

    def _seeds(self, stock: int, left: Sequence[int]) -> list[tuple[Down, ...]]:
        """Return what a sheet may begin with: nothing, or one kind in columns that reach into each other."""
        by_need = sorted(range(len(left)), key=lambda at: -self.kinds[at].area * left[at])
        seeds: list[tuple[Down, ...]] = [()]
        for kind in by_need[: _LATTICES if sum(map(bool, left)) <= _MANY_KINDS else 1]:
            if left[kind] < 2:
                continue
            which = (stock, kind, left[kind])
            if which not in self._blocks:
                one = self.kinds[kind]
                self._blocks[which] = best_block(one.part, self.areas[stock], one.gutter_mm, left[kind])
            spots = self._blocks[which].spots
            seeds.append(tuple(Down(kind, spot.x_mm, spot.y_mm, spot.turn_deg) for spot in spots))
        return seeds

    def _fill(
        self, stock: int, seed: tuple[Down, ...], order: Sequence[int], left: Sequence[int]
    ) -> tuple[tuple[float, ...], tuple[Down, ...]]:
        """Return how good a sheet that begins so becomes, and what lies on it."""
        ground = Ground(self.kinds, self._no_fit, self.areas[stock], down=seed)
        after = [more - sum(one.kind == kind for one in seed) for kind, more in enumerate(left)]
        upwards = self._upwards or self.request.stocks[stock].height_mm is None
        after = filled(ground, order, after, upwards=upwards)
        down = tuple(ground.down)
        reach = max((one.y + self.kinds[one.kind].at(one.turn).ink[3] for one in down), default=0.0)
        if self.request.stocks[stock].height_mm is None:
            return (float(not any(after)), -reach if not any(after) else self._laid(down) / max(reach, 1.0)), down
        side = max((one.x + self.kinds[one.kind].at(one.turn).ink[2] for one in down), default=0.0)
        wide, high = self.areas[stock]
        rest = max((wide - side) * high, (high - reach) * wide)
        return (float(not any(after)), round(self._laid(down), 3), rest), down

    def _laid(self, down: Sequence[Down]) -> float:
        return float(sum(self._worth[one.kind] for one in down))

    def _repeat(self, plan: dict[int, Filled], slots: Iterator[int], one: Filled, left: Sequence[int]) -> list[int]:
        """Add a sheet as many times as there are copies for it, and return what is then left."""
        used = [sum(down.kind == kind for down in one.down) for kind in range(len(left))]
        times = min(more // some for more, some in zip(left, used, strict=True) if some)
        at_hand = self.request.stocks[one.stock].at_hand
        if at_hand is not None:
            times = min(times, at_hand - sum(other.stock == one.stock for other in plan.values()))
        for _ in range(max(times, 1)):
            plan[next(slots)] = one
        return [more - some * max(times, 1) for more, some in zip(left, used, strict=True)]

    def _cheaper(self, plan: dict[int, Filled], order: Sequence[int]) -> Iterator[int]:
        """Move sheets to a stock that costs less, where all that lies on them goes."""
        stocks = self.request.stocks
        if len(stocks) == 1 or not priced(stocks) or any(stock.height_mm is None for stock in stocks):
            return
        for at, one in list(plan.items()):
            for other in sorted(range(len(stocks)), key=lambda index: stocks[index].price or 0.0):
                used = sum(some.stock == other for some in plan.values())
                at_hand = stocks[other].at_hand
                if (stocks[other].price or 0.0) >= (stocks[one.stock].price or 0.0) or one.pins:
                    break
                if at_hand is not None and used >= at_hand:
                    continue
                need = [sum(down.kind == kind for down in one.down) for kind in range(len(self.kinds))]
                worth, down = self._fill(other, (), order, need)
                yield 1
                if worth[0]:
                    plan[at] = Filled(other, down)
                    break

    def _nest(self) -> Iterator[int]:
        """Let the nester try what the sheets found leave open."""
        if self._nested is None or not self._plan or self.request.pins:
            return
        stocks = {one.stock for one in self._plan}
        if len(stocks) > 1:
            return
        stock = stocks.pop()
        roll = self.request.stocks[stock].height_mm is None
        tries = (on_roll if roll else on_sheets)(
            self.kinds, self.areas[stock], self._plan, self._nested, seed=self.request.seed, least=self.bound
        )
        for plan in tries:
            if plan:
                self._offer(plan)
            yield 1

    def _offer(self, plan: tuple[Filled, ...]) -> None:
        """Take a plan for the best when it is better and sound."""
        sheets = finished(self.request, self.kinds, plan)
        better = not self.sheets or self._cost_of(sheets) < self._cost_of(self.sheets)
        if better and sound(self.request, sheets):
            self.sheets, self._plan = sheets, plan

    def _cost_of(self, sheets: Sequence[LaidSheet]) -> tuple[float, float, float]:
        """Return what sheets are compared by: price where it is known, sheets or millimetres, and the largest rest."""
        stocks = self.request.stocks
        length = [sheet.height_mm if stocks[sheet.stock].height_mm is None else 0.0 for sheet in sheets]
        cost = 0.0
        if priced(stocks):
            cost = sum((stocks[sheet.stock].price or 0.0) * (more / 1000.0 if more else 1.0)
                       for sheet, more in zip(sheets, length, strict=True))  # fmt: skip
        rests = [(sheet.rest[2] - sheet.rest[0]) * (sheet.rest[3] - sheet.rest[1]) for sheet in sheets if sheet.rest]
        used = sum(more or 1.0 for more in length)
        return round(cost, 6), used, -max(rests, default=0.0)
