"""Pages with a drawn piece, on which nothing may go wrong unheard."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.browser.round.harness_pages import Shown
from tests.browser.round.harness_server import serving


@pytest.fixture
def shown(browser: Any) -> Iterator[Shown]:
    """Give what opens pages with a drawn piece by itself."""
    with serving() as served:
        pages = Shown(browser, served)
        yield pages
        pages.close()
    assert pages.wrong == []
