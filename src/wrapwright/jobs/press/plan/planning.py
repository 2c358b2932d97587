"""The dwell that a load wants, with its band, its curves and what moves it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.plan.values import Asked, PlanHeat, Planned

if TYPE_CHECKING:
    from wrapwright.core.press.load.values import Aim
    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.core.press.values import Wall, Window
    from wrapwright.jobs.press.kept.heaters import HeaterKept

_SHOWN = 1.35  # the curves go on so far past the dwell


def plan_heat(request: PlanHeat, bench: Bench, watch: Watch) -> Planned:
    """Return what a load wants and what its dwell does.

    Raises:
        WrapwrightError: unusable for figures that cannot be, a wall that is missing among them; missing for no such
            recipe or heater.
    """
    watch.step("reckoning the heat", 0.1)
    asked = asked_of(request, bench)
    key = ("plan", asked.recipe, asked.heater.heater, asked.load, asked.dwell_s, asked.capacity, asked.window)
    found: Planned = bench.recent.heats.get(key, lambda: planned_of(asked))
    return replace(found, asked=asked)


def asked_of(request: PlanHeat, bench: Bench) -> Asked:
    """Return the load in its heater, every name found and every figure within its limits; nothing is reckoned yet.

    Raises:
        WrapwrightError: as `plan_heat`.
    """
    from wrapwright.core.press.load.asked import dwell_s, pieces, power_w, set_celsius
    from wrapwright.core.press.load.piece import covers_of, middle_c
    from wrapwright.core.press.values import Load
    from wrapwright.jobs.press.kept.recipes import recipe_named

    recipe = recipe_named(request.recipe, bench) if isinstance(request.recipe, str) else request.recipe
    if recipe is None:
        raise unusable("no recipe is named.", remedy="Name one: the dwell follows from it.", where="recipe")
    kept = heater_for(request.heater, request.heater_id, recipe, bench)
    heater = kept.heater
    if request.power_w is not None:
        heater = replace(heater, power_w=power_w(request.power_w, where="power"))
    # What an oven to start from holds is an estimate; what the workshop's own holds was entered.
    most = max(request.capacity or 0, heater.capacity, request.pieces if kept.id == 0 and heater.kind == "oven" else 0)
    most = request.capacity or most
    count = pieces(request.pieces, capacity=most, where="pieces")
    wall, wall_given = _wall(request, recipe)
    if wall.double and heater.kind != "oven":
        message = "double-walled ware is not pressed: the outer shell dents."
        raise unusable(message, remedy="Heat it in an oven.", where="heater")
    set_c = middle_c(recipe) if request.set_c is None else set_celsius(request.set_c, where="at")
    hot = recipe.preheat if request.preheated is None else request.preheated
    load = Load(wall, count, covers_of(recipe), set_c, preheated=hot)
    dwell = None if request.dwell_s is None else dwell_s(request.dwell_s, where="dwell")
    kept = replace(kept, heater=replace(heater, capacity=most))
    return Asked(
        recipe,
        kept,
        load,
        wall_from="given" if wall_given else "recipe",
        dwell_s=dwell,
        face_given=request.face_m2 is not None,
        capacity=most,
        window=bounds_for(recipe, bench),
    )


def _wall(request: PlanHeat, recipe: Recipe) -> tuple[Wall, bool]:
    """Return the wall, and whether it was given."""
    from wrapwright.core.press.load.asked import wall_mm
    from wrapwright.core.press.load.piece import USUAL_FACE_M2, wall_of

    own = recipe.wall.thickness_mm if request.recipe_wall else None
    thickness = request.wall_mm if request.wall_mm is not None else own
    if thickness is None:
        raise unusable(
            "the wall's thickness is missing, and without it nothing is estimated.",
            remedy="Measure it at the rim with a calliper; of double-walled ware give the outer shell's.",
            where="wall",
        )
    face = USUAL_FACE_M2 if request.face_m2 is None else request.face_m2
    wall = wall_of(recipe, wall_mm(thickness, where="wall"), face, material=request.material, double=request.double)
    return wall, request.wall_mm is not None


def heater_for(name: str, number: int, recipe: Recipe, bench: Bench) -> HeaterKept:
    """Return the heater of a number, of a name, of a kind to start from, or else one of the recipe's kind.

    Raises:
        WrapwrightError: missing, with the names there are.
    """
    from wrapwright.core.press.recipe.heater import KINDS, starter_of
    from wrapwright.jobs.press.kept.heaters import HeaterKept, ShowHeater, heater_named, show_heater

    if number:
        return show_heater(ShowHeater(number), bench, Watch())
    wanted = name.strip() or recipe.heater
    try:
        return heater_named(wanted, bench)
    except WrapwrightError as problem:
        kind = wanted.casefold()
        if problem.kind not in {Kind.MISSING, Kind.UNREACHABLE} or kind not in KINDS:
            raise
        starter = starter_of(kind)
        return HeaterKept(0, starter.name, starter, starter.power_w)


def bounds_for(recipe: Recipe, bench: Bench) -> Window:
    """Return the dose's bounds as they are known: by accepted trials; a recipe's own over-bake bound goes before."""
    from wrapwright.core.press.values import Window
    from wrapwright.jobs.press.trial.windows import window_for

    found, bound = window_for(recipe, bench), recipe.limits.over_bake
    if bound is None:
        return found
    return Window(found.low, (bound, bound), recipe.limits.over_bake_source)


def aim_for(asked: Asked) -> Aim:
    """Return the dose that is wanted of a load: between the known bounds, else what the recipe gives its own wall.

    A recipe that names no wall is taken to be for a wall like the load's own.
    """
    from wrapwright.core.press.load.aim import aim_of, recipe_aim
    from wrapwright.core.press.load.piece import wall_of
    from wrapwright.core.press.recipe.heater import KINDS, starter_of
    from wrapwright.core.press.values import Load

    recipe, load = asked.recipe, asked.load
    own = recipe.wall.thickness_mm
    named = recipe.wall.material or recipe.ware not in ("", "unknown")
    material = "" if named else load.wall.material.name
    wall = load.wall if own is None else wall_of(recipe, own, load.wall.area_m2, material=material)
    kind = recipe.heater if recipe.heater in KINDS else asked.heater.heater.kind
    low, high = recipe.celsius
    one = Load(wall, 1, load.covers, (low + high) / 2.0, preheated=recipe.preheat)
    return aim_of(asked.window, recipe_aim(starter_of(kind), one, recipe.seconds))


def planned_of(asked: Asked) -> Planned:
    """Return what a load wants and what its dwell does."""
    from wrapwright.core.press.dose.band import dose_bands
    from wrapwright.core.press.load.piece import as_walled
    from wrapwright.core.press.load.recommend import recommend
    from wrapwright.core.press.load.sensitivity import sensitivity
    from wrapwright.core.press.load.telling import rounded_s
    from wrapwright.core.press.recipe.stops import stops
    from wrapwright.jobs.press.plan.saying import words_of

    heater, load = asked.heater.heater, asked.load
    aim = aim_for(asked)
    rows = recommend(heater, load, aim, asked.capacity)
    chosen = rows[load.pieces - 1]
    dwell = asked.dwell_s
    if dwell is None:
        dwell = rounded_s(chosen.dwell_s.mid) if math.isfinite(chosen.dwell_s.mid) else asked.recipe.seconds[1]
    most = chosen.dwell_s.high if math.isfinite(chosen.dwell_s.high) else dwell
    shown = math.ceil(max(dwell * _SHOWN, min(most, 2.0 * dwell) * 1.05) / 10.0) * 10.0
    at_dwell, whole = dose_bands(heater, load, (dwell, shown))
    band = replace(whole, dose=at_dwell.dose, shares=at_dwell.shares)
    against = stops(
        as_walled(asked.recipe, double=load.wall.double),
        load.set_c,
        dwell,
        offset_k=heater.offset_k,
        offset_half_k=heater.offset_half_k,
        dose=band.dose,
        window=aim.window,
    )
    found = Planned(asked, aim, rows, chosen, dwell, band, sensitivity(heater, load, dwell), against)
    return replace(found, words=words_of(found))
