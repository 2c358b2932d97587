"""What is cut from which sheets, and the answer; lengths are whole (hundredths of a millimetre in the product)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.values import Cut, Item

# Width, height, cost of one sheet (a whole number or a price), sheets at hand or None for as many as are wanted.
Bin = tuple[int, int, float, int | None]
MOST_COPIES = 1_000_000
MOST_TYPES = 2_000


class StockPattern(NamedTuple):
    """One way of cutting a sheet, and how often: index of the sheet's kind, its cuts, times."""

    bin: int
    cut: Cut
    times: int


@dataclass(frozen=True)
class StockAnswer:
    """How the order is cut.

    Attributes:
        patterns: what is cut how often; the copies together are at least those ordered (see `spare`).
        bound: no way of cutting this order edge to edge costs less (counts fewer sheets when each costs 1).
        proven: whether the cost equals the bound and nothing is missing.
        cost: of all sheets used; their number when each costs 1.
        missing: copies of each item that the sheets at hand do not yield; all zero when the order is filled.
        spare: copies of each item that lie on the sheets beyond the order, because a pattern is repeated whole.
    """

    patterns: tuple[StockPattern, ...]
    bound: float
    proven: bool
    cost: float
    missing: tuple[int, ...] = ()
    spare: tuple[int, ...] = ()

    @property
    def sheets(self) -> int:
        """How many sheets are cut."""
        return sum(pattern.times for pattern in self.patterns)


@dataclass(frozen=True)
class Order:
    """The checked call: items, sheets, and the costs as whole numbers of a common unit."""

    items: tuple[Item, ...]
    bins: tuple[Bin, ...]
    costs: tuple[int, ...]
    unit: Fraction

    @property
    def copies(self) -> tuple[int, ...]:
        """How many of each item are ordered."""
        return tuple(item[2] for item in self.items)

    def money(self, whole: int) -> float:
        """Return a cost in the caller's own unit: a whole number where it is one."""
        exact = whole * self.unit
        return int(exact) if exact.denominator == 1 else float(exact)


def order(items: Sequence[Item], bins: Sequence[Bin]) -> Order:
    """Return the call with whole costs; refuse what cannot be meant or fits no sheet, with its figure."""
    if not bins:
        raise WrapwrightError(Kind.UNUSABLE, "There is no sheet to cut from.", remedy="Name at least one paper.")
    if len(items) > MOST_TYPES:
        raise WrapwrightError(
            Kind.UNUSABLE, f"{len(items)} different sizes are more than {MOST_TYPES}.", remedy="Split the order."
        )
    for index, (width, height, cost, hand) in enumerate(bins):
        if width <= 0 or height <= 0 or cost <= 0 or (hand is not None and hand < 0):
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Sheet {index + 1} is {width} x {height} at {cost}, {hand} at hand; sides and cost must be above 0.",
                remedy="Correct the paper.",
            )
    for index, item in enumerate(items):
        _check_item(index, item, bins)
    prices = [Fraction(cost).limit_denominator(10_000) for _, _, cost, _ in bins]
    unit = Fraction(1, lcm(*(price.denominator for price in prices)))
    costs = tuple(max(1, int(price / unit)) for price in prices)
    return Order(tuple(items), tuple(bins), costs, unit)


def _check_item(index: int, item: Item, bins: Sequence[Bin]) -> None:
    width, height, copies, turn = item
    if width <= 0 or height <= 0 or not 0 <= copies <= MOST_COPIES:
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"Item {index + 1} is {width} x {height}, {copies} times; sides must be above 0 and copies 0 to "
            f"{MOST_COPIES}.",
            remedy="Correct the order.",
        )
    if not any(fits(item, (bin_[0], bin_[1])) for bin_ in bins):
        turned = "turned or not" if turn else "without turning"
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"Item {index + 1}, {width} x {height}, fits no sheet {turned}.",
            remedy="Take a larger paper, or split it into panels.",
        )


def fits(item: Item, bin_: tuple[int, int]) -> bool:
    """Return whether one copy lies in the rectangle, turned where it may be."""
    width, height, _, turn = item
    straight = width <= bin_[0] and height <= bin_[1]
    return straight or (turn and height <= bin_[0] and width <= bin_[1])
