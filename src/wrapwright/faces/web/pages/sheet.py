"""The screen on which a design's sheets are looked at and made."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.findings import NEVER_ACCEPTED
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch

router = APIRouter()


@router.get("/designs/{design:int}/sheet", response_class=HTMLResponse)
def sheet(request: Request, design: Id) -> HTMLResponse:
    """Return the screen of one design's sheets; what is on them is fetched by the screen."""
    from wrapwright.jobs.kept.designs import ShowDesign, show_design

    kept = show_design(ShowDesign(design), request.app.state.bench, Watch())
    quantity = kept.document.get("quantity", 1)
    start = {"design": kept.id, "revision": kept.revision, "never": sorted(NEVER_ACCEPTED)}
    return page(request, "sheet.html", step="sheet", design=kept.id, title=kept.title, start=start, quantity=quantity)
