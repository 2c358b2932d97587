"""Measuring: readings understood at each key, and lengths as people write them."""

from __future__ import annotations

from typing import Annotated

from anyio import to_thread
from fastapi import APIRouter, Query
from pydantic import Field
from starlette.requests import Request

from wrapwright.faces.api.asking import QUIET, RAW, BenchAsked, Body, Name, Table, Unit, UnitWord
from wrapwright.faces.api.incoming import MB, arriving
from wrapwright.jobs.live.lengths import LengthRead, ReadLength, read_length
from wrapwright.jobs.live.measured.outline import OutlineRead, ReadOutline, read_outline
from wrapwright.jobs.live.measuring import MeasuredLive, MeasureLive, measure_live

router = APIRouter(tags=["measuring"])

Px = Annotated[int, Field(ge=100, le=4000)]


class MeasureBody(Body):
    """The measuring form as it stands: every value as typed, shaped as a job's [blank] and [wrap]."""

    blank: Table
    wrap: Table = Field(default_factory=dict)
    unit: UnitWord = "mm"
    blank_px: Px = 360
    flat_px: Px = 620


@router.post("/measure")
def measure(body: MeasureBody, bench: BenchAsked) -> MeasuredLive:
    """Return the form understood, judged and drawn as far as it goes; what is wrong in it is told."""
    asked = MeasureLive(body.blank, body.wrap, body.unit, body.blank_px, body.flat_px)
    return measure_live(asked, bench, QUIET)


@router.put("/outlines/{name}", openapi_extra=RAW)
async def outline(name: Name, request: Request, bench: BenchAsked) -> OutlineRead:
    """Return the outline of a flat blank from its drawing, the body as it is, at most 20 MB; nothing is kept."""
    async with arriving(request, name, bench.folders.data, biggest=20 * MB) as come:
        return await to_thread.run_sync(read_outline, ReadOutline(come.file), bench, QUIET)


@router.get("/length")
def length(text: Annotated[str, Query(max_length=200)], unit: Unit = "mm") -> LengthRead:
    """Return what a length as a person writes it comes to; without a unit of its own it is in `unit`."""
    return read_length(ReadLength(text, unit))
