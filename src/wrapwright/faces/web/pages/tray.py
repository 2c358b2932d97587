"""The screen on which designs are put together on the fewest sheets."""

from __future__ import annotations

from dataclasses import asdict

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.findings import NEVER_ACCEPTED
from wrapwright.core.sheet.papers import PAPERS
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch

router = APIRouter()

FURTHER_PAPERS = ("13x19 in", "roll 610 mm")


@router.get("/tray", response_class=HTMLResponse)
def tray(request: Request) -> HTMLResponse:
    """Return the screen of the tray; how it lies is fetched by the screen."""
    from wrapwright.jobs.kept.designs import ListDesigns, list_designs
    from wrapwright.jobs.kept.setups import ListSetups, list_setups
    from wrapwright.jobs.tray.keeping import ShowTray, show_tray

    bench = request.app.state.bench
    kept = show_tray(ShowTray(), bench, Watch())
    designs = list_designs(ListDesigns(), bench, Watch())
    setups = list_setups(ListSetups(), bench, Watch())
    start = {
        "tray": asdict(kept.tray),
        "revision": kept.revision,
        "designs": [{"id": one.id, "title": one.title} for one in designs],
        "never": sorted(NEVER_ACCEPTED),
    }
    papers = (*PAPERS, *FURTHER_PAPERS)
    return page(request, "tray.html", step="tray", start=start, setups=setups, papers=papers)
