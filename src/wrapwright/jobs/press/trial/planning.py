"""Plan a trial: which heats its coupons get, and how few of them do."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.values import PlanTrial, Setting, TrialPlan, TrialTold

if TYPE_CHECKING:
    from wrapwright.core.press.trial.plan import Expected, Weighed
    from wrapwright.data.recipes import Recipe

POSITIONS, STRIP = "positions", "strip"
USUAL_PLACES = 8


def plan_trial(request: PlanTrial, bench: Bench, watch: Watch) -> TrialTold:
    """Return the trial that was planned and kept.

    Raises:
        WrapwrightError: unusable for temperatures, times, numbers, a wall or a certainty that cannot be, and for heat
            that the recipe's own limits stop; missing for no such recipe or heater; refused when the name is taken.
    """
    from wrapwright.jobs.press.trial.keeping import told_of
    from wrapwright.jobs.press.trial.plain import plan_table
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.press.trials import add_trial_row, trial_kept

    name = named(request.name, what="trial")
    plan = planned(request, bench, watch)
    recipe = _recipe(request, bench)
    with bench.kept().writing() as connection:
        number = add_trial_row(connection, name, recipe.id, plan_table(plan), bench.clock())
        row = trial_kept(connection, id=number)
    return told_of(row, bench, proposed=False)


def planned(request: PlanTrial, bench: Bench, watch: Watch) -> TrialPlan:
    """Return the plan, not kept.

    Raises:
        WrapwrightError: as `plan_trial`, but for the name.
    """
    from wrapwright.core.press.trial.asked import count_asked, settings_asked, wish_asked
    from wrapwright.jobs.press.plan.planning import heater_for
    from wrapwright.jobs.press.trial.beds import bed_of, expected_of, plan_for

    wish_asked(request.within, request.sure)
    settings_asked(request.celsius, request.seconds)
    if request.pieces is not None:
        count_asked(request.pieces, request.kind)
    recipe = _recipe(request, bench)
    kept = heater_for(request.heater, request.heater_id, recipe, bench)
    plan = plan_for(request, recipe, kept)
    celsius = _celsius(request, recipe)
    _within_limits(celsius, recipe)
    watch.step("weighing how few coupons do", 0.2)
    expected = expected_of(recipe, kept, plan.wall_mm)
    plan = replace(plan, celsius=celsius, expected=(expected.low, expected.high))
    settings, total, weighed = _settings(request, recipe, plan, expected, bench)
    watch.step("reckoning their doses", 0.8)
    bed_of(plan, bench)
    plan = replace(plan, settings=settings, total=max(total, len(settings)))
    return plan if weighed is None else replace(plan, chance=weighed[0].sure, at_once=weighed[1])


def _recipe(request: PlanTrial, bench: Bench) -> Recipe:
    from wrapwright.jobs.press.kept.recipes import recipe_named

    recipe = recipe_named(request.recipe.strip() or None, bench)
    if recipe is None:
        raise unusable("no recipe is named.", remedy="Name the one whose window is wanted.", where="recipe")
    return recipe


def _celsius(request: PlanTrial, recipe: Recipe) -> tuple[float, ...]:
    """Return the temperatures to try, the coolest first; a strip and positions have one."""
    from wrapwright.core.press.load.piece import middle_c

    if request.kind in (STRIP, POSITIONS):
        if len(request.celsius) > 1:
            what = "a strip" if request.kind == STRIP else "one heat"
            raise unusable(
                f"{what} has one temperature, and {len(request.celsius)} are given.",
                remedy="Give one, or plan coupons.",
                where="celsius",
            )
        return request.celsius or (middle_c(recipe),)
    low, high = recipe.celsius
    return tuple(sorted(set(request.celsius or (low, middle_c(recipe), high))))


def _within_limits(celsius: tuple[float, ...], recipe: Recipe) -> None:
    """Refuse temperatures that the recipe's own limits stop: the coating's, the sleeve's, the maker's.

    Raises:
        WrapwrightError: unusable.
    """
    from wrapwright.core.base.heat_words import celsius_words
    from wrapwright.core.press.recipe.stops import upper_bounds

    hottest = max(celsius)
    for one in upper_bounds(recipe):
        if hottest > one.celsius:
            limit = f"{one.what}, {celsius_words(one.celsius)} ({one.source})"
            message = f"{celsius_words(hottest)} is above {limit}."
            raise unusable(message, remedy="Try it no hotter, or put the right limit in the recipe.", where="celsius")


def _settings(
    request: PlanTrial, recipe: Recipe, plan: TrialPlan, expected: Expected, bench: Bench
) -> tuple[tuple[Setting, ...], int, tuple[Weighed, int | None] | None]:  # fmt: skip
    """Return the coupons' heats, how many are expected in all, and how the plan was weighed."""
    from wrapwright.core.press.trial.asked import FEWEST, MOST_HEATS, count_asked
    from wrapwright.core.press.trial.one_by_one import fewest_one_by_one
    from wrapwright.core.press.trial.plan import designed, fewest, heats_for_strip
    from wrapwright.jobs.press.trial.beds import bed_of

    if request.kind == POSITIONS:
        heat = _one_heat(request, recipe, plan)
        places = request.pieces or USUAL_PLACES
        return (heat,) * places, places, None
    bed = bed_of(plan, bench)
    if request.seconds:
        grid = tuple(product(plan.celsius, sorted(set(request.seconds))))
        count_asked(len(grid), request.kind)
        return (tuple(reversed(grid)) if request.kind == STRIP else grid), len(grid), None
    if request.kind == STRIP:
        weighed = fewest(expected, request.within, request.sure, most=MOST_HEATS)[0]
        count = request.pieces or weighed.pieces
        heats = heats_for_strip(bed, plan.celsius[0], expected, count)
        return heats, count, None if request.pieces else (weighed, None)
    if request.pieces:
        return designed(bed, plan.celsius, expected, request.pieces), request.pieces, None
    at_once = fewest(expected, request.within, request.sure)[0]
    enough = at_once.pieces if at_once.sure >= request.sure else None
    if not request.one_by_one:
        return designed(bed, plan.celsius, expected, at_once.pieces), at_once.pieces, (at_once, enough)
    weighed = fewest_one_by_one(expected, request.within, request.sure)
    return designed(bed, plan.celsius, expected, FEWEST), weighed.pieces, (weighed, enough)


def _one_heat(request: PlanTrial, recipe: Recipe, plan: TrialPlan) -> Setting:
    if len(request.seconds) > 1:
        message = f"one heat has one time, and {len(request.seconds)} are given."
        raise unusable(message, remedy="Give one, or plan coupons.", where="dwell")
    seconds = request.seconds[0] if request.seconds else sum(recipe.seconds) / 2.0
    return (plan.celsius[0], seconds)
