"""Measuring: a blank drawn while its readings are typed, and drawn again for the shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.blank.readings import Blank
    from wrapwright.core.blank.wrapped import Wrapped

Table = Mapping[str, Any]
Unit = Literal["mm", "in"]


@dataclass(frozen=True)
class DrawBlank:
    """A blank to be drawn.

    Attributes:
        table, wrap: as a job file's [blank] and [wrap].
        name: said to those who do not see the drawing.
        unit: of the lengths written in it.
        form: "small" for a list (132 px square, no words), "large" with dimensions, "flat" for its flat wrap.
        width_px: of the large and the flat form.
    """

    table: Table
    wrap: Table = field(default_factory=dict)
    name: str = ""
    unit: Unit = "mm"
    form: Literal["small", "large", "flat"] = "small"
    width_px: int = 360


def draw_blank(request: DrawBlank, bench: Bench, watch: Watch) -> str:
    """Return the SVG of a blank.

    Raises:
        WrapwrightError: unusable; what is wrong in its readings.
    """
    del bench
    from wrapwright.outside.documents.screen.blank_drawing import large_blank, small_blank

    watch.step("drawing the blank", 0.0)
    blank, wrapped = _read(request.table, request.wrap)
    if request.form == "small":
        return small_blank(blank, wrapped, name=request.name)
    return large_blank(blank, wrapped, unit=request.unit, size=(float(request.width_px), 1.1 * request.width_px))


def _read(table: Table, wrap: Table) -> tuple[Blank, Wrapped]:
    from pydantic import ValidationError

    from wrapwright.core.base.errors import raise_all
    from wrapwright.core.blank.wrapped import Setup, wrap_blank
    from wrapwright.outside.jobfile.job import job_of
    from wrapwright.outside.jobfile.model import JobFile
    from wrapwright.outside.jobfile.presence import keys_in_doubt
    from wrapwright.outside.jobfile.problems import problems_of

    document = {"format": 1, "blank": dict(table), "wrap": dict(wrap)}
    try:
        model = JobFile.model_validate(document)
    except ValidationError as error:
        raise_all([*problems_of(error, document, JobFile), *keys_in_doubt(document)])
        raise
    raise_all(list(keys_in_doubt(document)))
    job = job_of(model, stem="", names=[], files=(), shelf={})
    return job.blank, wrap_blank(job.blank, job.wrap, Setup())
