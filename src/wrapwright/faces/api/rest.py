"""The routers of the REST face, in one tuple."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from typing import Any

from fastapi import FastAPI

from wrapwright.faces.api.failing import Failure

NAMES = ("shelf", "measuring", "drawings", "bringing", "setups", "designs", "revisions", "made", "session")

FAILURES: dict[int | str, dict[str, Any]] = {
    "4XX": {"model": Failure, "description": "What is wrong, in the words of the command line."},
    "5XX": {"model": Failure, "description": "What is missing, out of reach or our own fault."},
}


def add_api(app: FastAPI) -> None:
    """Add every router below /api."""
    for name in NAMES:
        module = f"wrapwright.faces.api.routes.{name}"
        if find_spec(module) is None:
            continue
        try:
            router = import_module(module).router
        except ModuleNotFoundError:
            continue
        app.include_router(router, prefix="/api", responses=FAILURES)
