"""Drawings and pictures: blanks from their own numbers, elements, small pictures."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Path, Query
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.api.asking import QUIET, BenchAsked, Id, Sha256, Unit, Whole
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.kept.blanks import ShowBlank, list_starters, show_blank
from wrapwright.jobs.live.measuring import DrawBlank, draw_blank
from wrapwright.jobs.live.small_picture import SmallPicture, small_picture
from wrapwright.jobs.live.sprites import SpriteRequest, sprite

router = APIRouter(tags=["drawings"])

SVG = "image/svg+xml"
Form = Literal["small", "large", "flat"]
Width = Annotated[int, Query(ge=64, le=2000)]
Key = Annotated[str, Path(pattern="^[0-9a-zA-Z_-]{1,100}$")]


@router.get("/blanks/{number}/drawing.svg", **one_kind(SVG))
def blank_drawing(
    number: Id,
    request: Request,
    bench: BenchAsked,
    version: Whole = 0,
    unit: Unit = "mm",
    form: Form = "small",
    width: Width = 360,
) -> Response:
    """Return a blank of the shelf, drawn from its readings."""
    kept = show_blank(ShowBlank(id=number, version=version), bench, QUIET)
    drawn = draw_blank(DrawBlank(kept.table, kept.wrap, kept.name, unit, form, width), bench, QUIET)
    return kept_answer(request, drawn, SVG, forever=False)


@router.get("/starters/{key}/drawing.svg", **one_kind(SVG))
def starter_drawing(
    key: Key, request: Request, bench: BenchAsked, unit: Unit = "mm", form: Form = "small", width: Width = 360
) -> Response:
    """Return a shape to start from, drawn from its readings."""
    found = next((one for one in list_starters() if one.key == key), None)
    if found is None:
        raise WrapwrightError(Kind.MISSING, "There is no such shape to start from.", remedy="Look at their list.")
    drawn = draw_blank(DrawBlank(found.table, found.wrap, found.name, unit, form, width), bench, QUIET)
    return kept_answer(request, drawn, SVG, forever=False)


@router.get("/sprites/{key}.png", **one_kind("image/png"))
def element(key: Key, request: Request, bench: BenchAsked) -> Response:
    """Return the pixels of an element, which its key names."""
    return kept_answer(request, sprite(SpriteRequest(key), bench, QUIET), "image/png", forever=True)


@router.get("/pictures/{sha256}/small.jpg", **one_kind("image/jpeg"))
def small(sha256: Sha256, request: Request, bench: BenchAsked) -> Response:
    """Return a kept picture, at most 256 pixels long."""
    return kept_answer(request, small_picture(SmallPicture(sha256), bench, QUIET), "image/jpeg", forever=True)
