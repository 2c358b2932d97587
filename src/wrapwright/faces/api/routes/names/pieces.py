"""One row of a design's list as its piece will look, and who agreed to all of them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query
from pydantic import Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.names.signing import LONGEST_NAME
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Frame, Id
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.live.proofs import LEAST_PX, MOST_PX
from wrapwright.jobs.live.values import Drawn
from wrapwright.jobs.names.live.drawing import DrawRow, RowPicture, draw_row, row_picture
from wrapwright.jobs.names.live.signing import SeeSigned, SignedView, SignList, see_signed, sign_list

router = APIRouter(tags=["names"])

Row = Annotated[int, Path(ge=1, le=LARGEST)]
State = Annotated[str, Query(max_length=100, description="What the piece is; makes the answer keep.")]


class SignBody(Body):
    """Who agreed to the contact sheet."""

    by: Annotated[str, Field(min_length=1, max_length=LONGEST_NAME)]


@router.get("/designs/{number}/names/signed")
def signed(number: Id, bench: BenchAsked) -> SignedView:
    """Return what is to be said of the list's sign-off."""
    return see_signed(SeeSigned(number), bench, QUIET)


@router.post("/designs/{number}/names/signed")
def sign(number: Id, body: SignBody, bench: BenchAsked) -> SignedView:
    """Return what is to be said once the list is signed off, today."""
    return sign_list(SignList(number, body.by), bench, QUIET)


@router.get("/designs/{number}/names/rows/{row}/drawn")
def drawn(number: Id, row: Row, bench: BenchAsked, frame: Frame = "flat") -> Drawn:
    """Return the row's piece, drawn."""
    return draw_row(DrawRow(number, row, frame), bench, QUIET)


@router.get("/designs/{number}/names/rows/{row}/proof.jpg", **one_kind("image/jpeg"))
def proof(
    number: Id,
    row: Row,
    request: Request,
    bench: BenchAsked,
    width: Annotated[int, Query(ge=LEAST_PX, le=MOST_PX)] = 1024,
    frame: Frame = "flat",
    state: State = "",
) -> Response:
    """Return the row's whole wrap as it will look."""
    picture = row_picture(RowPicture(number, row, width, frame), bench, QUIET)
    return kept_answer(request, picture, "image/jpeg", forever=bool(state))
