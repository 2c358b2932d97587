"""Designs: every revision of them, drawn for a screen."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Annotated

from anyio import to_thread
from fastapi import APIRouter, Response
from pydantic import Field
from starlette.requests import Request

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.api.asking import (
    LARGEST,
    QUIET,
    RAW,
    Base,
    BenchAsked,
    Body,
    Frame,
    Id,
    Search,
    Table,
    Title,
    Whole,
)
from wrapwright.faces.api.failing import answer
from wrapwright.faces.api.incoming import arriving
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import (
    CopyDesign,
    ListDesigns,
    NewDesign,
    PutFile,
    RedoDesign,
    RemoveDesign,
    SaveDesign,
    ShowDesign,
    UndoDesign,
    UseSetup,
    copy_design,
    folder_of,
    list_designs,
    new_design,
    put_file,
    redo_design,
    remove_design,
    save_design,
    show_design,
    undo_design,
    use_setup,
)
from wrapwright.jobs.kept.exchange import ImportDesign, import_design
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.live.values import Drawn, FrameKind
from wrapwright.outside.store.records import DesignKept, DesignRow

router = APIRouter(tags=["designs"])


class DesignBody(Body):
    """A new design: from a blank of the shelf, a shape to start from, or a whole document."""

    title: Annotated[str, Field(min_length=1, max_length=200)]  # as a document may have it
    blank_id: Annotated[int, Field(ge=0, le=LARGEST)] = 0
    starter: Annotated[str, Field(max_length=100)] = ""
    document: Table | None = None


class DocumentBody(Body):
    """The whole document of a new revision, as a job file would hold it."""

    document: Table


class SetupChoice(Body):
    """The set-up that a design is to be printed with."""

    setup_id: Annotated[int, Field(ge=1, le=LARGEST)]


class FileBody(Body):
    """A kept picture or profile, and the name that it should get in the design."""

    sha256: Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
    name: Title


@dataclass(frozen=True)
class FileNamed:
    """The name under which the design knows a file."""

    name: str


@dataclass(frozen=True)
class DesignDrawn:
    """One revision of a design, and what a screen gets of it."""

    design: DesignKept
    drawn: Drawn


def drawn_of(design: DesignKept, frame: FrameKind, bench: Bench, response: Response) -> DesignDrawn:
    """Return a revision with its drawing; the answer's ETag is the revision to start the next change from."""
    response.headers["ETag"] = f'"{design.revision}"'
    asked = DrawDesign(design.document, folder_of(design.id, bench), frame, design=design.id, revision=design.revision)
    return DesignDrawn(design, draw_design(asked, bench, QUIET))


@contextmanager
def newest_told(number: int, bench: Bench) -> Iterator[None]:
    """Answer a refusal (another station saved first) with the design's newest revision."""
    try:
        yield
    except WrapwrightError as error:
        if error.kind is not Kind.REFUSED:
            raise
        newest = show_design(ShowDesign(number), bench, QUIET).newest
        raise answer(409, Kind.REFUSED, error.message, remedy=error.remedy, current=newest) from error


@router.get("/designs")
def designs(bench: BenchAsked, search: Search = "") -> tuple[DesignRow, ...]:
    """Return all designs, the last saved first."""
    return list_designs(ListDesigns(search), bench, QUIET)


@router.post("/designs", status_code=201)
def begin_design(body: DesignBody, bench: BenchAsked) -> DesignKept:
    """Return the design added."""
    return new_design(NewDesign(body.title, body.document, body.blank_id, body.starter), bench, QUIET)


@router.post("/designs/import", status_code=201, openapi_extra=RAW)
async def bring_design(request: Request, bench: BenchAsked) -> DesignKept:
    """Return the design read from a zip file of ours, which is the body as it is."""
    async with arriving(request, "design.zip", bench.folders.data) as come:
        return await to_thread.run_sync(import_design, ImportDesign(come.file, come.name), bench, QUIET)


@router.get("/designs/{number}")
def design(
    number: Id, bench: BenchAsked, response: Response, frame: Frame = "flat", revision: Whole = 0
) -> DesignDrawn:
    """Return one revision (0 is the newest), drawn."""
    return drawn_of(show_design(ShowDesign(number, revision), bench, QUIET), frame, bench, response)


@router.put("/designs/{number}")
def save(
    number: Id, body: DocumentBody, base: Base, bench: BenchAsked, response: Response, frame: Frame = "flat"
) -> DesignDrawn:
    """Return the new revision, drawn; 409 with `current` when another station saved since the one in If-Match."""
    with newest_told(number, bench):
        kept = save_design(SaveDesign(number, body.document, base), bench, QUIET)
    return drawn_of(kept, frame, bench, response)


@router.post("/designs/{number}/undo")
def undo(number: Id, base: Base, bench: BenchAsked, response: Response, frame: Frame = "flat") -> DesignDrawn:
    """Return the step before, drawn."""
    with newest_told(number, bench):
        kept = undo_design(UndoDesign(number, base), bench, QUIET)
    return drawn_of(kept, frame, bench, response)


@router.post("/designs/{number}/redo")
def redo(number: Id, base: Base, bench: BenchAsked, response: Response, frame: Frame = "flat") -> DesignDrawn:
    """Return the step after, drawn."""
    with newest_told(number, bench):
        kept = redo_design(RedoDesign(number, base), bench, QUIET)
    return drawn_of(kept, frame, bench, response)


@router.post("/designs/{number}/setup")
def print_with(
    number: Id, body: SetupChoice, base: Base, bench: BenchAsked, response: Response, frame: Frame = "flat"
) -> DesignDrawn:
    """Return the design's new revision, with the sheet and colours of a set-up, drawn."""
    with newest_told(number, bench):
        kept = use_setup(UseSetup(number, body.setup_id, base), bench, QUIET)
    return drawn_of(kept, frame, bench, response)


@router.post("/designs/{number}/files")
def use_file(number: Id, body: FileBody, bench: BenchAsked) -> FileNamed:
    """Return the name to write in the document for a kept file."""
    return FileNamed(put_file(PutFile(number, body.sha256, body.name), bench, QUIET))


@router.post("/designs/{number}/copy", status_code=201)
def copy(number: Id, bench: BenchAsked, revision: Whole = 0) -> DesignKept:
    """Return a copy of a design as a design of its own."""
    return copy_design(CopyDesign(number, revision), bench, QUIET)


@router.delete("/designs/{number}", status_code=204)
def no_design(number: Id, bench: BenchAsked) -> None:
    """Remove a design with all its revisions; what was made of it stays."""
    remove_design(RemoveDesign(number), bench, QUIET)
