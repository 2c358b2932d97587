"""Filling free rectangles one item after the other: the plain way, of use where little is laid or something is pinned.

Each item goes where the least of a free rectangle's shorter side is left over, and the rest is divided so that the
larger rectangle stays whole. Every cut goes from edge to edge of what it divides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from wrapwright.core.sheet.pack.values import Cut, Item

Size = tuple[int, int]
_MOST_FREE = 400  # rectangles looked at for each copy, the newest: large orders take no longer a copy than small ones


@dataclass(eq=False)
class Spot:
    """A rectangle that is being divided; free while it has no children and no item."""

    x: int
    y: int
    width: int
    height: int
    along: Literal["", "x", "y"] = ""
    children: list[Spot] = field(default_factory=list)
    item: int = -1
    turned: bool = False

    def free(self) -> list[Spot]:
        """Return the free rectangles in it."""
        if self.children:
            return [one for child in self.children for one in child.free()]
        return [self] if self.item < 0 and self.width > 0 and self.height > 0 else []

    def copied(self) -> Spot:
        """Return the same rectangle, to be divided on its own."""
        return replace(self, children=[child.copied() for child in self.children])

    def cut(self) -> Cut:
        """Return it as a cut tree."""
        return Cut(
            self.x, self.y, self.width, self.height, self.along, tuple(child.cut() for child in self.children),
            self.item, self.turned,
        )  # fmt: skip

    def divide(self, along: Literal["x", "y"], at: int) -> tuple[Spot, Spot]:
        """Return the two parts of a free rectangle that is cut at this distance from its left or lower edge."""
        if along == "x":
            parts = (
                Spot(self.x, self.y, at, self.height),
                Spot(self.x + at, self.y, self.width - at, self.height),
            )
        else:
            parts = (
                Spot(self.x, self.y, self.width, at),
                Spot(self.x, self.y + at, self.width, self.height - at),
            )
        self.along, self.children = along, list(parts)
        return parts

    def hold(self, item: int, size: Size, *, turned: bool) -> None:
        """Put an item into the lower left corner of a free rectangle; what stays free is divided by the longer rest."""
        over = (self.width - size[0], self.height - size[1])
        spot = self
        # The first cut leaves the larger of the two rests whole.
        order: tuple[Literal["x", "y"], ...] = ("x", "y")
        if over[0] * self.height < over[1] * self.width:
            order = ("y", "x")
        for along in order:
            axis = 0 if along == "x" else 1
            if over[axis] > 0:
                spot, _ = spot.divide(along, size[axis])
        spot.item, spot.turned = item, turned


def best_spot(spots: Sequence[Spot], item: Item) -> tuple[Spot, Size, bool] | None:
    """Return the free rectangle in which the least is left over beside an item, its sides there, and its turn."""
    width, height, _, may_turn = item
    best: tuple[int, int, Spot, Size, bool] | None = None
    for spot in spots:
        for turned in (False, True) if may_turn and width != height else (False,):
            size = (height, width) if turned else (width, height)
            over = (spot.width - size[0], spot.height - size[1])
            if min(over) < 0:
                continue
            key = (min(over), max(over))
            if best is None or key < best[:2]:
                best = (*key, spot, size, turned)
    return None if best is None else best[2:]


def filled(items: Sequence[Item], order: Sequence[int], sheet: Size, begun: Sequence[Spot] = ()) -> list[Spot]:
    """Return the sheets that hold all copies of the items, those that are begun first.

    Args:
        items: each fits an empty sheet; copies as given.
        order: item indices, in the order in which their copies are laid.
        sheet: sides of a new sheet.
        begun: sheets that hold something already.
    """
    sheets = list(begun)
    free = [one for begun_one in begun for one in begun_one.free()]
    for index in order:
        for _ in range(items[index][2]):
            found = best_spot(free, items[index])
            if found is None:
                new = Spot(0, 0, *sheet)
                sheets.append(new)
                free.append(new)
                found = best_spot([new], items[index])
            if found is None:
                raise ValueError(f"item {index} fits no sheet")
            spot, size, turned = found
            spot.hold(index, size, turned=turned)
            free.remove(spot)
            free += spot.free()
            if len(free) > _MOST_FREE:
                free = free[-_MOST_FREE:]
    return sheets


def fits(item: Item, room: Size) -> bool:
    """Return whether an item lies in a rectangle, turned where it may be."""
    width, height, _, turn = item
    return (width <= room[0] and height <= room[1]) or (turn and height <= room[0] and width <= room[1])
