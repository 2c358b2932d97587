"""Measuring: readings understood at each key, and lengths as people write them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import Field

from wrapwright.faces.api.asking import QUIET, BenchAsked, Body, Table, Unit, UnitWord
from wrapwright.jobs.live.lengths import LengthRead, ReadLength, read_length
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


@router.get("/length")
def length(text: Annotated[str, Query(max_length=200)], unit: Unit = "mm") -> LengthRead:
    """Return what a length as a person writes it comes to; without a unit of its own it is in `unit`."""
    return read_length(ReadLength(text, unit))
