"""Calibrating a printer and measuring by paper, in a browser."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.calibrate.scales import KeepScale, ShowScales, keep_scale, show_scales
from wrapwright.jobs.kept.blanks import AddBlank, ShowBlank, add_blank, show_blank
from wrapwright.jobs.kept.setups import AddSetup, add_setup

QUIET = Watch()


def test_a_printer_is_calibrated(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    bench = server.app.state.bench
    setup = add_setup(AddSetup("Desk", {"paper": "Letter"}, {}), bench, QUIET).id
    for month, across in ((1, 206.2), (2, 206.8)):
        keep_scale(KeepScale((across, 271.0), id=setup, day=date(2026, month, 1)), bench, QUIET)
    page.goto("/setups")
    page.get_by_role("link", name="Desk: Calibrate").click()
    page.get_by_label("Across, measured").fill("207.4")
    page.get_by_label("Along, measured").fill("10.68")
    page.get_by_label("Measured on").fill("2026-03-01")
    page.get_by_role("button", name="Keep this measurement").click()
    wrong = page.locator("#along-wrong")
    wrong.get_by_text("Is it in another unit: 10.68 in (271.27 mm)?").wait_for()
    assert page.evaluate("document.activeElement.id") == "along"
    page.get_by_label("Along, measured").fill("10.68 in")
    page.get_by_label("Note").click()
    page.get_by_text("Scale across 1.0019 ± 0.0024, along 1.0010 ± 0.0018.").wait_for()
    page.get_by_role("button", name="Keep this measurement").click()
    page.get_by_text("Drift across: the printer prints 0.58 % longer").wait_for()
    assert page.locator("tbody tr").count() == 3
    assert axe(page) == []
    page.get_by_role("button", name="Remove the measurement of 2026-03-01").click()
    page.get_by_role("dialog").get_by_role("button", name="Remove it").click()
    page.get_by_text("2 so far").wait_for()
    assert [one.day.month for one in show_scales(ShowScales(setup), bench, QUIET).entries] == [2, 1]


def test_a_strip_is_read(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    bench = server.app.state.bench
    add_setup(AddSetup("Desk", {"paper": "Letter"}, {}), bench, QUIET)
    blank = add_blank(AddBlank("Bottle", {"kind": "straight", "girth": "9 1/4 in", "wall": "165 mm"}), bench, QUIET)
    page.goto(f"/measure/{blank.id}")
    page.get_by_role("link", name="Print a strip that reads it").click()
    page.get_by_role("link", name="Get the strip").wait_for()
    assert page.get_by_role("link", name="Get the strip").get_attribute("href").startswith("/api/gauge.pdf?setup=1")
    page.get_by_label("Head: the mark").first.fill("235")
    page.get_by_label("Vernier: the line").first.fill("11")
    page.get_by_label("Vernier: the line").first.press("Tab")
    page.get_by_text("lines are 0 to 10").wait_for()
    page.get_by_label("Vernier: the line").first.fill("7")
    assert page.locator("#one-flat").inner_text() == "235.70\u00a0mm"
    assert (
        page.locator("#one-vernier").get_attribute("aria-label")
        == "The vernier's 0 has passed 235; line 7 meets a mark."
    )
    slide = page.get_by_label("Slide until").first
    slide.focus()
    slide.press("ArrowRight")
    assert page.get_by_label("Vernier: the line").first.input_value() == "7.5"
    assert axe(page) == []
    page.get_by_role("button", name="Use it on this blank").click()
    page.wait_for_url(f"**/measure/{blank.id}")
    kept = show_blank(ShowBlank(blank.id), bench, QUIET)
    assert (kept.version, kept.table["flat"], kept.table["tape"]["setup"]) == (2, "235.75 mm", "Desk")
    page.get_by_label("Name").fill("Steel bottle")
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("heading", name="Steel bottle").wait_for()
    assert show_blank(ShowBlank(blank.id), bench, QUIET).table["tape"] == kept.table["tape"]
