"""The screen that stands by the oven: what is heated, how long still, and how each piece came out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch

router = APIRouter()

Asked = Annotated[str, Query(max_length=2000)]

# At these steps' cautions one stands before the heater when it is loaded.
STEPS = ("prepare", "heat")


@dataclass(frozen=True)
class Wanted:
    """What is heated next: piece numbers with commas between, how many (0: as many as numbers), recipe, heater."""

    pieces: str = ""
    count: int = 0
    recipe: str = ""
    heater: str = ""


@router.get("/press", response_class=HTMLResponse)
def press(
    request: Request, pieces: Asked = "", recipe: Asked = "", heater: Asked = "", count: Whole = 0, made: Whole = 0
) -> HTMLResponse:
    """Return the screen with what the address chooses already; `made`: the pieces and recipe of what was made.

    What heats and what can be chosen is fetched by the screen.
    """
    wanted = Wanted(pieces, count, recipe, heater)
    start: dict[str, Any] = {
        **asdict(_made(request.app.state.bench, made, wanted) if made else wanted),
        "cautions": [
            {"text": one.text, "grave": one.grave, "ware": one.ware, "heater": one.heater}
            for one in cautions()
            if one.step in STEPS
        ],
    }
    return page(request, "press.html", step="press", start=start, modules=modules())


def _made(bench: Bench, number: int, wanted: Wanted) -> Wanted:
    """Return what a making's report says of its pieces and their heat; `wanted` where it has been removed."""
    from wrapwright.jobs.kept.made import ShowMade, show_made

    try:
        return wanted_of(show_made(ShowMade(number), bench, Watch()).report, number)
    except WrapwrightError:
        return wanted


def wanted_of(report: Mapping[str, Any], making: int) -> Wanted:
    """Return what a making's report says is to be heated: its pieces, recipe and heater.

    Pieces are called by their codes; on a design's own sheet, which has none, by the making and their number on it.
    """
    pieces = [piece for sheet in report.get("sheets", ()) for piece in sheet.get("pieces", ())]
    named = (str(piece.get("code") or f"MAKING {making}-{piece['piece']}") for piece in pieces)
    codes = tuple(dict.fromkeys(named))
    heats = [report, *report.get("jobs", ())]
    press: Mapping[str, Any] = next((one["press"] for one in heats if one.get("press")), {})
    recipe, heater = (press.get(key) or {} for key in ("recipe", "heater"))
    return Wanted(",".join(codes), 0, str(recipe.get("name", "")), str(heater.get("name", "")))


@cache
def modules() -> tuple[str, ...]:
    """Return the browser's modules of this screen, relative to the static folder."""
    found = sorted((FOLDER / "mod" / "press").rglob("*.js"))
    return tuple(file.relative_to(FOLDER).as_posix() for file in found)
