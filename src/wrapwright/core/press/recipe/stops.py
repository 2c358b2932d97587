"""The limits that stop a heat: too cold for the dye, too hot for the ware, too long for the print."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.base.heat_words import celsius_words, seconds_words, step_words
from wrapwright.core.press.recipe.values import DYE_TRANSFER, LONGEST_S, SHORTEST_S, VACUUM, Recipe
from wrapwright.core.press.values import REFERENCE_C, Dose, Window


@dataclass(frozen=True)
class Upper:
    """A temperature that must not be passed: its rule, whose limit it is, the figure and its source."""

    rule: str
    what: str
    celsius: float
    source: str


def upper_bounds(recipe: Recipe) -> tuple[Upper, ...]:
    """Return every temperature that a recipe's heat must not pass, the lowest first.

    Vacuum ware whose maker names no limit is held to 205 degrees Celsius (common practice, no source).
    """
    limits = recipe.limits
    found = [Upper("heat-coating", "the coating's limit", limits.coating_c, limits.coating_source)]
    if recipe.hold == "sleeve":
        found.append(Upper("heat-sleeve", "the sleeve's limit", limits.sleeve_c, limits.sleeve_source))
    if limits.maker_c is not None:
        found.append(Upper("heat-maker", "the maker's limit", limits.maker_c, limits.maker_source))
    elif is_vacuum(recipe):
        what = "the limit of vacuum ware whose maker names none"
        found.append(Upper("heat-vacuum", what, VACUUM.value, VACUUM.source))
    return tuple(sorted(found, key=lambda one: one.celsius))


def limits_told(recipe: Recipe) -> tuple[tuple[str, str, str], ...]:
    """Return what a recipe's heat must not go beyond, as (what, the figure in words, its source)."""
    rows = [(one.what, celsius_words(one.celsius), one.source) for one in upper_bounds(recipe)]
    limits = recipe.limits
    if limits.over_bake_s is not None:
        rows.append(("longest dwell", seconds_words(limits.over_bake_s), limits.over_bake_source))
    if limits.over_bake is not None:
        rows.append(
            ("over-bake bound", f"{limits.over_bake:g} min at {celsius_words(REFERENCE_C)}", limits.over_bake_source)
        )
    if limits.over_bake_s is None and limits.over_bake is None:
        rows.append(("over-bake bound", "not known yet", "accepted trials give it"))
    return tuple(rows)


def is_vacuum(recipe: Recipe) -> bool:
    """Return whether a recipe is for double-walled vacuum ware."""
    return recipe.wall.double or recipe.ware == "double-walled"


def stops(
    recipe: Recipe,
    set_c: float,
    dwell_s: float,
    *,
    offset_k: float = 0.0,
    offset_half_k: float = 0.0,
    dose: Dose | None = None,
    window: Window | None = None,
) -> tuple[Finding, ...]:
    """Return what speaks against heating so: errors stop it, warnings are told.

    The heater is set to `set_c` for `dwell_s` seconds from the door closing. `offset_k` is its true temperature less
    what is set, as far as known, with the half-width `offset_half_k`. `dose` is what that heat comes to, None where
    it is not reckoned; `window` holds the bounds known from trials, but the recipe's own bound goes before.
    """
    found = [*_cold(set_c, offset_k), *_hot(recipe, set_c, offset_k, offset_half_k), *_time(recipe, dwell_s)]
    if dose is not None:
        found += _over_baked(recipe, dose, window)
    return tuple(found)


def _cold(set_c: float, offset_k: float) -> list[Finding]:
    true, limit = set_c + offset_k, DYE_TRANSFER
    if true >= limit.value:
        return []
    message = (
        f"{_told(set_c, offset_k)} is below {celsius_words(limit.value)}, from where dye goes over "
        f"({limit.source}). Set it hotter."
    )
    return [Finding("heat-cold", Severity.ERROR, message, figure=true, limit=limit.value, unit="°C")]


def _hot(recipe: Recipe, set_c: float, offset_k: float, half_k: float) -> list[Finding]:
    true, found = set_c + offset_k, []
    for one in upper_bounds(recipe):
        limit = f"{one.what}, {celsius_words(one.celsius)} ({one.source})"
        if true > one.celsius:
            message = f"{_told(set_c, offset_k)} is above {limit}. Set it no hotter than that."
            found.append(Finding(one.rule, Severity.ERROR, message, figure=true, limit=one.celsius, unit="°C"))
        elif true + half_k > one.celsius:
            message = (
                f"{_told(set_c, offset_k)} may be {step_words(half_k)} more than that, which is above {limit}. "
                "Look with a second thermometer before it heats."
            )
            found.append(
                Finding(one.rule, Severity.WARNING, message, figure=true + half_k, limit=one.celsius, unit="°C")
            )
    return found[:1]


def _time(recipe: Recipe, dwell_s: float) -> list[Finding]:
    told = seconds_words(dwell_s)
    if dwell_s < SHORTEST_S.value:
        message = f"A dwell of {told} is shorter than {seconds_words(SHORTEST_S.value)} ({SHORTEST_S.source})."
        return [Finding("heat-dwell", Severity.ERROR, message, figure=dwell_s, limit=SHORTEST_S.value, unit="s")]
    if dwell_s > LONGEST_S.value:
        message = f"A dwell of {told} is longer than {seconds_words(LONGEST_S.value)} ({LONGEST_S.source})."
        return [Finding("heat-dwell", Severity.ERROR, message, figure=dwell_s, limit=LONGEST_S.value, unit="s")]
    bound = recipe.limits.over_bake_s
    if bound is not None and dwell_s > bound:
        message = (
            f"A dwell of {told} goes past the over-bake bound of {recipe.title}, {seconds_words(bound)} "
            f"({recipe.limits.over_bake_source})."
        )
        return [Finding("heat-long", Severity.ERROR, message, figure=dwell_s, limit=bound, unit="s")]
    return []


def _over_baked(recipe: Recipe, dose: Dose, window: Window | None) -> list[Finding]:
    bound = recipe.limits.over_bake
    if bound is not None:
        low, high, source = bound, bound, recipe.limits.over_bake_source
    elif window is not None and window.high is not None:
        (low, high), source = window.high, window.source
    else:
        return []
    about = f"{dose.mid:.1f} min at {celsius_words(REFERENCE_C)} (between {dose.low:.1f} and {dose.high:.1f})"
    if dose.mid > high:
        message = f"The dose, {about}, goes past the over-bake bound, {high:.1f} min ({source}). Take it out sooner."
        return [Finding("heat-long", Severity.ERROR, message, figure=dose.mid, limit=high, unit="min")]
    if dose.high > low:
        message = f"The dose, {about}, may go past the over-bake bound, {low:.1f} min ({source})."
        return [Finding("heat-long", Severity.WARNING, message, figure=dose.high, limit=low, unit="min")]
    return []


def _told(set_c: float, offset_k: float) -> str:
    if not offset_k:
        return celsius_words(set_c)
    less = "more" if offset_k > 0 else "less"
    return f"{celsius_words(set_c)} as set, {step_words(abs(offset_k))} {less} as measured,"
