"""What a heat is planned to be: its load from recipe and pieces, its figures, and what speaks against it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError, raise_all, unusable
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.base.heat_words import celsius_words
from wrapwright.core.press.run.starting import missing_ticks, pieces_problem, preheat_s
from wrapwright.core.press.run.values import HeatPlan
from wrapwright.core.press.values import ROOM_C, UNCALIBRATED_K, Heater, Window
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.run.keeping import Planned, used
from wrapwright.jobs.press.run.showing import ticks_for

if TYPE_CHECKING:
    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept
    from wrapwright.jobs.press.plan.values import Planned as Reckoned
    from wrapwright.jobs.press.run.values import StartHeat


@dataclass(frozen=True)
class Asked:
    """What a heat is planned for: heater, recipe, how many pieces, and the request itself."""

    heater: HeaterKept
    recipe: Recipe
    count: int
    request: StartHeat


def plan_heat(asked: Asked, bench: Bench) -> Planned:
    """Return the plan of a heat.

    Raises:
        WrapwrightError: unusable, with all that speaks against it: what was not ticked, too many pieces, too hot, too
            cold, too long, too short.
    """
    recipe, heater, request = asked.recipe, asked.heater.heater, asked.request
    problems = missing_ticks(ticks_for(recipe), request.ticked)
    problems += pieces_problem(heater, asked.count)
    problems += _other_kind(heater, recipe)
    set_c = _set_c(request, recipe, problems)
    findings = _stops(asked, set_c, _dwell(asked, None))
    wrong = any(one.severity is Severity.ERROR for one in findings)
    reckoned = None if wrong else _reckoned(asked, set_c, bench, problems)
    dwell = _dwell(asked, reckoned)
    findings = findings if reckoned is None else reckoned.findings
    problems += [_problem(one) for one in findings if one.severity is Severity.ERROR]
    raise_all(problems)
    warned = [one.message for one in findings if one.severity is not Severity.ERROR]
    empty_s = _preheat(heater, set_c, warned) if request.preheat else 0.0
    if reckoned is None:
        warned.append("The wall of these pieces is not known, so their dose is not reckoned.")
    plan = HeatPlan(
        heater_kind=heater.kind,
        set_c=set_c,
        dwell_s=dwell,
        preheat=request.preheat,
        preheat_s=empty_s,
        cool_s=recipe.cool_s,
        turn_at_s=tuple(round(one * dwell, 3) for one in recipe.turn_at),
        warm_s=_warm(reckoned),
        dose=None if reckoned is None else reckoned.band.dose,
        target=reckoned.aim.mid if reckoned is not None and reckoned.aim.source == "trials" else None,
    )
    return Planned(
        plan=plan,
        heater=heater,
        rated_w=asked.heater.rated_w,
        calibrated=heater.offset_half_k < UNCALIBRATED_K,
        load=None if reckoned is None else reckoned.asked.load,
        recipe=used(recipe),
        words=tuple(warned),
        ticked=request.ticked,
        log=request.log,
        window=Window() if reckoned is None else reckoned.aim.window,
    )


def _set_c(request: StartHeat, recipe: Recipe, problems: list[WrapwrightError]) -> float:
    """Return what the heater is set to; a figure that may be meant otherwise is noted as a problem."""
    from wrapwright.core.press.load.piece import middle_c
    from wrapwright.core.press.recipe.asked import celsius_of

    usual = middle_c(recipe)
    if request.set_c is None:
        return usual
    try:
        return celsius_of(request.set_c, where="set_c")
    except WrapwrightError as problem:
        problems.append(problem)
        return usual


def _reckoned(asked: Asked, set_c: float, bench: Bench, problems: list[WrapwrightError]) -> Reckoned | None:
    """Return the heat as it is reckoned; None where the wall is not known, or where something speaks against it."""
    from wrapwright.jobs.press.plan.planning import plan_heat as reckon
    from wrapwright.jobs.press.plan.values import PlanHeat

    request, recipe = asked.request, asked.recipe
    walled = request.thickness_mm is not None or recipe.wall.thickness_mm is not None
    if not walled or not 1 <= asked.count <= asked.heater.heater.capacity:
        return None
    wanted = PlanHeat(
        recipe,
        heater_id=asked.heater.id,
        pieces=asked.count,
        wall_mm=request.thickness_mm,
        set_c=set_c,
        dwell_s=request.dwell_s,
        preheated=request.preheat or recipe.preheat,
        recipe_wall=True,
    )
    try:
        return reckon(wanted, bench, Watch())
    except SeveralProblemsError as several:
        problems += several.problems
    except WrapwrightError as problem:
        problems.append(problem)
    return None


def _dwell(asked: Asked, reckoned: Reckoned | None) -> float:
    if asked.request.dwell_s is not None:
        return asked.request.dwell_s
    if reckoned is not None:
        return reckoned.dwell_s
    return float(round(sum(asked.recipe.seconds) / 2.0))


def _stops(asked: Asked, set_c: float, dwell_s: float) -> tuple[Finding, ...]:
    from wrapwright.core.press.recipe.stops import stops

    heater = asked.heater.heater
    return stops(asked.recipe, set_c, dwell_s, offset_k=heater.offset_k, offset_half_k=heater.offset_half_k)


def _other_kind(heater: Heater, recipe: Recipe) -> list[WrapwrightError]:
    if recipe.heater in (heater.kind, "unknown"):
        return []
    what = _KINDS.get(recipe.heater, recipe.heater)
    message = f"{recipe.title} is for {what}; {heater.name} is {_KINDS[heater.kind]}."
    return [unusable(message, remedy="Choose a recipe for this heater, or another heater.", where="recipe")]


_KINDS = {"oven": "an oven", "mug-press": "a mug press", "flat-press": "a flat press"}


def _problem(found: Finding) -> WrapwrightError:
    where = "dwell_s" if found.rule in ("heat-dwell", "heat-long") else "set_c"
    return unusable(found.message, where=where)


def _warm(reckoned: Reckoned | None) -> float | None:
    if reckoned is None or not math.isfinite(reckoned.chosen.to_temperature_s):
        return None
    return reckoned.chosen.to_temperature_s


def _preheat(heater: Heater, set_c: float, warned: list[str]) -> float:
    needed = preheat_s(heater, set_c + heater.offset_k, ROOM_C)
    if needed is None:
        warned.append(
            f"By its figures {heater.name} never gets to {celsius_words(set_c)}: look at its power and its loss."
        )
        return 0.0
    return float(round(needed))
