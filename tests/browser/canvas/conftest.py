"""One stage for all tests of a file: a page with the canvas alone, opened anew for each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.browser.canvas.canvas_stage import Stage, served, staged


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with served() as url:
        yield url


@pytest.fixture(scope="module")
def one_stage(browser: Any, address: str) -> Iterator[Stage]:
    with staged(browser, address) as one:
        yield one


@pytest.fixture
def stage(one_stage: Stage) -> Iterator[Stage]:
    one_stage.open()
    yield one_stage
    assert one_stage.wrong == []
