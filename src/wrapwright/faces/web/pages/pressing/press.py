"""The screen that stands by the oven: what is heated, how long still, and how each piece came out."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from wrapwright.faces.web.rendering import page

router = APIRouter()

Asked = Annotated[str, Query(max_length=400)]


@router.get("/press", response_class=HTMLResponse)
def press(request: Request, pieces: Asked = "", recipe: Asked = "", heater: Asked = "") -> HTMLResponse:
    """Return the screen; pieces, recipe and heater of the address are chosen already. The rest is fetched by it."""
    start = {"pieces": pieces, "recipe": recipe, "heater": heater}
    return page(request, "press.html", step="press", start=start)
