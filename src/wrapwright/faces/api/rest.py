"""The routers of the REST face, in one tuple, and what all of their answers have in common."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI

from wrapwright.faces.api.failing import Failure
from wrapwright.faces.api.routes import (
    bringing,
    calibrating,
    designs,
    drawings,
    made,
    measuring,
    printing,
    revisions,
    session,
    setups,
    shelf,
    tray,
)
from wrapwright.faces.api.routes.names import lists, pieces
from wrapwright.faces.api.routes.pressing import evidence, heaters, heats, planning, recipes, trials

ROUTERS = (
    shelf.router,
    measuring.router,
    drawings.router,
    bringing.router,
    setups.router,
    calibrating.router,
    designs.router,
    revisions.router,
    made.router,
    printing.router,
    tray.router,
    lists.router,
    pieces.router,
    heats.router,
    planning.router,
    recipes.router,
    heaters.router,
    evidence.router,
    trials.router,
    session.router,
)

FAILURES: dict[int | str, dict[str, Any]] = {
    "4XX": {"model": Failure, "description": "What is wrong, in the words of the command line."},
    "5XX": {"model": Failure, "description": "What is missing, out of reach or our own fault."},
}


def add_api(app: FastAPI) -> None:
    """Add every router below /api."""
    for router in ROUTERS:
        app.include_router(router, prefix="/api", responses=FAILURES)
