"""What is made: asked for, watched, stopped, fetched."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from fastapi import APIRouter, Query
from fastapi import Path as InPath
from pydantic import Field
from starlette.requests import Request
from starlette.responses import FileResponse

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Whole
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.made import (
    AskMaking,
    ListMade,
    RemoveMade,
    ShowMade,
    ask_making,
    folder_made,
    list_made,
    remove_made,
    show_made,
)
from wrapwright.jobs.live.worker import Makings
from wrapwright.outside.store.records import MadeKept
from wrapwright.outside.system.files import clean_name

router = APIRouter(tags=["made"])

# Files of a job are looked at by programs of the system, not by the page: nothing in them may act.
SANDBOX = {"Content-Security-Policy": "default-src 'none'; sandbox", "Cache-Control": "private, no-cache"}
# A browser's own viewer cannot work in a sandbox; a PDF or PNG of ours holds nothing that could act.
VIEWED = "default-src 'none'; img-src 'self'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'"
SHOWN = {**SANDBOX, "Content-Security-Policy": VIEWED}
TYPES = {".pdf": "application/pdf", ".png": "image/png", ".tif": "image/tiff", ".json": "application/json"}

MOST = 100  # makings of one answer; each brings its whole report along

Rule = Annotated[str, Field(max_length=60)]
FileName = Annotated[str, InPath(max_length=300)]


class MakingBody(Body):
    """What is to be made: a revision (0 is the newest), the kind of file, the rules whose errors are accepted."""

    design: Annotated[int, Field(ge=1, le=LARGEST)]
    revision: Annotated[int, Field(ge=0, le=LARGEST)] = 0
    output: Literal["pdf", "png", "tiff"] = "pdf"
    accept: Annotated[tuple[Rule, ...], Field(max_length=64)] = ()


def _makings(request: Request) -> Makings:
    makings: Makings = request.app.state.makings
    return makings


@router.post("/made", status_code=201)
def make(body: MakingBody, request: Request, bench: BenchAsked) -> MadeKept:
    """Return the making that now waits for its turn."""
    asked = AskMaking(body.design, body.revision, body.output, body.accept)
    waiting = ask_making(asked, bench, QUIET)
    _makings(request).wake()
    return waiting


@router.get("/made")
def everything_made(
    bench: BenchAsked, design: Whole = 0, before: Whole = 0, most: Annotated[int, Query(ge=1, le=MOST)] = MOST
) -> tuple[MadeKept, ...]:
    """Return makings, of one design or of all, the newest first; `before` is the number from which to go on."""
    return list_made(ListMade(design, before=before, most=most), bench, QUIET)


@router.get("/made/{number}")
def made(number: Id, bench: BenchAsked) -> MadeKept:
    """Return one making as it stands."""
    return show_made(ShowMade(number), bench, QUIET)


@router.post("/made/{number}/stop")
def stop(number: Id, request: Request, bench: BenchAsked) -> MadeKept:
    """Return the making as it stands once it is stopped; one that has ended stays as it is."""
    return _makings(request).stop(number)


def _left(number: int, name: str, bench: Bench) -> tuple[Path, str]:
    """Return where a file that was left lies, and the name to keep it under."""
    found = show_made(ShowMade(number), bench, QUIET)
    if name not in {one.name for one in found.files}:
        raise WrapwrightError(Kind.MISSING, "This making left no such file.", remedy="Look at its list of files.")
    place = folder_made(number, bench) / name
    if not place.is_file():
        raise WrapwrightError(Kind.MISSING, "The file is no longer in the store.", remedy="Make it again.")
    return place, clean_name(f"{found.title} {name}")


@router.get("/made/{number}/files/{name}", response_class=FileResponse)
def file(number: Id, name: FileName, bench: BenchAsked, *, show: bool = False) -> FileResponse:
    """Return one of the files that were left; with `show` to be looked at, else to be kept."""
    place, kept_as = _left(number, name, bench)
    kind = TYPES.get(place.suffix, "application/octet-stream")
    seen = show and kind in {"application/pdf", "image/png"}
    how, headers = ("inline", SHOWN) if seen else ("attachment", SANDBOX)
    return FileResponse(place, media_type=kind, filename=kept_as, content_disposition_type=how, headers=headers)


@router.delete("/made/{number}", status_code=204)
def nothing_made(number: Id, request: Request, bench: BenchAsked) -> None:
    """Remove a making with its files; one under way is stopped first."""
    _makings(request).stop(number)
    remove_made(RemoveMade(number), bench, QUIET)
