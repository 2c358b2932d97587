"""The screen on which a design's list of names is looked at, put right and made."""

from __future__ import annotations

from dataclasses import asdict
from functools import cache
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.changes import CASES
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch

router = APIRouter()

AREAS = ("names", "view")  # what the screen loads beside a few parts of others
ENCODINGS = (("utf-8", "UTF-8"), ("utf-16", "UTF-16"), ("windows-1252", "Windows-1252"))
SEPARATORS = ("comma", "semicolon", "tab", "bar")


@router.get("/designs/{design:int}/names", response_class=HTMLResponse)
def names(request: Request, design: Id) -> HTMLResponse:
    """Return the screen of one design's list; its rows are fetched by the screen."""
    from wrapwright.jobs.kept.designs import ShowDesign, show_design
    from wrapwright.jobs.names.live.keeping import fields_needed

    bench: Bench = request.app.state.bench
    kept = show_design(ShowDesign(design), bench, Watch())
    blank = kept.document.get("blank", {})
    flat = isinstance(blank, dict) and str(blank.get("kind", "")).casefold() == "flat"
    start = {"design": kept.id, "list": _list(kept.id, bench), "cases": list(CASES)}
    return page(
        request,
        "names.html",
        step="names",
        design=kept.id,
        title=kept.title,
        flat=flat,
        start=start,
        needed=fields_needed(kept.document),
        encodings=ENCODINGS,
        separators=SEPARATORS,
        modules=modules(),
    )


def _list(design: int, bench: Bench) -> dict[str, Any] | None:
    """Return the design's list as the API tells it, or None; one that cannot be read any more is told by the API."""
    from wrapwright.jobs.names.live.showing import SeeList, see_list

    try:
        return asdict(see_list(SeeList(design), bench, Watch()))
    except WrapwrightError as problem:
        if problem.kind is Kind.MISSING:
            return None
        return {"wrong": f"{problem.message} {problem.remedy}".strip()}


@cache
def modules() -> tuple[str, ...]:
    """Return the browser's modules of this screen, relative to the static folder."""
    found = (file for area in AREAS for file in sorted((FOLDER / "mod" / area).rglob("*.js")))
    return tuple(file.relative_to(FOLDER).as_posix() for file in found)
