"""What speaks against keeping a recipe: ranges that cannot be, and heat beyond its own limits."""

from __future__ import annotations

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.heat_words import celsius_words, seconds_words
from wrapwright.core.base.nearest import nearest
from wrapwright.core.press.recipe.stops import is_vacuum, upper_bounds
from wrapwright.core.press.recipe.values import DYE_TRANSFER, LONGEST_S, SHORTEST_S, Recipe
from wrapwright.data.heat.tables import rows

_THICKEST_MM = 50.0
_LONGEST_COOL_S = 24 * 3600.0


def problems_of(recipe: Recipe) -> list[WrapwrightError]:
    """Return all that has to be mended before a recipe can be kept; empty when nothing has."""
    return [*_heat(recipe), *_dwell(recipe), *_wall(recipe), *_rest(recipe), *_sources(recipe)]


def _heat(recipe: Recipe) -> list[WrapwrightError]:
    low, high = recipe.celsius
    if low > high:
        message = f"{celsius_words(low)} to {celsius_words(high)} runs backwards."
        return [unusable(message, remedy="Give the lower temperature first.", where="celsius")]
    found = []
    if low < DYE_TRANSFER.value:
        message = (
            f"{celsius_words(low)} is below {celsius_words(DYE_TRANSFER.value)}, from where dye goes over "
            f"({DYE_TRANSFER.source})."
        )
        found.append(unusable(message, remedy="Set it hotter.", where="celsius"))
    for one in upper_bounds(recipe)[:1]:
        if high > one.celsius:
            limit = f"{celsius_words(one.celsius)} ({one.source or 'no source'})"
            message = f"{celsius_words(high)} is above {one.what}, {limit}."
            found.append(
                unusable(message, remedy="Set it no hotter, or give the limit with its source.", where="celsius")
            )
    return found


def _dwell(recipe: Recipe) -> list[WrapwrightError]:
    short, long = recipe.seconds
    if short > long:
        message = f"{seconds_words(short)} to {seconds_words(long)} runs backwards."
        return [unusable(message, remedy="Give the shorter time first.", where="seconds")]
    found = []
    if short < SHORTEST_S.value:
        message = f"a dwell of {seconds_words(short)} is shorter than {seconds_words(SHORTEST_S.value)}."
        found.append(unusable(message, remedy="Give the time from the door closing.", where="seconds"))
    if long > LONGEST_S.value:
        message = f"a dwell of {seconds_words(long)} is longer than {seconds_words(LONGEST_S.value)}."
        found.append(unusable(message, remedy="Are minutes meant where hours stand?", where="seconds"))
    bound = recipe.limits.over_bake_s
    if bound is not None and long > bound:
        message = f"{seconds_words(long)} goes past the recipe's own over-bake bound, {seconds_words(bound)}."
        found.append(unusable(message, remedy="Shorten the dwell.", where="seconds"))
    return found


def _wall(recipe: Recipe) -> list[WrapwrightError]:
    wall, found = recipe.wall, []
    if wall.thickness_mm is not None and not 0 < wall.thickness_mm <= _THICKEST_MM:
        message = f"a wall of {wall.thickness_mm:g} mm is not above 0 and at most {_THICKEST_MM:g} mm."
        found.append(unusable(message, remedy="Give what was measured, or leave it out.", where="wall: thickness_mm"))
    known = [row["name"] for row in rows("material")]
    if wall.material and wall.material not in known:
        near = nearest(wall.material, known)
        remedy = f'Is "{near}" meant?' if near else f"Known are {', '.join(known)}."
        found.append(unusable(f'"{wall.material[:40]}" is no known material.', remedy=remedy, where="wall: material"))
    if is_vacuum(recipe) and recipe.heater != "oven":
        message = "double-walled ware is not pressed: the outer shell dents."
        found.append(unusable(message, remedy="Heat it in an oven.", where="heater"))
    return found


def _rest(recipe: Recipe) -> list[WrapwrightError]:
    found = []
    if not 0 <= recipe.cool_s <= _LONGEST_COOL_S:
        message = f"cooling for {recipe.cool_s:g} s is not between nought and a day."
        found.append(unusable(message, remedy="Give it again.", where="cool_s"))
    turns = recipe.turn_at
    if any(not 0 < one < 1 for one in turns) or list(turns) != sorted(set(turns)):
        message = "turns are shares of the dwell, each between 0 and 1 and later than the one before."
        found.append(unusable(message, remedy="Half-way is 0.5.", where="turn_at"))
    bounds = (("over_bake", recipe.limits.over_bake), ("over_bake_s", recipe.limits.over_bake_s))
    for key, value in bounds:
        if value is not None and value <= 0:
            found.append(unusable(f"{value:g} is not above nought.", remedy="Leave it out.", where=f"limits: {key}"))
    return found


def _sources(recipe: Recipe) -> list[WrapwrightError]:
    """Return a problem for every limit without a source: a figure whose origin nobody knows is no limit."""
    limits = recipe.limits
    over = limits.over_bake is not None or limits.over_bake_s is not None
    asked = (
        ("coating_source", True, limits.coating_source),
        ("sleeve_source", True, limits.sleeve_source),
        ("maker_source", limits.maker_c is not None, limits.maker_source),
        ("over_bake_source", over, limits.over_bake_source),
    )
    remedy = 'Say where it comes from: the maker\'s sheet, own trials, or "common practice, no source".'
    return [
        unusable("this limit has no source.", remedy=remedy, where=f"limits: {key}")
        for key, given, source in asked
        if given and not source
    ]
