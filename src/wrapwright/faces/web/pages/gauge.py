"""The screen on which a gauge is drawn for rough readings, and its reading becomes a blank's flat length."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.blank.gauge.reading import DIVISIONS, STEP_MM
from wrapwright.core.blank.gauge.strip import HALF_MM
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch

router = APIRouter()


@router.get("/gauge", response_class=HTMLResponse)
def gauge(request: Request, setup: Whole = 0, blank: Whole = 0) -> HTMLResponse:
    """Return the screen; `setup` and `blank` are chosen already, the blank's own readings are the rough ones."""
    from wrapwright.jobs.kept.blanks import ListBlanks, list_blanks
    from wrapwright.jobs.kept.setups import ListSetups, list_setups

    bench: Bench = request.app.state.bench
    setups = list_setups(ListSetups(), bench, Watch())
    blanks = [one for one in list_blanks(ListBlanks(), bench, Watch()) if one.table.get("kind") != "flat"]
    start = {
        "setup": setup or (setups[0].id if setups else 0),
        "blank": blank,
        "rough": {one.id: _rough(one.table) for one in blanks},
        "divisions": DIVISIONS,
        "step": STEP_MM,
        "half": HALF_MM,
    }
    return page(
        request,
        "gauge.html",
        step="measure",
        start=start,
        setups=setups,
        blanks=blanks,
        cautions=[one.text for one in cautions() if one.name == "ink-gloves"],
    )


def _rough(table: Any) -> dict[str, float]:
    """Return the rough readings of a blank in mm: girth, or top and bottom, and wall; nothing where it has none."""
    from wrapwright.core.base.errors import WrapwrightError
    from wrapwright.core.blank.measuring.wall import wall_of
    from wrapwright.outside.jobfile.reading import read_document

    try:
        read = read_document({"format": 1, "blank": dict(table)}, folder=_nowhere(), stem="blank", absent={}).blank
        wall = wall_of(read, thickness_mm=0.0)
    except WrapwrightError:
        return {}
    bottom, top = wall.girths_mm[0], wall.girths_mm[-1]
    ends = {"girth": bottom} if read.kind == "straight" else {"top": top, "bottom": bottom}
    return {name: round(length, 2) for name, length in {**ends, "wall": wall.length_mm}.items()}


def _nowhere() -> Any:
    from pathlib import Path

    return Path()
