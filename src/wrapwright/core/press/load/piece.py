"""One piece as its heat is reckoned: the wall from what is known of it, the heated face from its girths."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from wrapwright.core.press.heat.known import cover_named, material_named
from wrapwright.core.press.recipe.stops import is_vacuum
from wrapwright.core.press.recipe.values import Recipe
from wrapwright.core.press.values import Cover, Wall

# A tumbler of 235 mm girth and 165 mm height with its base; taken where nothing was measured. Common practice, no
# source. It only says how much of the heater's power the pieces share: the wall's own time does not hang on it.
USUAL_FACE_M2 = 0.043


def face_m2(profile: Sequence[tuple[float, float]]) -> float:
    """Return the heated outer face of one piece, m2: wall and base.

    Args:
        profile: (position along the wall, girth), mm, lowest first; two at least.
    """
    wall = sum((high - low) * (one + other) / 2.0 for (low, one), (high, other) in pairwise(profile))
    base = profile[0][1] ** 2 / (4.0 * math.pi)
    return (wall + base) / 1e6


def wall_of(
    recipe: Recipe, thickness_mm: float, face: float = USUAL_FACE_M2, *, material: str = "", double: bool | None = None
) -> Wall:
    """Return a wall of that thickness; what is not said of it is the recipe's.

    Raises:
        WrapwrightError: unusable; no such material.
    """
    name = material or recipe.wall.material or recipe.ware
    vacuum = is_vacuum(recipe) if double is None else double
    return Wall(material_named(name), thickness_mm, face, vacuum)


def as_walled(recipe: Recipe, *, double: bool) -> Recipe:
    """Return the recipe as its limits are looked at: for vacuum ware where the wall is double, whatever it is for."""
    if not double or recipe.wall.double:
        return recipe
    return replace(recipe, wall=replace(recipe.wall, double=True))


def covers_of(recipe: Recipe) -> tuple[Cover, ...]:
    """Return what lies over the coating by a recipe: its sleeve, where it has one, and the paper."""
    names = ("sleeve", "paper") if recipe.hold == "sleeve" else ("paper",)
    return tuple(cover_named(one) for one in names)


def middle_c(recipe: Recipe) -> float:
    """Return the middle of a recipe's temperatures to the nearest 5 degrees within them: what a knob is set to."""
    low, high = recipe.celsius
    middle = math.floor((low + high) / 10.0 + 0.5) * 5.0
    return middle if low <= middle <= high else (low + high) / 2.0
