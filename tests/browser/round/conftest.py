"""Pages with a drawn piece, on which nothing may go wrong unheard."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.browser.flat import FLAT
from tests.browser.round.harness_pages import Shown
from tests.browser.round.harness_server import serving


@pytest.fixture
def shown(request: pytest.FixtureRequest, browser: Any) -> Iterator[Shown]:
    """Give what opens pages with a drawn piece by itself; the dial's tests do without drawing it in space."""
    with serving() as served:
        pages = Shown(browser, served, FLAT if request.path.stem == "test_dial" else "")
        yield pages
        pages.close()
    assert pages.wrong == []
