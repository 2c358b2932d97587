"""Measuring: readings understood at each key, and lengths as people write them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from wrapwright.faces.api.asking import Unit
from wrapwright.jobs.live.lengths import LengthRead, ReadLength, read_length

router = APIRouter(tags=["measuring"])


@router.get("/length")
def length(text: Annotated[str, Query(max_length=200)], unit: Unit = "mm") -> LengthRead:
    """Return what a length as a person writes it comes to; without a unit of its own it is in `unit`."""
    return read_length(ReadLength(text, unit))
