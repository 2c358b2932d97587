"""Pages of the view's and the dial's harness, closed at the end; an error on one fails the test."""

from __future__ import annotations

from typing import Any

from tests.browser.round.harness_server import Served
from tests.browser.round.solid_by_hand import PIECES, Dot, dotted_proof, drawn_piece


class Shown:
    """Opens pages with a drawn piece.

    Attributes:
        served: what the pages are served from.
        wrong: errors on a page so far.
    """

    def __init__(self, browser: Any, served: Served, before: str = "") -> None:
        """Open nothing yet; `before` is a script that runs first on every page."""
        self.browser, self.served, self.before = browser, served, before
        self.contexts: list[Any] = []
        self.wrong: list[str] = []

    def __call__(self, drawn: dict[str, Any], before: str = "", size: str = "") -> Any:
        """Return a page that shows it; `before` is a script that runs first, `size` is "large" or nothing."""
        self.served.give_json("/drawn.json", drawn)
        context = self.browser.new_context(base_url=self.served.url, viewport={"width": 860, "height": 760})
        context.set_default_timeout(8000)
        self.contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: self.wrong.append(str(error)))
        for script in filter(None, (self.before, before)):
            page.add_init_script(script)
        page.goto(f"/harness/view.html?drawn=/drawn.json&size={size}")
        page.wait_for_function("() => window.ready")
        page.evaluate("() => settled()")
        return page

    def close(self) -> None:
        """Close all pages."""
        for context in self.contexts:
            context.close()


def with_proof(served: Served, name: str, dots: tuple[Dot, ...] = (), path: str = "/proof-1.png") -> dict[str, Any]:
    """Return a drawn piece whose proof shows dots."""
    drawn = drawn_piece(name)
    box = drawn["frame"]["box"]
    served.given[path] = ("image/png", dotted_proof(PIECES[name].wrap, box, dots))
    drawn["proof"] = {"url": path, "box": box, "width_px": 1024, "height_px": 500}
    return drawn


def proof_seen(page: Any, url: str) -> None:
    """Wait until the view shows a proof."""
    page.wait_for_function("url => view.sheets.shown === url && view.sheets.slot === 'proof'", arg=url)
    page.evaluate("() => settled()")


def heard(page: Any, name: str) -> list[dict[str, Any]]:
    """Return the events of a name that came so far."""
    found: list[dict[str, Any]] = page.evaluate("name => heard.filter(one => one.name === name)", name)
    return found
