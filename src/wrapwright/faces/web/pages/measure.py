"""The screen on which a blank is measured."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.blank.measuring.tape import TAPE_KINDS
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.rendering import page, trouble
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.outside.store.records import BlankKept

router = APIRouter()

MOST_VERSIONS = 40
SIDES = ("front", "right", "back", "left")


@dataclass(frozen=True)
class VersionShown:
    """A version of the blank in the list beside it."""

    number: int
    added: datetime
    current: bool


@router.get("/measure", response_class=HTMLResponse)
def measure(request: Request, starter: Annotated[str, Query(max_length=80)] = "") -> HTMLResponse:
    """Return the empty form, or one that starts from a shipped shape."""
    from wrapwright.jobs.kept.blanks import list_starters

    found = next((one for one in list_starters() if one.key == starter), None) if starter else None
    if starter and found is None:
        message, remedy = "There is no such shape to start from.", "Choose one on the shelf."
        return trouble(request, WrapwrightError(Kind.MISSING, message, remedy=remedy), 404)
    start = {"table": dict(found.table), "wrap": dict(found.wrap)} if found else {}
    return _form(request, start | {"starter": found.name if found else ""}, versions=())


@router.get("/measure/{blank:int}", response_class=HTMLResponse)
def measured(request: Request, blank: Id, version: Annotated[int, Query(ge=0, le=10**9)] = 0) -> HTMLResponse:
    """Return the form with a blank's readings; with `version` an older one of them."""
    from wrapwright.jobs.kept.blanks import ShowBlank, show_blank

    bench: Bench = request.app.state.bench
    kept = show_blank(ShowBlank(id=blank, version=version), bench, Watch())
    start = {
        "id": kept.id,
        "name": kept.name,
        "version": kept.version,
        "newest": kept.newest,
        "table": dict(kept.table),
        "wrap": dict(kept.wrap),
    }
    return _form(request, start, versions=_versions(kept, bench))


def _versions(kept: BlankKept, bench: Bench) -> tuple[VersionShown, ...]:
    """Return the versions of a blank, the newest first."""
    from wrapwright.jobs.kept.blanks import ShowBlank, show_blank

    numbers = range(kept.newest, max(0, kept.newest - MOST_VERSIONS), -1)
    found = (show_blank(ShowBlank(id=kept.id, version=number), bench, Watch()) for number in numbers)
    return tuple(VersionShown(one.version, one.added, one.version == kept.version) for one in found)


def _form(request: Request, start: dict[str, Any], *, versions: tuple[VersionShown, ...]) -> HTMLResponse:
    empty = {"id": 0, "name": "", "version": 0, "newest": 0, "table": {}, "wrap": {}, "starter": ""}
    return page(
        request,
        "measure.html",
        step="measure",
        start=empty | start,
        versions=versions,
        tapes=TAPE_KINDS,
        sides=SIDES,
    )
