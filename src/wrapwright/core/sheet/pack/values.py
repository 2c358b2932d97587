"""How a sheet is divided by cuts from edge to edge, in whole numbers (hundredths of a millimetre in the product)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

# Width, height, copies, whether it may be turned by a quarter.
Item = tuple[int, int, int, bool]


@dataclass(frozen=True)
class Cut:
    """A rectangle and how cuts divide it.

    A rectangle with children is divided by cuts square to `along`: "x" puts them side by side from left to right, "y"
    on top of each other from the bottom up. Together they fill it. One without children holds one copy of an item
    that fills it wholly (item >= 0) or is waste (item < 0).

    Attributes:
        x, y: its lower left corner; the sheet's is (0, 0).
        width, height: its sides.
        along: "x", "y" or, without children, "".
        children: what it is divided into.
        item: index into the items asked for, or -1.
        turned: whether the item lies turned by a quarter.
    """

    x: int
    y: int
    width: int
    height: int
    along: Literal["", "x", "y"] = ""
    children: tuple[Cut, ...] = ()
    item: int = -1
    turned: bool = False


# The Cut of a whole sheet.
CutBin = Cut
