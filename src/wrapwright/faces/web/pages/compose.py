"""The screen on which a design is composed."""

from __future__ import annotations

from functools import cache

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch

router = APIRouter()

# What the screen's modules load; named beforehand, so that the browser asks for all of them at once.
AREAS = ("app", "canvas", "view", "dial", "compose")


@router.get("/designs/{design:int}", response_class=HTMLResponse)
def compose(request: Request, design: Id) -> HTMLResponse:
    """Return the screen of one design; the design itself is fetched by the screen."""
    from wrapwright.jobs.kept.designs import ShowDesign, show_design

    kept = show_design(ShowDesign(design), request.app.state.bench, Watch())
    blank = kept.document.get("blank", {})
    flat = isinstance(blank, dict) and str(blank.get("kind", "")).casefold() == "flat"
    return page(request, "compose.html", step="compose", design=kept.id, title=kept.title, flat=flat, modules=modules())


@cache
def modules() -> tuple[str, ...]:
    """Return the browser's modules of this screen, relative to the static folder."""
    found = (file for area in AREAS for file in sorted((FOLDER / "mod" / area).rglob("*.js")))
    return tuple(file.relative_to(FOLDER).as_posix() for file in found)
