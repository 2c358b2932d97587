"""What is known of a heater, and from what: logs, readings, recipes known to be good, maps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal

from anyio import to_thread
from fastapi import APIRouter, Query
from pydantic import BaseModel, Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.units import length_mm, temperature_step_k
from wrapwright.core.press.fit.values import Reference
from wrapwright.core.press.fit.without.oven_map import Point
from wrapwright.core.press.load.asked import set_celsius
from wrapwright.core.press.recipe.asked import celsius_of, seconds_of
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
)
from wrapwright.jobs.press.evidence.without import keep_known, keep_map, keep_readings
from wrapwright.outside.logs.values import LogAsked, LogLook

router = APIRouter(tags=["evidence"])

SVG = "image/svg+xml"
BIGGEST = 256 * MB
Words = Annotated[str, Field(max_length=400)]
Number = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]
# A number is in degrees C (a difference in K, a time in s, a length in mm); a text says its unit.
Heat = Number | Annotated[str, Field(max_length=60)]


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
    set_c: Heat | None = None
    material: Words = ""
    wall_mm: Heat | None = None
    double: bool | None = None
    covers: Words | None = None
    recipe: Words = ""
    true_c: Heat | None = None
    shown_c: Heat | None = None
    from_s: Heat | None = None
    to_s: Heat | None = None


class ReadingsBody(Gathered):
    """Readings of a thermometer at one setting, degrees C; the step of reading and the thermometer's own error, K."""

    set_c: Heat
    read_c: Annotated[list[Heat], Field(max_length=200)]
    step_k: Heat
    class_k: Heat | None = None


class KnownBody(Gathered):
    """A recipe known to be good in this heater, as it was heated."""

    recipe: Words
    set_c: Heat | None = None
    dwell_s: Heat | None = None
    pieces: Annotated[int, Field(ge=0, le=10**6)] = 1
    wall_mm: Heat | None = None


class PointBody(Body):
    """A point of a map: what was set, where, and what was read there, degrees C; how well that is known, K."""

    set_c: Heat
    place: Words
    read_c: Heat
    half_k: Heat = 5.0


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
    read = tuple(celsius_of(one, where="readings") for one in body.read_c)
    own = None if body.class_k is None else _step_k(body.class_k, "class")
    about, set_c = _about(number, body), set_celsius(body.set_c, where="set")
    asked = KeepReadings(about, set_c, read, _step_k(body.step_k, "step"), own)
    return told_table(keep_readings(asked, bench, QUIET))


@router.post("/press/heaters/{number}/evidence/recipes")
def known_good(number: Id, body: KnownBody, bench: BenchAsked) -> dict[str, Any]:
    """Return what a recipe known to be good tells, through the dose alone; with `keep` it is kept."""
    set_c = None if body.set_c is None else set_celsius(body.set_c, where="at")
    dwell_s = None if body.dwell_s is None else seconds_of(body.dwell_s, where="dwell")
    wall_mm = None if body.wall_mm is None else length_mm(body.wall_mm, where="wall")
    asked = KeepKnown(_about(number, body), body.recipe, set_c, dwell_s, body.pieces, wall_mm)
    return told_table(keep_known(asked, bench, QUIET))


@router.post("/press/heaters/{number}/evidence/maps")
def oven_map(number: Id, body: MapBody, bench: BenchAsked) -> dict[str, Any]:
    """Return what a map of the oven tells; with `keep` it is kept."""
    points = tuple(_point(one) for one in body.points)
    return told_table(keep_map(KeepMap(_about(number, body), points), bench, QUIET))


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


def _step_k(value: Heat, where: str) -> float:
    return temperature_step_k(value, where=where) if isinstance(value, str) else value


def _point(body: PointBody) -> Point:
    set_c = set_celsius(body.set_c, where="points")
    read_c = celsius_of(body.read_c, where="points")
    return Point(set_c, body.place, read_c - set_c, _step_k(body.half_k, "points"))


def _log(number: int, asked: LogQuery) -> FitLog:
    reference = None
    if asked.true_c is not None and asked.shown_c is not None:
        reference = Reference(*(celsius_of(one, where="reference") for one in (asked.true_c, asked.shown_c)))
    since, until = (None if one is None else seconds_of(one, where="from") for one in (asked.from_s, asked.to_s))
    covers = None if asked.covers is None else tuple(one for one in asked.covers.split(",") if one)
    return FitLog(
        Path(),
        _about(number, asked),
        LogAsked(asked.air, asked.wall, asked.time, asked.unit, asked.dates),
        None if asked.set_c is None else set_celsius(asked.set_c, where="at"),
        asked.material,
        None if asked.wall_mm is None else length_mm(asked.wall_mm, where="wall"),
        asked.double,
        covers,
        asked.recipe,
        reference,
        since,
        until,
    )
