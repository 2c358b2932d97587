"""The screen on which a design's sheets are looked at and made."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.findings import NEVER_ACCEPTED
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch
from wrapwright.outside.store.records import Table

router = APIRouter()


def _nameless(sheet: Table) -> dict[str, Any]:
    """Return a [sheet] without the name of its set-up: it is told by its figures."""
    return {key: value for key, value in sheet.items() if key != "setup"}


@router.get("/designs/{design:int}/sheet", response_class=HTMLResponse)
def sheet(request: Request, design: Id) -> HTMLResponse:
    """Return the screen of one design's sheets; what is on them is fetched by the screen."""
    from wrapwright.jobs.kept.designs import ShowDesign, show_design
    from wrapwright.jobs.kept.setups import ListSetups, list_setups

    bench = request.app.state.bench
    kept = show_design(ShowDesign(design), bench, Watch())
    quantity = kept.document.get("quantity", 1)
    own = _nameless(kept.document.get("sheet", {})), dict(kept.document.get("colour", {}))
    setups = list_setups(ListSetups(), bench, Watch())
    setup = next((one.id for one in setups if (_nameless(one.sheet), dict(one.colour)) == own), 0)
    start = {"design": kept.id, "revision": kept.revision, "never": sorted(NEVER_ACCEPTED), "setup": setup}
    return page(request, "sheet.html", step="sheet", design=kept.id, title=kept.title, start=start, quantity=quantity)
