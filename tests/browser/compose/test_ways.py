"""The composing screen from elsewhere and about: an address that names an element, zoom, an answer that comes late."""

from __future__ import annotations

from typing import Any

import pytest
from tests.browser.compose.composing import composing, job, words
from tests.browser.running import Running

CREST = words("Crest", "W", at="front", up="46 mm")
ZOOM = "() => document.querySelector('wrap-canvas').zoom"


@pytest.fixture
def server(common: Running) -> Running:
    """Give the bench that these tests share: each keeps a design of its own."""
    return common


def test_the_address_names_an_element_and_buttons_zoom(page: Any) -> None:
    on = composing(page, job(CREST, words("Other", "B", at="right")))
    page.goto(f"/designs/{on.design}#element-1")
    page.wait_for_function("() => document.querySelector('wrap-canvas').selected[0] === '1.0'")
    page.goto(f"/designs/{on.design}#element-7")  # there is none: nothing else is selected
    on.reload()
    assert page.evaluate("() => document.querySelector('wrap-canvas').selected") == []
    whole = page.get_by_role("button", name="Fit the whole wrap")
    fitted = page.evaluate(ZOOM)
    page.get_by_role("button", name="Zoom in").click()
    assert page.evaluate(ZOOM) == pytest.approx(1.25 * fitted)
    assert whole.get_attribute("aria-pressed") == "false"
    page.get_by_role("button", name="Zoom in").click()
    page.get_by_role("button", name="Zoom out").click()
    assert page.evaluate(ZOOM) == pytest.approx(1.25 * fitted)
    whole.click()
    assert page.evaluate(ZOOM) == pytest.approx(fitted)
    assert whole.get_attribute("aria-pressed") == "true"


def test_an_answer_older_than_what_was_saved_meanwhile_changes_nothing(page: Any) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    held: list[Any] = []

    def hold(route: Any) -> None:
        if route.request.method == "GET" and not held:
            held.append((route, route.fetch()))
        else:
            route.continue_()

    page.route("**/api/designs/*?frame=*", hold)
    page.evaluate("() => window.dispatchEvent(new Event('focus'))")  # as when the screen is looked at again
    on.until(lambda: bool(held), "the question whether there is something newer")
    on.type("up", "60")
    on.becomes("up", "60 mm")
    route, before = held[0]
    with page.expect_response(lambda answer: answer.request.method == "GET" and "frame=" in answer.url):
        route.fulfill(response=before)
    on.type("turn", "5")  # sent on top of the newest revision: nobody is asked whose is kept
    on.becomes("turn", 5)
    assert (on.field("up").input_value(), on.element()["up"]) == ("60", "60 mm")


def test_who_works_the_findings_by_keys_stays_among_them(page: Any) -> None:
    on = composing(page, job(words("Tiny", "Weir Street", size="1 mm", at="right")))
    on.choose("0")
    on.type("turn", "5")
    on.becomes("turn", 5)
    finding = page.locator(".finding-go", has_text="Tiny").first
    finding.wait_for()
    finding.focus()
    page.keyboard.press("Control+z")
    on.becomes("turn", None)
    page.locator("#checks-count", has_text="warning").wait_for()
    assert page.evaluate("() => !!document.activeElement.closest('#findings')")


def test_a_browser_that_keeps_nothing_still_composes(page: Any) -> None:
    refused = "Object.defineProperty(window, '{}', {{get() {{ throw new DOMException('no', 'SecurityError'); }}}});"
    page.add_init_script(refused.format("localStorage") + refused.format("sessionStorage"))
    on = composing(page, job(CREST))
    on.choose("0")
    on.type("up", "60")
    on.becomes("up", "60 mm")
