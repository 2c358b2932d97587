"""What a job's recipe means for the wrap: how much the blank grows while it is hot."""

from __future__ import annotations

import math
from typing import Literal

from wrapwright.core.blank.gauge.carried import Printer
from wrapwright.core.blank.measuring.budget import Heat
from wrapwright.core.blank.wrapped import Setup, Side
from wrapwright.data.heat.tables import expansions
from wrapwright.data.recipes import Recipe
from wrapwright.outside.jobfile.job import Job


def heat_of(job: Job, recipe: Recipe | None) -> Setup:
    """Return the paper, printer and heat that a job's wrap is made with.

    A recipe gives the growth: of the material that the job names, else of its own wall, else of its ware, at the
    hottest that recipe and job set. Without one, or for a ware that nobody knows, the budget's own default stands.
    """
    return Setup(
        thickness_mm=job.sheet.thickness_mm,
        calibrated=job.sheet.calibrated,
        grain=job.sheet.grain,
        lies=_lies(job),
        heat=None if recipe is None else _growing(job, recipe),
        scale_error=_scale_error(job),
        printer=_printer(job),
    )


def _growing(job: Job, recipe: Recipe) -> Heat | None:
    """Return what makes a blank grow, None where nobody knows what it is made of."""
    known = expansions()
    named = (job.heat.material.strip().casefold(), recipe.wall.material, recipe.ware)
    what = next((one for one in named if one in known), None)
    hottest = max(*recipe.celsius, job.heat.set_c or 0.0)
    return None if what is None else Heat(known[what], hottest, what)


def _scale_error(job: Job) -> float | None:
    """Return what the scale along the wrap may be out by: of two ways that it may lie the worse."""
    error = job.sheet.scale_error
    if error is None:
        return None
    return error[1] if _lies(job) == "long" else max(error)


def _printer(job: Job) -> Printer:
    sheet = job.sheet
    lies: Literal["", "along"] = "along" if _lies(job) == "long" else ""
    return Printer(sheet.setup, sheet.thickness_mm, (sheet.scale_across, sheet.scale_along), lies)


def _lies(job: Job) -> Side:
    """Return the side of the sheet that the wrap's length must lie along; unknown when either would do.

    Which way it will lie depends on its size, and its size on this; a wrap longer than the paper is wide has no choice.
    """
    sheet = job.sheet
    lengths = [one.length_mm * (math.pi if one.how == "diameter" else 1.0) for one in job.blank.readings]
    longest = max(lengths, default=0.0)  # a flat blank has none
    return "long" if longest > sheet.width_mm - sheet.margins_mm[1] - sheet.margins_mm[3] else "unknown"
