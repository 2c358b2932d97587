"""What is known of a heater, and from what: logs, readings, recipes known to be good, maps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Annotated, Any, Literal

from anyio import to_thread
from fastapi import APIRouter, Query
from pydantic import BaseModel, Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.fit.values import Reference
from wrapwright.core.press.fit.without.oven_map import Point
from wrapwright.faces.api.asking import QUIET, RAW, BenchAsked, Body, Id, Name
from wrapwright.faces.api.incoming import MB, arriving
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.press.evidence.keeping import drop_evidence, show_evidence
from wrapwright.jobs.press.evidence.logs import fit_evidence, kept_plot, look_at, plot_of
from wrapwright.jobs.press.evidence.stated import known_table, told_table
from wrapwright.jobs.press.evidence.values import (
    About,
    DropEvidence,
    FitLog,
    KeepKnown,
    KeepMap,
    KeepReadings,
    ShowEvidence,
    Told,
)
from wrapwright.jobs.press.evidence.without import keep_known, keep_map, keep_readings
from wrapwright.outside.logs.values import LogAsked, LogLook

router = APIRouter(tags=["evidence"])

SVG = "image/svg+xml"
BIGGEST = 256 * MB
Celsius = Annotated[float, Field(allow_inf_nan=False, ge=-274, le=10**6)]
Figure = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Words = Annotated[str, Field(max_length=400)]


class Gathered(Body):
    """What all evidence says beside itself: its day (none: today), the user's own words, whether it is kept."""

    day: date | None = None
    note: Annotated[str, Field(max_length=1000)] = ""
    keep: bool = True


class LogQuery(Gathered):
    """What is known of a log: its columns by name or number, its unit, what was set, and the wall that was logged."""

    air: Words = ""
    wall: Words = ""
    time: Words = ""
    unit: Literal["", "C", "F", "K"] = ""
    dates: Literal["", "day-first", "month-first"] = ""
    set_c: Celsius | None = None
    material: Words = ""
    wall_mm: Figure | None = None
    double: bool | None = None
    covers: Words | None = None
    recipe: Words = ""
    true_c: Celsius | None = None
    shown_c: Celsius | None = None
    from_s: Figure | None = None
    to_s: Figure | None = None


class ReadingsBody(Gathered):
    """Readings of a thermometer at one setting, degrees C; the step of reading and the thermometer's own error, K."""

    set_c: Celsius
    read_c: Annotated[list[Celsius], Field(max_length=200)]
    step_k: Figure
    class_k: Figure | None = None


class KnownBody(Gathered):
    """A recipe known to be good in this heater, as it was heated."""

    recipe: Words
    set_c: Celsius | None = None
    dwell_s: Figure | None = None
    pieces: Annotated[int, Field(ge=0, le=10**6)] = 1
    wall_mm: Figure | None = None


class PointBody(Body):
    """A point of a map: what was set, where, and what was read there, degrees C; how well that is known, K."""

    set_c: Celsius
    place: Words
    read_c: Celsius
    half_k: Annotated[float, Field(allow_inf_nan=False, ge=0, le=1000)] = 5.0


class MapBody(Gathered):
    """A map of an oven."""

    points: Annotated[list[PointBody], Field(max_length=1000)]


class KnownTold(BaseModel):
    """All that is known of a heater: its figures, which evidence they come from, all evidence, and sentences."""

    heater: Mapping[str, Any]
    calibrated: bool
    figures: Mapping[str, Any]
    sources: Mapping[str, int]
    evidence: list[Mapping[str, Any]]
    words: list[str]


LogAskedFor = Annotated[LogQuery, Query()]


@router.get("/press/heaters/{number}/evidence")
def evidence(number: Id, bench: BenchAsked) -> KnownTold:
    """Return what is known of a heater, and from what."""
    return KnownTold.model_validate(known_table(show_evidence(ShowEvidence(number), bench, QUIET)))


@router.post("/press/heaters/{number}/evidence/looks/{name}", openapi_extra=RAW)
async def log_look(number: Id, name: Name, asked: LogAskedFor, request: Request, bench: BenchAsked) -> LogLook:
    """Return the columns of a log, its first rows, and what must be asked; the body is the file. Nothing is kept."""
    async with arriving(request, name, bench.folders.data, biggest=BIGGEST) as come:
        wanted = replace(_log(number, asked), file=come.file, shown=come.name)
        return await to_thread.run_sync(look_at, wanted, bench, QUIET)


@router.post("/press/heaters/{number}/evidence/logs/{name}", openapi_extra=RAW)
async def log_fit(number: Id, name: Name, asked: LogAskedFor, request: Request, bench: BenchAsked) -> dict[str, Any]:
    """Return what a log tells, with its plot as SVG; the body is the file. With `keep` it is kept."""
    async with arriving(request, name, bench.folders.data, biggest=BIGGEST) as come:
        wanted = replace(_log(number, asked), file=come.file, shown=come.name)
        told = await to_thread.run_sync(fit_evidence, wanted, bench, QUIET)
        return {**told_table(told), "plot": plot_of(told, come.name, alone=False)}


@router.post("/press/heaters/{number}/evidence/readings")
def readings(number: Id, body: ReadingsBody, bench: BenchAsked) -> dict[str, Any]:
    """Return what readings of a thermometer tell; with `keep` they are kept."""
    asked = KeepReadings(_about(number, body), body.set_c, tuple(body.read_c), body.step_k, body.class_k)
    return told_table(keep_readings(asked, bench, QUIET))


@router.post("/press/heaters/{number}/evidence/recipes")
def known_good(number: Id, body: KnownBody, bench: BenchAsked) -> dict[str, Any]:
    """Return what a recipe known to be good tells, through the dose alone; with `keep` it is kept."""
    about = _about(number, body)
    asked = KeepKnown(about, body.recipe, body.set_c, body.dwell_s, body.pieces, body.wall_mm)
    return told_table(keep_known(asked, bench, QUIET))


@router.post("/press/heaters/{number}/evidence/maps")
def oven_map(number: Id, body: MapBody, bench: BenchAsked) -> dict[str, Any]:
    """Return what a map of the oven tells; with `keep` it is kept."""
    points = tuple(Point(one.set_c, one.place, one.read_c - one.set_c, one.half_k) for one in body.points)
    told: Told = keep_map(KeepMap(_about(number, body), points), bench, QUIET)
    return told_table(told)


@router.get("/press/heaters/{number}/evidence/{entry}/plot.svg", **one_kind(SVG))
def plot(number: Id, entry: Id, request: Request, bench: BenchAsked) -> Response:
    """Return the plot of a log that is kept, with its residuals."""
    known = show_evidence(ShowEvidence(number), bench, QUIET)
    found = next((kept_plot(one) for one in known.evidence if one.id == entry), "")
    if not found:
        raise WrapwrightError(Kind.MISSING, f"There is no log with the number {entry} of this heater.")
    return kept_answer(request, found, SVG, forever=False)


@router.delete("/press/heaters/{number}/evidence/{entry}")
def no_evidence(number: Id, entry: Id, bench: BenchAsked) -> KnownTold:
    """Return what is known of a heater without one piece of evidence."""
    return KnownTold.model_validate(known_table(drop_evidence(DropEvidence(number, entry), bench, QUIET)))


def _about(number: int, body: Gathered) -> About:
    return About(heater_id=number, day=body.day, note=body.note, keep=body.keep)


def _log(number: int, asked: LogQuery) -> FitLog:
    from pathlib import Path

    reference = None
    if asked.true_c is not None and asked.shown_c is not None:
        reference = Reference(asked.true_c, asked.shown_c)
    covers = None if asked.covers is None else tuple(one for one in asked.covers.split(",") if one)
    return FitLog(
        Path(),
        _about(number, asked),
        LogAsked(asked.air, asked.wall, asked.time, asked.unit, asked.dates),
        asked.set_c,
        asked.material,
        asked.wall_mm,
        asked.double,
        covers,
        asked.recipe,
        reference,
        asked.from_s,
        asked.to_s,
    )
