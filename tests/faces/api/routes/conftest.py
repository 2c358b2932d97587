"""One started application for all tests of a module, and what they bring to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.faces.asked import app_at, asking


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """Give a client of a bench of the module's own."""
    with asking(app_at(tmp_path_factory.mktemp("bench"))) as made:
        yield made
