"""What a job says of its heat, with every name found and every figure held against its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.plan.values import Asked, PlanHeat

if TYPE_CHECKING:
    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept
    from wrapwright.outside.jobfile.job import Job


@dataclass(frozen=True)
class JobHeat:
    """A job's heat, not reckoned yet.

    Attributes:
        recipe: what it goes by.
        heater: what heats; None when not known.
        set_c: what it is set to.
        pieces: heated together.
        asked: the load; None where a reading is missing.
        missing: those readings, in words.
        findings: what speaks against heating so, as far as it can be told without the dose.
    """

    recipe: Recipe
    heater: HeaterKept | None
    set_c: float
    pieces: int
    asked: Asked | None = None
    missing: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def remarks(self) -> tuple[str, ...]:
        """What stops such a heat, in sentences."""
        return tuple(f"Heat: {one.message}" for one in self.findings if one.severity is Severity.ERROR)


def heat_of_job(
    job: Job, recipe: Recipe | None, profile: Sequence[tuple[float, float]] | None, bench: Bench
) -> JobHeat | None:
    """Return what a job says of its heat; None without a recipe.

    Args:
        job: the job.
        recipe: the recipe it names.
        profile: (position, girth) of the blank, mm; None when its readings cannot be.
        bench: where heaters are kept.

    Raises:
        WrapwrightError: unusable, for a heater that is not kept here, more pieces than it holds, or no such material.
    """
    from wrapwright.core.press.load.piece import middle_c
    from wrapwright.jobs.press.plan.planning import asked_of, heater_for

    if recipe is None:
        return None
    said = job.heat
    set_c = middle_c(recipe) if said.set_c is None else said.set_c
    try:
        heater = heater_for(said.heater, 0, recipe, bench)
        pieces = said.pieces or min(job.quantity, heater.heater.capacity)
        missing = _missing(job, recipe)
        if missing or profile is None:
            return JobHeat(recipe, heater, set_c, pieces, None, missing, _stops(job, recipe, heater, set_c))
        request = PlanHeat(
            recipe.name,
            said.heater,
            pieces=pieces,
            wall_mm=said.wall_mm,
            material=said.material,
            double=said.double,
            face_m2=_face(job, profile),
            set_c=set_c,
        )
        asked = asked_of(request, bench)
        return JobHeat(recipe, heater, set_c, pieces, asked, (), _stops(job, recipe, heater, set_c))
    except WrapwrightError as problem:
        raise _of_job(problem, said.heater) from None


def _stops(job: Job, recipe: Recipe, kept: HeaterKept, set_c: float) -> tuple[Finding, ...]:
    from wrapwright.core.press.load.piece import as_walled
    from wrapwright.core.press.recipe.stops import stops

    recipe = as_walled(recipe, double=bool(job.heat.double))
    heater, dwell = kept.heater, sum(recipe.seconds) / 2.0
    return stops(recipe, set_c, dwell, offset_k=heater.offset_k, offset_half_k=heater.offset_half_k)


def is_double(job: Job, recipe: Recipe | None) -> bool:
    """Return whether a job's blank is double-walled: as it says itself, else as its recipe does."""
    from wrapwright.core.press.recipe.stops import is_vacuum

    if job.heat.double is None:
        return recipe is not None and is_vacuum(recipe)
    return job.heat.double


def _missing(job: Job, recipe: Recipe) -> tuple[str, ...]:
    said = job.heat
    found = []
    if said.wall_mm is None:
        found.append("the thickness of the outer shell" if is_double(job, recipe) else "the wall's thickness")
    if not (said.material or recipe.wall.material) and recipe.ware in ("", "unknown"):
        found.append("what the wall is made of")
    return tuple(found)


def _face(job: Job, profile: Sequence[tuple[float, float]]) -> float:
    from wrapwright.core.press.load.piece import face_m2

    if job.blank.kind == "flat":
        (low, width), (high, _) = profile[0], profile[-1]
        return max(1e-6, (high - low) * width / 1e6)
    return face_m2(profile)


def _of_job(problem: WrapwrightError, heater: str) -> WrapwrightError:
    """Return the problem as one of the job: whatever it names that is not there makes it unusable."""
    about = problem.where or ("heater" if heater and problem.kind is Kind.MISSING else "")
    where = f"press: {about}" if about and ":" not in about else about
    kind = Kind.UNUSABLE if problem.kind is Kind.MISSING else problem.kind
    return WrapwrightError(kind, problem.message, remedy=problem.remedy, where=where)
