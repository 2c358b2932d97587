"""From an opened job to its composition: the wrap, the draw list, and all that was read for it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError, noted, raise_all, unusable
from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.elements import AnyElement
from wrapwright.core.design.layers import split
from wrapwright.core.design.supplies import Art
from wrapwright.data.press import Recipe
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.work.colouring import Colouring
from wrapwright.jobs.work.opening import Opened
from wrapwright.jobs.work.supplying import Supplied

_A_LIST = "this job has a list of names, and one piece is made at a time."
_LIST_REMEDY = "wrapwright names check JOB looks at the list; for one piece leave [names] out and fill [fields]."

if TYPE_CHECKING:
    from wrapwright.jobs.press.plan.for_job import JobHeat
    from wrapwright.jobs.press.plan.values import Planned


@dataclass(frozen=True, eq=False)
class Composition:
    """A job composed, before any pixel.

    Attributes:
        opened: the job as read.
        wrapped: the blank's flat wrap and its doubts.
        supplied: pictures, text and codes.
        colouring: the working space and the way to the printer's colours.
        draw_list: everything on the wrap.
        recipe: the press recipe it names, or None.
        remarks: sentences about what was read or changed, for the proof and the ticket.
        heat: what the job says of its heat, all names found; None without a recipe, and where nobody asks for it.
    """

    opened: Opened
    wrapped: Wrapped
    supplied: Supplied
    colouring: Colouring
    draw_list: DrawList
    recipe: Recipe | None
    remarks: tuple[str, ...]
    heat: JobHeat | None = None

    @cached_property
    def parts(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Indices of the items that become pixels on the sheets, and of those that stay outlines above them."""
        return split(self.draw_list)

    @cached_property
    def heated(self) -> Planned | None:
        """What the heat wants, reckoned; None where a reading is missing."""
        from wrapwright.jobs.press.plan.planning import planned_of

        return planned_of(self.heat.asked) if self.heat is not None and self.heat.asked is not None else None

    def findings(self) -> tuple[Finding, ...]:
        """Return the remarks of the readings."""
        return self.wrapped.findings


def compose(opened: Opened, bench: Bench, watch: Watch) -> Composition:
    """Return the composition of a job.

    Raises:
        WrapwrightError: every problem of the recipe, the readings, the files, the texts and the profile together; only
            when there is none of these, those of laying out.
    """
    from wrapwright.core.blank.wrapped import wrap_blank
    from wrapwright.core.design.layout import lay_out
    from wrapwright.jobs.press.kept.recipes import recipe_named
    from wrapwright.jobs.press.plan.for_job import heat_of_job
    from wrapwright.jobs.work.colouring import colouring_of, recolouring
    from wrapwright.jobs.work.heating import heat_of
    from wrapwright.jobs.work.plating import outline_input, with_outline
    from wrapwright.jobs.work.supplying import supplied

    if opened.job.names is not None:  # at once: its texts lack fields, which would only hide the reason
        raise unusable(_A_LIST, remedy=_LIST_REMEDY, where="names")
    problems: list[WrapwrightError] = list(opened.absent.values())
    plated = noted(problems, lambda: with_outline(opened, bench))
    opened = plated or opened
    job = opened.job
    recipe = noted(problems, lambda: recipe_named(job.recipe, bench))
    wrapped = None
    if plated is not None:  # else why there is no outline has been said
        wrapped = noted(problems, lambda: wrap_blank(job.blank, job.wrap, heat_of(job, recipe)))
    heat = noted(problems, lambda: heat_of_job(job, recipe, wrapped.profile if wrapped else None, bench))
    watch.step("reading pictures", 0.05)
    found = noted(problems, lambda: supplied(opened, wrapped.wrap.trim_width_mm if wrapped else 0.0, bench))
    watch.step("laying out", 0.15)
    colouring = None
    if job.colour.profile not in opened.absent:
        colouring = noted(problems, lambda: colouring_of(opened, found or Supplied(), bench))
    raise_all(problems)
    if wrapped is None or found is None or colouring is None:  # pragma: no cover - raise_all left with the reason
        raise AssertionError("a step that failed has left no problem")
    found.inputs = {**outline_input(opened), **found.inputs}
    laid = lay_out(
        job.elements,
        wrap=wrapped.wrap,
        bleed_mm=job.wrap.bleed_mm,
        supplies=found.supplies,
        masks=found.masks,
        fields=job.fields,
        recolour=recolouring,
    )
    notes = [f"{element.name}: {note}" for element, supply in _read(opened, found) for note in supply.notes]
    empty = () if job.elements else ("There is no element on this wrap: nothing but the marks is printed.",)
    heated = heat.remarks if heat is not None else ()
    remarks = (*empty, *wrapped.questions, *laid.remarks, *notes, *colouring.remarks, *heated)
    said = tuple(dict.fromkeys(remarks))
    return Composition(opened, wrapped, found, colouring, laid.draw_list, recipe, said, heat)


def _read(opened: Opened, found: Supplied) -> list[tuple[AnyElement, Art]]:
    pairs = [(element, found.supplies.get(index)) for index, element in enumerate(opened.job.elements)]
    return [(element, supply) for element, supply in pairs if isinstance(supply, Art)]
