"""The web face put together: the pages, the REST face below /api, the browser's files, and the gate before them."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from functools import cache

from anyio import to_thread
from fastapi import FastAPI
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute

from wrapwright.faces.api.asking import QUIET
from wrapwright.faces.api.failing import add_failures, hidden_in, told
from wrapwright.faces.api.incoming import sweep
from wrapwright.faces.api.newest import Newest
from wrapwright.faces.api.rest import add_api
from wrapwright.faces.api.tries import Tries
from wrapwright.faces.opening import bench_of
from wrapwright.faces.web.admission import Admission
from wrapwright.faces.web.assets import Assets
from wrapwright.faces.web.gate import Gate
from wrapwright.faces.web.packing import Packing
from wrapwright.faces.web.pages import (
    calibrate,
    compose,
    gauge,
    history,
    login,
    measure,
    names,
    setups,
    sheet,
    shelf,
    tray,
)
from wrapwright.faces.web.pages.pressing import heater, heaters, press, recipes, trials
from wrapwright.faces.web.rendering import trouble
from wrapwright.jobs.kept.people import WhoIs, who_is
from wrapwright.jobs.live.worker import Makings
from wrapwright.outside.system.installed import version
from wrapwright.settings import Settings

PAGES = (
    shelf.router,
    measure.router,
    compose.router,
    sheet.router,
    names.router,
    tray.router,
    press.router,
    trials.router,
    recipes.router,
    heaters.router,
    heater.router,
    history.router,
    setups.router,
    calibrate.router,
    gauge.router,
    login.router,
)
THREADS = 12  # requests answered side by side; more would only wait for the processor


def create_app(settings: Settings, admission: Admission | None = None) -> FastAPI:
    """Return the application; what it is asked under, and who needs an account, is `admission`'s to say.

    `app.state` holds the bench (`bench`), the browser's files (`assets`), what is being made (`makings`), the wrong
    passwords (`tries`) and each window's newest request (`newest`).
    """
    app = FastAPI(
        title="Wrapwright",
        version=version(),
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        lifespan=_open,
    )
    bench = app.state.bench = bench_of(settings)
    assets = app.state.assets = Assets()
    app.state.makings = Makings(bench, lambda error: told(error, hidden_in(bench)))
    app.state.tries = Tries()
    app.state.newest = Newest()
    add_failures(app, trouble)

    async def asset(request: Request) -> Response:
        return assets.answer(request, request.path_params["name"])

    async def person(token: str) -> str:
        return await to_thread.run_sync(who_is, WhoIs(token), bench, QUIET)

    # First, since a screen asks for a hundred of them, and every router before would be asked too.
    app.add_route("/s/{version}/{name:path}", asset, methods=["GET", "HEAD"], include_in_schema=False)
    app.router.routes.extend(_pages_and_api())
    app.add_middleware(Packing)
    app.add_middleware(Gate, admission=admission or Admission(), who_is=person)
    return app


@cache
def _pages_and_api() -> tuple[BaseRoute, ...]:
    """Return the routes that are the same in every application: what they take and answer is worked out only once.

    That is done when they are first looked through, and takes most of a second of the processor's time.
    """
    together = FastAPI(openapi_url=None, docs_url=None, redoc_url=None)
    add_api(together)
    for router in PAGES:
        together.include_router(router, include_in_schema=False)
    return tuple(together.routes)


@asynccontextmanager
async def _open(app: FastAPI) -> AsyncIterator[None]:
    """Begin what runs beside the requests, and end it with them."""
    to_thread.current_default_thread_limiter().total_tokens = THREADS
    bench, makings = app.state.bench, app.state.makings
    await to_thread.run_sync(sweep, bench.folders.data)
    await to_thread.run_sync(makings.open)
    try:
        yield
    finally:
        await to_thread.run_sync(makings.close)
        await to_thread.run_sync(bench.kept().close)
