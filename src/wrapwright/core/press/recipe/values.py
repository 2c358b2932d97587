"""What a recipe holds, and the figures that its heat is held against."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.data.recipes import COMMON, Hold, Limits, Recipe, RecipeWall

__all__ = ["COMMON", "Bound", "Hold", "Limits", "Recipe", "RecipeWall"]


@dataclass(frozen=True)
class Bound:
    """A figure that the heat is held against, and where it comes from."""

    value: float
    source: str


# Vapour transfer is printed at 170-220 C: "transfer printing", textile glossary, textileindonesia.com/kb.
DYE_TRANSFER = Bound(170.0, "published range of vapour transfer printing, 170-220 °C")
VACUUM = Bound(205.0, COMMON)  # of double-walled ware whose maker names no limit
SHORTEST_S = Bound(10.0, "our own choice: nothing that is pressed by hand is done sooner")
LONGEST_S = Bound(3600.0, "our own choice: no recipe of the trade is near it")
HOTTEST_C = 260.0  # above this no heater of the trade is set: a figure beyond it was meant in Fahrenheit
