"""One revision of a design: what the checks say, its proof, its sheets, its file."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Query
from fastapi import Path as InPath
from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import FileResponse, Response

from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Frame, Id, Whole
from wrapwright.faces.api.incoming import FOLDER
from wrapwright.faces.api.keeping import WHILE_IT_HOLDS, kept_answer, one_kind
from wrapwright.jobs.kept.designs import ShowDesign, folder_of, show_design
from wrapwright.jobs.kept.exchange import ExportDesign, export_design
from wrapwright.jobs.live.checking import CheckLive, check_live
from wrapwright.jobs.live.proofs import LEAST_PX, MOST_PX, ProofPicture, proof_picture
from wrapwright.jobs.live.sheet_view import SeeSheet, SheetPicture, SheetView, Side, see_sheet, sheet_picture
from wrapwright.jobs.live.values import Box, LiveChecks
from wrapwright.outside.store.records import DesignKept
from wrapwright.outside.system.files import clean_name

router = APIRouter(tags=["revisions"])

Number = Annotated[int, InPath(ge=1, le=LARGEST)]
Mm = Annotated[float | None, Query(ge=-10_000, le=10_000)]
State = Annotated[str, Query(max_length=100, description="What the files of the design are; makes the answer keep.")]


def _revision(number: Id, revision: Number, bench: BenchAsked) -> DesignKept:
    return show_design(ShowDesign(number, revision), bench, QUIET)


Asked = Annotated[DesignKept, Depends(_revision)]


@dataclass(frozen=True)
class PartAsked:
    """A part of a page, in mm from its upper left corner (the whole page when nothing is given), and how to see it."""

    page: Annotated[int, Query(ge=1, le=100_000)] = 1
    ppi: Annotated[float, Query(ge=10, le=2400)] = 60.0
    side: Side = "printed"
    x: Mm = None
    y: Mm = None
    width: Mm = None
    height: Mm = None

    def box(self) -> Box | None:
        """Return the box, or None for the whole page."""
        if self.width is None or self.height is None:
            return None
        return (self.x or 0.0, self.y or 0.0, self.width, self.height)


@router.get("/designs/{number}/revisions/{revision}/checks")
def checks(asked: Asked, bench: BenchAsked) -> LiveChecks:
    """Return what the checks say."""
    return check_live(CheckLive(asked.document, folder_of(asked.id, bench), asked.revision), bench, QUIET)


@router.get("/designs/{number}/revisions/{revision}/proof.jpg", **one_kind("image/jpeg"))
def proof(
    asked: Asked,
    request: Request,
    bench: BenchAsked,
    width: Annotated[int, Query(ge=LEAST_PX, le=MOST_PX)] = 1024,
    frame: Frame = "flat",
    state: State = "",
) -> Response:
    """Return the whole wrap as it will look."""
    picture = ProofPicture(asked.document, folder_of(asked.id, bench), width, frame)
    return kept_answer(request, proof_picture(picture, bench, QUIET), "image/jpeg", forever=bool(state))


@router.get("/designs/{number}/revisions/{revision}/sheet")
def sheet(asked: Asked, bench: BenchAsked) -> SheetView:
    """Return the sheets in figures and words."""
    return see_sheet(SeeSheet(asked.document, folder_of(asked.id, bench)), bench, QUIET)


@router.get("/designs/{number}/revisions/{revision}/sheet.png", **one_kind("image/png"))
def sheet_part(
    asked: Asked,
    request: Request,
    bench: BenchAsked,
    part: Annotated[PartAsked, Depends()],
    state: State = "",
) -> Response:
    """Return a part of a page as pixels, as it comes out of the printer or as seen through the paper."""
    picture = SheetPicture(asked.document, folder_of(asked.id, bench), part.page, part.ppi, part.side, part.box())
    return kept_answer(request, sheet_picture(picture, bench, QUIET), "image/png", forever=bool(state))


@router.get("/designs/{number}/job.zip", **one_kind("application/zip"))
def job_file(number: Id, bench: BenchAsked, revision: Whole = 0) -> FileResponse:
    """Return a design as one file: its job file with all it needs, to be kept or taken elsewhere."""
    title = show_design(ShowDesign(number, revision), bench, QUIET).title
    aside = bench.folders.data / FOLDER / f"{secrets.token_hex(8)}.zip"
    aside.parent.mkdir(parents=True, exist_ok=True)
    file = export_design(ExportDesign(number, revision, aside), bench, QUIET)
    gone = BackgroundTask(file.unlink, missing_ok=True)
    name, headers = f"{clean_name(title, otherwise='design')}.zip", {"Cache-Control": WHILE_IT_HOLDS}
    return FileResponse(file, media_type="application/zip", filename=name, headers=headers, background=gone)
