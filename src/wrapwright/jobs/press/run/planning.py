"""What a heat is planned to be: its load from recipe and pieces, its figures, and what speaks against it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.press.run.live import Track, track_of
from wrapwright.core.press.run.starting import missing_ticks, pieces_problem, preheat_s
from wrapwright.core.press.run.values import HeatPlan
from wrapwright.core.press.values import Heater, Load, Window
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.run.keeping import Planned, used
from wrapwright.jobs.press.run.showing import ticks_for

if TYPE_CHECKING:
    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept
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
    set_c, problems = _set_c(request, recipe)
    problems += missing_ticks(ticks_for(recipe), request.ticked)
    problems += pieces_problem(heater, asked.count)
    problems += _other_kind(heater, recipe)
    load = None if problems else load_for(recipe, heater, asked.count, set_c, request)
    dwell = request.dwell_s if request.dwell_s is not None else _dwell(recipe, heater, load, bench)
    track = None if load is None or not 0 < dwell <= 3600.0 else track_of(heater, load, dwell + 60.0)
    window = window_of(recipe, bench)
    findings = _stops(recipe, heater, set_c, dwell, track, window)
    problems += [_problem(one) for one in findings if one.severity is Severity.ERROR]
    raise_all(problems)
    warned = tuple(one.message for one in findings if one.severity is not Severity.ERROR)
    empty_s, unwarm = _preheat(heater, set_c, wanted=request.preheat)
    plan = HeatPlan(
        heater_kind=heater.kind,
        set_c=set_c,
        dwell_s=dwell,
        preheat=request.preheat,
        preheat_s=empty_s,
        cool_s=recipe.cool_s,
        turn_at_s=tuple(round(one * dwell, 3) for one in recipe.turn_at),
        warm_s=None if track is None else track.warm_s(set_c + heater.offset_k),
        dose=None if track is None else track.dose_at(dwell),
        target=_target(window),
    )
    return Planned(
        plan=plan,
        heater=heater,
        rated_w=asked.heater.rated_w,
        calibrated=asked.heater.calibrated,
        load=load,
        recipe=used(recipe),
        words=(*warned, *unwarm),
        ticked=request.ticked,
        log=request.log,
    )


def load_for(recipe: Recipe, heater: Heater, count: int, set_c: float, request: StartHeat) -> Load | None:
    """Return the load of so many pieces of the recipe's wall; None where its material or thickness is not known."""
    del recipe, heater, count, set_c, request
    return None


def window_of(recipe: Recipe, bench: Bench) -> Window:
    """Return what accepted trials say of the dose; a recipe without any: not known yet."""
    del recipe, bench
    return Window()


def _set_c(request: StartHeat, recipe: Recipe) -> tuple[float, list[WrapwrightError]]:
    from wrapwright.core.press.recipe.asked import celsius_of

    if request.set_c is None:
        return sum(recipe.celsius) / 2.0, []
    try:
        return celsius_of(request.set_c, where="set_c"), []
    except WrapwrightError as problem:
        return sum(recipe.celsius) / 2.0, [problem]


def _other_kind(heater: Heater, recipe: Recipe) -> list[WrapwrightError]:
    if recipe.heater in (heater.kind, "unknown"):
        return []
    message = (
        f"{recipe.title} is for {_KINDS.get(recipe.heater, recipe.heater)}; {heater.name} is {_KINDS[heater.kind]}."
    )
    return [unusable(message, remedy="Choose a recipe for this heater, or another heater.", where="recipe")]


_KINDS = {"oven": "an oven", "mug-press": "a mug press", "flat-press": "a flat press"}


def _dwell(recipe: Recipe, heater: Heater, load: Load | None, bench: Bench) -> float:
    del heater, load, bench
    return float(round(sum(recipe.seconds) / 2.0))


def _stops(
    recipe: Recipe, heater: Heater, set_c: float, dwell_s: float, track: Track | None, window: Window
) -> tuple[Finding, ...]:
    from wrapwright.core.press.recipe.stops import stops

    dose = None if track is None else track.dose_at(dwell_s)
    doubt = {"offset_k": heater.offset_k, "offset_half_k": heater.offset_half_k}
    return stops(recipe, set_c, dwell_s, dose=dose, window=window, **doubt)


def _problem(found: Finding) -> WrapwrightError:
    where = "dwell_s" if found.rule in ("heat-dwell", "heat-long") else "set_c"
    return unusable(found.message, where=where)


def _preheat(heater: Heater, set_c: float, *, wanted: bool) -> tuple[float, tuple[str, ...]]:
    if not wanted:
        return 0.0, ()
    needed = preheat_s(heater, set_c + heater.offset_k, 25.0)
    if needed is None:
        return 0.0, (f"By its figures {heater.name} never gets to {set_c:g} °C: look at its power and its loss.",)
    return float(round(needed)), ()


def _target(window: Window) -> float | None:
    if window.low is None:
        return None
    return window.low[1] if window.high is None else (window.low[1] * window.high[0]) ** 0.5
