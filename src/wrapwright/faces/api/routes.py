"""The routers of the REST face, in one tuple."""

from __future__ import annotations

from fastapi import APIRouter, FastAPI

ROUTERS: tuple[APIRouter, ...] = ()


def add_api(app: FastAPI) -> None:
    """Add every router below /api."""
    for router in ROUTERS:
        app.include_router(router, prefix="/api")
