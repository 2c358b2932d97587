"""The application asked without a network: a client with a store of its own."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.faces.opening import open_settings
from wrapwright.faces.web.admission import Admission
from wrapwright.faces.web.app import create_app

if TYPE_CHECKING:
    from starlette.testclient import TestClient

HERE = "http://127.0.0.1"


def app_at(place: Path, admission: Admission | None = None) -> Any:
    """Return an application whose store and caches lie in a folder."""
    folders = {name: str(place / name) for name in ("data", "cache", "fonts")}
    return create_app(open_settings({**folders, "threads": 1}), admission)


@contextmanager
def asking(app: Any, *, base: str = HERE, client: tuple[str, int] = ("127.0.0.1", 50000)) -> Iterator[TestClient]:
    """Give a client of a started application."""
    with warnings.catch_warnings():
        # Starlette asks for the successor of httpx; what it uses of httpx is the same.
        warnings.simplefilter("ignore")
        from starlette.testclient import TestClient
    with TestClient(app, base_url=base, client=client, raise_server_exceptions=False, follow_redirects=False) as made:
        yield made
