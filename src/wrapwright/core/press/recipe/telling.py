"""A recipe and a heater in words, row by row."""

from __future__ import annotations

from wrapwright.core.base.heat_words import celsius_range_words, seconds_range_words, seconds_words, step_words
from wrapwright.core.base.units import mm_words
from wrapwright.core.press.recipe.stops import is_vacuum, limits_told
from wrapwright.core.press.recipe.values import Recipe
from wrapwright.core.press.values import Heater

HEATER_WORDS = {"oven": "convection oven", "mug-press": "mug press", "flat-press": "flat press"}
HOLD_WORDS = {"sleeve": "shrink sleeve", "tape": "tape", "clamp": "clamp", "none": "nothing"}
WARE_WORDS = {"double-walled": "double-walled vacuum ware", "unknown": "any ware"}


def recipe_words(recipe: Recipe) -> tuple[tuple[str, str], ...]:
    """Return what a recipe says, as (what, words) in the order of the work; what is not said is left out."""
    rows = (
        ("for", WARE_WORDS.get(recipe.ware, recipe.ware)),
        ("wall", wall_words(recipe)),
        ("coating", recipe.coating),
        ("ink and paper", recipe.ink_paper),
        ("held by", HOLD_WORDS.get(recipe.hold, recipe.hold)),
        ("pressure", recipe.pressure),
        ("in", f"{HEATER_WORDS.get(recipe.heater, recipe.heater)}, {'preheated' if recipe.preheat else 'from cold'}"),
        ("set to", celsius_range_words(recipe.celsius)),
        ("dwell", f"{seconds_range_words(recipe.seconds)}, from the door closing"),
        ("turned", turn_words(recipe)),
        ("cooled", cool_words(recipe)),
        ("source", recipe.source),
        *((what, f"{figure} ({source})") for what, figure, source in limits_told(recipe)),
    )
    return tuple((what, words) for what, words in rows if words)


def wall_words(recipe: Recipe) -> str:
    """Return the wall in words; "" when nothing is known of it."""
    wall = recipe.wall
    thick = mm_words(wall.thickness_mm, digits=2) if wall.thickness_mm is not None else ""
    what = " ".join(one for one in (thick, wall.material) if one)
    if is_vacuum(recipe) and what:
        return f"{what}, outer shell"
    return what


def turn_words(recipe: Recipe) -> str:
    """Return when the piece is turned; "" for never."""
    if not recipe.turn_at:
        return ""
    if recipe.turn_at == (0.5,):
        return "half-way"
    return "after " + ", ".join(f"{100 * one:.0f} %" for one in recipe.turn_at) + " of the dwell"


def cool_words(recipe: Recipe) -> str:
    """Return how the piece is cooled, and for how long."""
    time = f"{seconds_words(recipe.cool_s)} before it is unwrapped" if recipe.cool_s else ""
    return "; ".join(one for one in (recipe.cool, time) if one)


def heater_words(heater: Heater) -> tuple[tuple[str, str], ...]:
    """Return what a heater's figures say, as (what, words)."""
    film = heater.film
    reads = "more" if heater.offset_k > 0 else "less"
    offset = f"{step_words(abs(heater.offset_k))} {reads} than it is set to" if heater.offset_k else "as it is set"
    return (
        ("kind", HEATER_WORDS[heater.kind]),
        ("rated power", f"{heater.power_w:g} W"),
        ("holds", f"{heater.capacity} {'piece' if heater.capacity == 1 else 'pieces'}"),
        ("true temperature", f"{offset}, give or take {step_words(heater.offset_half_k)}"),
        ("band of the thermostat", step_words(heater.band_k)),
        ("surface coefficient", f"{film.mid:g} W/m²K ({film.low:g} to {film.high:g})"),
        ("loss to the room", f"{heater.loss_w_k:g} W/K, door open {heater.door_w_k:g} W/K more"),
        ("takes up itself", f"{heater.own_j_k:g} J/K"),
        ("source", heater.source),
    )
