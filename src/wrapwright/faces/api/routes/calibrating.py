"""Calibrating a set-up's printer, and measuring blanks with printed strips."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from pydantic import BaseModel, Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.blank.readings import Blank, Reading
from wrapwright.core.sheet.scale.entries import ScaleEntry
from wrapwright.faces.api.asking import QUIET, BenchAsked, Body, Id, Whole
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.calibrate.gauge import DrawGauge, StripDrawn, draw_gauge
from wrapwright.jobs.calibrate.reading import GaugeRead, ReadGauge, take_gauge
from wrapwright.jobs.calibrate.scales import (
    DropScale,
    KeepScale,
    Scales,
    ShowScales,
    drop_scale,
    keep_scale,
    show_scales,
)
from wrapwright.jobs.calibrate.target import PrintTarget, print_target

router = APIRouter(tags=["calibrating"])

PDF, SVG = "application/pdf", "image/svg+xml"
Mm = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Given = Annotated[float | None, Query(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Way = Literal["", "across", "along"]


class Measured(BaseModel):
    """A measurement: what was asked and read, across and along, and the scales they give with their half-widths."""

    id: int
    day: date
    paper: str
    asked_mm: tuple[float, float]
    measured_mm: tuple[float, float]
    scale: tuple[float, float]
    error: tuple[float, float]
    note: str


class ScalesTold(BaseModel):
    """A set-up's measurements, the newest first, and what there is to say of them."""

    setup: str
    asked_mm: tuple[float, float] | None
    measurements: list[Measured]
    words: list[str]


class ScaleBody(Body):
    """A target measured, in mm, across and along."""

    measured_mm: tuple[Mm, Mm]
    asked_mm: tuple[Mm, Mm] | None = None
    division_mm: Mm = 0.5
    day: date | None = None
    note: Annotated[str, Field(max_length=1000)] = ""


class GaugeTold(BaseModel):
    """A gauge in figures and words."""

    pages: int
    lies: str
    strips: list[StripDrawn]
    setup: str
    paper: str
    thickness_mm: float
    scale: float | None
    words: list[str]


class ArcBody(Body):
    """A strip's flat length, and where its middle line lay; null on a straight wall."""

    at_mm: Mm | None = None
    flat_mm: Mm


class ReadingBody(Body):
    """What a gauge read."""

    readings: Annotated[list[ArcBody], Field(min_length=1, max_length=2)]
    wall_mm: Mm | None = None
    setup: Annotated[int, Field(ge=0, le=2**53 - 1)] = 0
    lies: Way = ""
    pieces: Annotated[int, Field(ge=0, le=2)] = 0
    blank: Annotated[int, Field(ge=0, le=2**53 - 1)] = 0


@router.get("/setups/{number}/scales")
def scales(number: Id, bench: BenchAsked) -> ScalesTold:
    """Return what was measured of a set-up's scale."""
    return _told(show_scales(ShowScales(number), bench, QUIET))


@router.post("/setups/{number}/scales", status_code=201)
def new_scale(number: Id, body: ScaleBody, bench: BenchAsked) -> ScalesTold:
    """Return the measurements with the new one; the set-up prints with it from now on."""
    asked = KeepScale(body.measured_mm, number, "", body.asked_mm, body.division_mm, body.day, body.note)
    return _told(keep_scale(asked, bench, QUIET))


@router.delete("/setups/{number}/scales/{entry}")
def no_scale(number: Id, entry: Id, bench: BenchAsked) -> ScalesTold:
    """Return the measurements without one of them."""
    return _told(drop_scale(DropScale(number, entry), bench, QUIET))


@router.get("/setups/{number}/target.pdf", **one_kind(PDF))
def target(number: Id, request: Request, bench: BenchAsked) -> Response:
    """Return the target of a set-up's paper, to be printed at actual size."""
    return kept_answer(request, print_target(PrintTarget(id=number), bench, QUIET).data, PDF, forever=False)


@router.get("/setups/{number}/target.svg", **one_kind(SVG))
def target_picture(number: Id, request: Request, bench: BenchAsked) -> Response:
    """Return the target as a picture for a screen."""
    drawn = print_target(PrintTarget(id=number, picture=True), bench, QUIET)
    return kept_answer(request, drawn.data, SVG, forever=False)


def _asked_gauge(
    setup: Whole = 0,
    girth: Given = None,
    top: Given = None,
    bottom: Given = None,
    wall: Given = None,
    lies: Annotated[Way, Query()] = "",
) -> DrawGauge:
    """Return the gauge that is asked for: rough readings in mm, one girth or those of both ends of the wall."""
    if girth is not None and top is None and bottom is None:
        blank = Blank("straight", (Reading(None, girth, where="girth"),), wall_mm=wall)
    elif girth is None and top is not None and bottom is not None:
        ends = (Reading(None, bottom, where="bottom"), Reading(None, top, where="top"))
        blank = Blank("tapered", ends, wall_mm=wall)
    else:
        message = "A gauge needs one rough girth, or those of the wall's top and bottom."
        raise WrapwrightError(Kind.USAGE, message, remedy="Give girth, or top, bottom and wall.")
    return DrawGauge(blank, id=setup, lies=lies)


Gauge = Annotated[DrawGauge, Depends(_asked_gauge)]


@router.get("/gauge")
def gauge(asked: Gauge, bench: BenchAsked) -> GaugeTold:
    """Return the gauge for rough readings, in figures and words."""
    drawn = draw_gauge(replace(asked, picture=-1), bench, QUIET)
    told = {key: getattr(drawn, key) for key in GaugeTold.model_fields}
    return GaugeTold.model_validate({**told, "words": list(drawn.words), "strips": list(drawn.strips)})


@router.get("/gauge.pdf", **one_kind(PDF))
def gauge_file(asked: Gauge, request: Request, bench: BenchAsked) -> Response:
    """Return the gauge, to be printed at actual size."""
    return kept_answer(request, draw_gauge(asked, bench, QUIET).data, PDF, forever=False)


@router.get("/gauge.svg", **one_kind(SVG))
def gauge_picture(
    asked: Gauge, request: Request, bench: BenchAsked, page: Annotated[int, Query(ge=1, le=20)] = 1
) -> Response:
    """Return a page of the gauge as a picture for a screen."""
    drawn = draw_gauge(replace(asked, picture=page), bench, QUIET)
    return kept_answer(request, drawn.data, SVG, forever=False)


@router.post("/gauge/reading")
def gauge_reading(body: ReadingBody, bench: BenchAsked) -> GaugeRead:
    """Return the reading as a job's [blank]; with a blank of the shelf it becomes its next version."""
    readings = tuple((one.at_mm, one.flat_mm) for one in body.readings)
    asked = ReadGauge(readings, body.wall_mm, id=body.setup, lies=body.lies, pieces=body.pieces, blank_id=body.blank)
    return take_gauge(asked, bench, QUIET)


def _told(scales: Scales) -> ScalesTold:
    rows: list[Any] = [_measured(one) for one in scales.entries]
    return ScalesTold(setup=scales.setup.name, asked_mm=scales.asked_mm, measurements=rows, words=list(scales.words))


def _measured(entry: ScaleEntry) -> Measured:
    lengths = entry.lengths
    return Measured(
        id=entry.id,
        day=entry.day,
        paper=entry.paper,
        asked_mm=lengths.asked_mm,
        measured_mm=lengths.measured_mm,
        scale=lengths.scale,
        error=lengths.error,
        note=entry.note,
    )
