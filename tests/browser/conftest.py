"""The bench running for a browser: with a store of its own, or one for all tests that begin with a design of their own.

One Chromium serves all of them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from tests.browser.flat import FLAT
from tests.browser.running import Running, running
from tests.witness import need

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--renderer-process-limit=1",  # starting one for every page takes longer than most tests do there
)
# WCAG 2.0 to 2.2, levels A and AA, and axe's own best practice.
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Give Debian's Chromium, drawing without a graphics card."""
    from playwright.sync_api import sync_playwright

    path = need("chromium")
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=path, args=list(FLAGS))
        yield started
        started.close()


@pytest.fixture(scope="session")
def art_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the one cache that all servers of this run share."""
    return tmp_path_factory.mktemp("bench-cache")


@pytest.fixture
def server(tmp_path: Path, art_cache: Path) -> Iterator[Running]:
    """Give a running bench with nothing in its store: `url`, and the folder `data`."""
    with running(tmp_path / "data", art_cache) as started:
        yield started


@pytest.fixture(scope="session")
def common(tmp_path_factory: pytest.TempPathFactory, art_cache: Path) -> Iterator[Running]:
    """Give the one bench of all tests to which it is nothing what else lies in the store."""
    with running(tmp_path_factory.mktemp("bench") / "data", art_cache) as started:
        yield started


@pytest.fixture
def open_page(browser: Any, server: Running) -> Iterator[Callable[..., Any]]:
    """Give a function that opens a fresh page (context words as Playwright's); an error on it fails the test.

    The context goes round the page's content security policy, since tests hand functions to the page; one test holds
    the policy itself against every screen. Drawing in space without a graphics card takes most of a small machine:
    only pages opened with `in_space=True` do it, the others show what stands in its place.
    """
    contexts: list[Any] = []
    wrong: list[str] = []

    def opened(*, in_space: bool = False, **words: Any) -> Any:
        settled = {"viewport": {"width": 1440, "height": 900}, "bypass_csp": True, "base_url": server.url, **words}
        context = browser.new_context(**settled)
        context.set_default_timeout(8000)
        contexts.append(context)
        if not in_space:
            context.add_init_script(FLAT)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrong == []


@pytest.fixture
def page(open_page: Callable[..., Any]) -> Any:
    """Give one page of a desk's screen."""
    return open_page()


@pytest.fixture(scope="session")
def axe() -> Callable[[Any], list[str]]:
    """Give a function that lists what axe-core finds wrong on a page, a line a node."""
    script = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")

    def found(page: Any) -> list[str]:
        if not page.evaluate("() => !!window.axe"):
            page.evaluate(script)
        result = page.evaluate("rules => axe.run(document, {runOnly: {type: 'tag', values: rules}})", RULES)
        assert result["passes"], "axe looked at nothing"
        return [
            re.sub(r"\s+", " ", f"{one['id']}: {node['html'][:160]} {node['failureSummary'][:200]}")
            for one in result["violations"]
            for node in one["nodes"]
        ]

    return found
