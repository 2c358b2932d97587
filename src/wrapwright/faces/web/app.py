"""The web face put together: the pages, the REST face below /api, the browser's files, and the gate before them."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec

from fastapi import FastAPI
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.faces.api.routes import add_api
from wrapwright.faces.opening import bench_of
from wrapwright.faces.web.assets import Assets
from wrapwright.faces.web.gate import Gate
from wrapwright.outside.system.installed import version
from wrapwright.settings import Settings

PAGES = ("shelf", "measure", "compose", "sheet", "history", "setups", "login")


def create_app(settings: Settings) -> FastAPI:
    """Return the application; `app.state` holds the bench (`bench`) and the browser's files (`assets`)."""
    app = FastAPI(
        title="Wrapwright",
        version=version(),
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
    )
    app.state.bench = bench_of(settings)
    app.state.assets = assets = Assets()
    add_api(app)

    async def asset(request: Request) -> Response:
        return assets.answer(request, request.path_params["name"])

    app.add_route("/s/{version}/{name:path}", asset, methods=["GET", "HEAD"])
    for name in PAGES:
        module = f"wrapwright.faces.web.pages.{name}"
        if find_spec(module) is not None:
            app.include_router(import_module(module).router, include_in_schema=False)
    app.add_middleware(Gate)
    return app
