"""The shelf: the blanks, shapes to start from, and the designs."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.faces.web.pages.on_shelf import figures_of
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch

router = APIRouter()

FEW = 8  # designs shown before one asks for all of them


@router.get("/")
def shelf(request: Request, search: str = "") -> HTMLResponse:
    """Return the shelf, with only what a search finds when one is asked for."""
    from wrapwright.jobs.kept.blanks import ListBlanks, list_blanks, list_starters
    from wrapwright.jobs.kept.designs import ListDesigns, list_designs

    bench = request.app.state.bench
    blanks = list_blanks(ListBlanks(search), bench, Watch())
    return page(
        request,
        "shelf.html",
        step="shelf",
        search=search,
        few=FEW,
        blanks=[(one, figures_of(one.table)) for one in blanks],
        starters=[(one, figures_of(one.table)) for one in list_starters()],
        designs=list_designs(ListDesigns(search), bench, Watch()),
    )
