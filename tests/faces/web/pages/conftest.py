"""The pages answered without a browser, over a store of their own."""

from __future__ import annotations

import warnings
from pathlib import Path
from typing import Any

import pytest

from wrapwright.faces.opening import open_settings
from wrapwright.faces.web.app import create_app
from wrapwright.jobs.bench import Bench


@pytest.fixture
def client(tmp_path: Path) -> Any:
    """Give a client of the web face with nothing in its store."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it says that a newer client library is to come
        from starlette.testclient import TestClient

    folders = {"data": str(tmp_path / "data"), "cache": str(tmp_path / "cache"), "fonts": str(tmp_path / "fonts")}
    app = create_app(open_settings({**folders, "threads": 1}))
    return TestClient(app, base_url="http://127.0.0.1")


@pytest.fixture
def bench(client: Any) -> Bench:
    """Give the bench that the client's pages work on."""
    found: Bench = client.app.state.bench
    return found
