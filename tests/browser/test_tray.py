"""The tray in a browser: filled, laid, moved by mouse and keys, cut stroke by stroke, kept; seen by axe."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.tray.keeping import KeepTray, ShowTray, keep_tray, show_tray
from wrapwright.jobs.tray.values import Tray

PATIENCE_MS = 40_000  # the first search of all brings its code along


@pytest.fixture
def server(common: Running) -> Running:
    """Give the bench that these tests share, its tray empty."""
    bench = common.app.state.bench
    keep_tray(KeepTray(Tray(), show_tray(ShowTray(), bench, Watch()).revision), bench, Watch())
    return common


def design(server: Running, title: str, **blank: str) -> int:
    document = {
        "format": 1,
        "title": title,
        "blank": blank,
        "sheet": {"paper": "A4", "ppi": 100},
        "element": [{"kind": "fill", "colour": "#0e3a5a"}],
    }
    return new_design(NewDesign(title, document), server.app.state.bench, Watch()).id


def place(page: Any, key: str) -> tuple[float, float]:
    """Return how far a copy lies from the left and the top of its sheet, as its label says."""
    label = page.locator(f'[data-key="{key}"]').get_attribute("aria-label")
    found = re.search(r"([\d.]+)\smm from the left and ([\d.]+)\smm from the top", label)
    assert found, label
    return float(found[1]), float(found[2])


def test_filled_moved_and_cut(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    tag = design(server, "Door tag", kind="flat", width="50 mm", height="30 mm")
    cup = design(server, "Cup", kind="straight", flat="180 mm", wall="60 mm")
    page.goto("/tray")
    for number, count in ((tag, "9"), (cup, "2")):
        page.select_option("#design", str(number))
        page.click("#add button")
        field = page.locator(".t-count").last
        field.fill(count)
        field.press("Tab")
    page.locator(".t-copy").nth(10).wait_for(timeout=PATIENCE_MS)
    assert page.locator("#answer").inner_text().startswith("1 sheet · proven fewest")
    assert "every cut from edge to edge" in page.locator("#words").inner_text()

    page.locator("#cut-next").click()
    assert page.locator("#cut-words").inner_text().startswith("1. ")
    assert page.locator(".t-now").count() == 1
    page.locator("#cut-next").click()
    assert (page.locator(".t-now").count(), page.locator(".t-cut").count()) == (1, 1)

    held = page.locator('[data-key="0-3"]')
    held.focus()
    before = place(page, "0-3")
    held.press("p")
    page.locator('[data-key="0-3"].t-pinned').wait_for()
    assert place(page, "0-3") == pytest.approx(before, abs=0.5)

    label = held.get_attribute("aria-label")
    # By mouse to the middle of the sheet, whatever lay there.
    box, sheet = (page.locator(one).bounding_box() for one in ('[data-key="0-3"] .t-hit', ".t-paper"))
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.mouse.move(sheet["x"] + sheet["width"] / 2, sheet["y"] + sheet["height"] / 2, steps=4)
    page.mouse.up()
    page.wait_for_function(
        "was => document.querySelector('[data-key=\"0-3\"]').getAttribute('aria-label') !== was", arg=label
    )
    [pin] = show_tray(ShowTray(), server.app.state.bench, Watch()).tray.pins
    assert (pin.piece, pin.copy, pin.sheet) == (0, 3, 0)
    wide, high = (50.0, 30.0) if pin.turn_deg % 180 == 0 else (30.0, 50.0)
    assert place(page, "0-3") == pytest.approx(((210.0 - wide) / 2, (297.0 - high) / 2), abs=1.5)
    assert page.locator(".t-copy").count() == 11
    assert axe(page) == []

    page.reload()
    page.locator('[data-key="0-3"].t-pinned').wait_for()
    page.locator('[data-key="0-3"]').focus()
    page.keyboard.press("u")
    page.locator('[data-key="0-3"]:not(.t-pinned)').wait_for()
    assert page.locator("#unpin").is_hidden()


def test_what_cannot_be_is_told_where_it_stands(
    open_page: Callable[..., Any], server: Running, axe: Callable[[Any], list[str]]
) -> None:
    wide = design(server, "Vat", kind="straight", flat="900 mm", wall="300 mm")
    page = open_page(color_scheme="dark", viewport={"width": 390, "height": 844})
    page.goto("/tray")
    assert page.locator("#make").get_attribute("aria-disabled") == "true"
    page.select_option("#design", str(wide))
    page.click("#add button")
    page.locator(".t-piece .finding", has_text="too").wait_for(timeout=PATIENCE_MS)
    assert page.locator("#make").get_attribute("title") == "Put a design in the tray first."
    paper = page.locator("#papers input").first
    paper.fill("A44")
    paper.press("Tab")
    page.locator("#tray-trouble", has_text="A44").wait_for()
    paper.fill("roll 610 mm")
    paper.press("Tab")
    page.locator(".t-copy").wait_for()
    assert page.locator("#tray-trouble").is_hidden()
    assert axe(page) == []
