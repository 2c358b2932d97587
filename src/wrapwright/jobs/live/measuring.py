"""Measuring: a blank drawn while its readings are typed, and drawn again for the shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped
    from wrapwright.jobs.live.measured.judged import Judged
    from wrapwright.outside.jobfile.job import Job

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


@dataclass(frozen=True)
class MeasureLive:
    """The measuring form as it stands, every value as typed, empty ones too.

    Attributes:
        blank, wrap: shaped as a job file's [blank] and [wrap].
        unit: in which bare numbers and fractions are read, and lengths are said.
        blank_px, flat_px: width there is for the two drawings, CSS px.
    """

    blank: Table
    wrap: Table = field(default_factory=dict)
    unit: Unit = "mm"
    blank_px: int = 360
    flat_px: int = 620


@dataclass(frozen=True)
class ReadingTold:
    """A length as it was understood: `words` says it in the other unit than it was typed in."""

    field: str
    mm: float
    words: str


@dataclass(frozen=True)
class FieldTold:
    """A problem and the field it is told at; "blank" or "wrap" when it is about no single one."""

    field: str
    message: str
    remedy: str


@dataclass(frozen=True)
class RemarkTold:
    """What a rule says of the readings: its name, "error" or "warning", and the sentence."""

    rule: str
    severity: str
    message: str


@dataclass(frozen=True)
class DoubtRow:
    """One source of doubt: half-width and standard uncertainty in words, and its share of the sum of squares."""

    what: str
    half_width: str
    standard: str
    share: float
    source: str


@dataclass(frozen=True)
class MeasuredLive:
    """What the screen shows of the form.

    Attributes:
        table, wrap: the tables to keep: what was typed, bare lengths with the form's unit.
        ready: whether they may be kept.
        needed: one sentence with what is still empty, "" for nothing; `needed_fields` its fields.
        problems: what is wrong, each at its field.
        reads: every length that could be read.
        blank_svg, flat_svg, misfit_svg: drawings, "" as long as they cannot be made (the last for a profile only).
        spoken: the drawings in one sentence.
        figures: label and value of what was worked out.
        doubts: the budget of the girth; doubt_words: what it comes to.
        overlap_words: the overlap and what it is for.
        remarks: of the rules profile-misfit, too-few-readings, overlap-short.
        questions: what would make the fit better known.
    """

    table: Table
    wrap: Table
    ready: bool
    needed: str
    needed_fields: tuple[str, ...]
    problems: tuple[FieldTold, ...]
    reads: tuple[ReadingTold, ...]
    blank_svg: str = ""
    flat_svg: str = ""
    misfit_svg: str = ""
    spoken: str = ""
    figures: tuple[tuple[str, str], ...] = ()
    doubts: tuple[DoubtRow, ...] = ()
    doubt_words: str = ""
    overlap_words: str = ""
    remarks: tuple[RemarkTold, ...] = ()
    questions: tuple[str, ...] = ()


def measure_live(request: MeasureLive, bench: Bench, watch: Watch) -> MeasuredLive:
    """Return the form understood, judged and drawn as far as it goes; what is wrong in it is told, never raised."""
    del bench
    from wrapwright.jobs.live.measured.judged import judged
    from wrapwright.jobs.live.measured.typed import lengths_read, needed_words, typed

    watch.step("reading the form", 0.0)
    form = typed(request.blank, request.wrap, request.unit)
    found = judged(form)
    problems = tuple(FieldTold(one.field, one.message, one.remedy) for one in found.problems)
    reads = tuple(lengths_read(form))
    return MeasuredLive(
        table=form.blank,
        wrap=form.wrap,
        ready=not form.needed and not problems and found.wrapped is not None,
        needed=needed_words(form.needed, begun=bool(reads)),
        needed_fields=tuple(one.field for one in form.needed),
        problems=problems,
        reads=tuple(ReadingTold(*one) for one in reads),
        **_seen(request, found),
    )


def _seen(request: MeasureLive, found: Judged) -> dict[str, Any]:
    """Return the drawings and words of a form that can be drawn, nothing for another."""
    if found.job is None or found.wrapped is None:
        return {}
    from wrapwright.jobs.live.measured import words as said
    from wrapwright.outside.documents.screen.flat_drawing import flat_spoken

    wrapped, unit = found.wrapped, request.unit
    drawn = _drawings(found.job, wrapped, unit, request.blank_px, request.flat_px)
    return {
        **drawn,
        "spoken": flat_spoken(wrapped, unit),
        "figures": said.figure_rows(wrapped, unit),
        "doubts": tuple(DoubtRow(*row) for row in said.doubt_rows(wrapped, unit)),
        "doubt_words": said.doubt_words(wrapped, unit),
        "overlap_words": said.overlap_words(wrapped, unit, asked=found.job.wrap.overlap_mm),
        "remarks": tuple(RemarkTold(one.rule, one.severity.value, one.message) for one in wrapped.findings),
        "questions": wrapped.questions,
    }


def _drawings(job: Job, wrapped: Wrapped, unit: Unit, blank_px: int, flat_px: int) -> dict[str, str]:
    from wrapwright.outside.documents.screen.blank_drawing import large_blank
    from wrapwright.outside.documents.screen.flat_drawing import flat_wrap
    from wrapwright.outside.documents.screen.misfit_plot import misfit_plot

    blank_px, flat_px = (min(1600, max(240, px)) for px in (blank_px, flat_px))
    profile = wrapped.kind == "profile"
    return {
        "blank_svg": large_blank(job.blank, wrapped, unit=unit, size=(blank_px, min(440.0, 1.1 * blank_px))),
        "flat_svg": flat_wrap(job.blank, wrapped, job.wrap, unit=unit, size=(flat_px, max(300.0, 0.62 * flat_px))),
        "misfit_svg": misfit_plot(wrapped, unit=unit, size=(min(flat_px, 620), 190.0)) if profile else "",
    }


def draw_blank(request: DrawBlank, bench: Bench, watch: Watch) -> str:
    """Return the SVG of a blank.

    Raises:
        WrapwrightError: unusable; what is wrong in its readings.
    """
    del bench
    from wrapwright.jobs.live.measured.judged import blank_read
    from wrapwright.outside.documents.screen.blank_drawing import small_blank

    watch.step("drawing the blank", 0.0)
    job, wrapped = blank_read(request.table, request.wrap)
    if request.form == "small":
        return small_blank(job.blank, wrapped, name=request.name)
    drawn = _drawings(job, wrapped, request.unit, request.width_px, request.width_px)
    return drawn["blank_svg" if request.form == "large" else "flat_svg"]
