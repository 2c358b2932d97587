"""One revision of a design: what the checks say, its proof, its sheets, its file. Each has one answer for ever."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query
from starlette.responses import Response

from wrapwright.faces.api.asking import FOREVER, LARGEST, QUIET, BenchAsked, Id
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import ShowDesign, folder_of, show_design
from wrapwright.jobs.live.checking import CheckLive, check_live
from wrapwright.jobs.live.values import LiveChecks
from wrapwright.outside.store.records import Table

router = APIRouter(tags=["revisions"])

Number = Annotated[int, Path(ge=1, le=LARGEST)]
Mm = Annotated[float | None, Query(ge=-100_000, le=100_000)]


def document_of(number: int, revision: int, bench: Bench) -> Table:
    """Return the document of one revision; 0 is the newest."""
    return show_design(ShowDesign(number, revision), bench, QUIET).document


def picture(content: bytes, kind: str) -> Response:
    """Return a picture that may be kept for ever under its address."""
    return Response(content, media_type=f"image/{kind}", headers=FOREVER)


@router.get("/designs/{number}/revisions/{revision}/checks")
def checks(number: Id, revision: Number, bench: BenchAsked) -> LiveChecks:
    """Return what the checks say of a revision."""
    document = document_of(number, revision, bench)
    return check_live(CheckLive(document, folder_of(number, bench), revision), bench, QUIET)
