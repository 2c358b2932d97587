"""The screen that stands by the oven: what is heated, how long still, and how each piece came out."""

from __future__ import annotations

from functools import cache
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from wrapwright.data.press import cautions
from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.rendering import page

router = APIRouter()

Asked = Annotated[str, Query(max_length=2000)]

# At these steps' cautions one stands before the heater when it is loaded.
STEPS = ("prepare", "heat")


@router.get("/press", response_class=HTMLResponse)
def press(request: Request, pieces: Asked = "", recipe: Asked = "", heater: Asked = "") -> HTMLResponse:
    """Return the screen; pieces, recipe and heater of the address are chosen already. The rest is fetched by it."""
    start: dict[str, Any] = {
        "pieces": pieces,
        "recipe": recipe,
        "heater": heater,
        "cautions": [
            {"text": one.text, "grave": one.grave, "ware": one.ware, "heater": one.heater}
            for one in cautions()
            if one.step in STEPS
        ],
    }
    return page(request, "press.html", step="press", start=start, modules=modules())


@cache
def modules() -> tuple[str, ...]:
    """Return the browser's modules of this screen, relative to the static folder."""
    found = sorted((FOLDER / "mod" / "press").rglob("*.js"))
    return tuple(file.relative_to(FOLDER).as_posix() for file in found)
