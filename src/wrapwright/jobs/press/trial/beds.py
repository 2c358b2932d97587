"""Where a trial's coupons are heated: the heater as it is known now, their wall, what lies over them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.press.trial.values import Coupon
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.values import PlanTrial, TrialPlan

if TYPE_CHECKING:
    from wrapwright.core.press.trial.plan import Expected
    from wrapwright.core.press.trial.reckoning import Bed
    from wrapwright.core.press.values import Heater
    from wrapwright.data.recipes import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept

COUPON_FACE_M2 = 0.0025  # of a coupon of about 40 x 60 mm: it hardly loads a heater
COUPONS = "coupons"


def bed_of(plan: TrialPlan, bench: Bench) -> Bed:
    """Return where a plan's coupons are heated; a heater that is gone is stood for by one of its kind."""
    from wrapwright.core.press.heat.known import cover_named, material_named
    from wrapwright.core.press.load.piece import USUAL_FACE_M2
    from wrapwright.core.press.trial.reckoning import Bed
    from wrapwright.core.press.values import Wall

    # A plate that is heated from both sides alike warms as one of half its thickness with an insulated back.
    thickness = plan.wall_mm / 2.0 if plan.free else plan.wall_mm
    face = COUPON_FACE_M2 if plan.kind == COUPONS else USUAL_FACE_M2
    wall = Wall(material_named(plan.material), thickness, face, plan.double)
    covers = tuple(cover_named(one) for one in plan.covers)
    return Bed(_heater(plan, bench), wall, covers, preheated=plan.preheated)


def _heater(plan: TrialPlan, bench: Bench) -> Heater:
    from wrapwright.core.press.recipe.heater import starter_of
    from wrapwright.jobs.press.kept.heaters import ShowHeater, heater_named, show_heater

    try:
        if plan.heater_id:
            return show_heater(ShowHeater(plan.heater_id), bench, Watch()).heater
        return heater_named(plan.heater, bench).heater
    except WrapwrightError as problem:
        if problem.kind is not Kind.MISSING:
            raise
        return starter_of(plan.heater_kind)


def coupons_of(plan: TrialPlan, bench: Bench) -> tuple[Coupon, ...]:
    """Return a plan's coupons with their doses, reckoned once while the heater is known as it is."""
    from wrapwright.core.press.trial.reckoning import reckoned

    bed = bed_of(plan, bench)
    key = ("trial", bed, plan.settings, plan.kind)
    found: tuple[Coupon, ...] = bench.recent.heats.get(key, lambda: reckoned(bed, plan.settings, plan.kind))
    return found


def expected_of(recipe: Recipe, kept: HeaterKept, wall_mm: float) -> Expected:
    """Return the doses between which the work is looked for: what the recipe's own ranges give its own wall.

    From the shortest dwell at the coolest to the longest at the hottest. A recipe that names no wall is taken to be
    for one as thick as the trial's.
    """
    from wrapwright.core.press.load.piece import covers_of, wall_of
    from wrapwright.core.press.recipe.heater import KINDS, starter_of
    from wrapwright.core.press.trial.plan import USUAL, Expected
    from wrapwright.core.press.trial.reckoning import Bed, course

    wall = wall_of(recipe, recipe.wall.thickness_mm or wall_mm)
    kind = recipe.heater if recipe.heater in KINDS else kept.heater.kind
    bed = Bed(starter_of(kind), wall, covers_of(recipe), preheated=recipe.preheat)
    low = course(bed, recipe.celsius[0], recipe.seconds[0]).at(recipe.seconds[0])
    high = course(bed, recipe.celsius[1], recipe.seconds[1]).at(recipe.seconds[1])
    # A range too narrow or too cold to tell anything is widened to what is usual.
    return Expected(low, high) if low > 0.02 and high / low > 1.5 else USUAL


def plan_for(request: PlanTrial, recipe: Recipe, kept: HeaterKept) -> TrialPlan:
    """Return the plan without its coupons: what they are heated on and in.

    Raises:
        WrapwrightError: unusable: no such material, no thickness known, a wall that cannot be.
    """
    from wrapwright.core.press.heat.known import material_named
    from wrapwright.core.press.load.asked import wall_mm
    from wrapwright.core.press.load.piece import covers_of
    from wrapwright.core.press.recipe.stops import is_vacuum

    thickness = request.wall_mm if request.wall_mm is not None else recipe.wall.thickness_mm
    if thickness is None:
        raise unusable(
            "the thickness of what the trial is heated on is missing, and without it no dose is estimated.",
            remedy="Measure a coupon, or the wall at the rim, with a calliper.",
            where="wall",
        )
    flat = request.kind == COUPONS
    material = request.material or recipe.wall.material or recipe.ware
    oven = kept.heater.kind == "oven"
    return TrialPlan(
        kind=request.kind,
        recipe=recipe.name,
        heater=kept.name,
        heater_id=kept.id,
        heater_kind=kept.heater.kind,
        wall_mm=wall_mm(thickness, where="wall"),
        material=material_named(material).name,
        double=request.double if request.double is not None else is_vacuum(recipe) and not flat,
        free=flat and (oven if request.free is None else request.free),
        preheated=recipe.preheat,
        covers=("paper",) if flat else tuple(one.name for one in covers_of(recipe)),
        ware=recipe.ware,
        celsius=(),
        settings=(),
        expected=(0.0, 0.0),
        within=request.within,
        sure=request.sure,
        total=0,
    )
