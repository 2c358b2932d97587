"""The screen of names in a browser: a table dropped, mapped by hand, put right in place, decided about; seen by axe."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design

DOCUMENT = {
    "format": 1,
    "blank": {"kind": "straight", "girth": "235 mm", "wall": "100 mm"},
    "sheet": {"paper": "A4", "ppi": 100},
    "fields": {"name": "name"},
    "element": [{"kind": "text", "name": "who", "text": "{name}", "width": "70 mm", "height": "16 mm"}],
}
TABLE = "Rower;Boat\nAda;Eight\nBob  ;Eight\nAda;Four\nEve;\n".encode("utf-8-sig")


@pytest.fixture
def server(common: Running) -> Running:
    return common


def cell(page: Any, row: int) -> Any:
    return page.locator(f'tr[data-number="{row}"] td').first


def test_a_list_from_the_drop_to_the_making(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    design = new_design(NewDesign("Crew", DOCUMENT), server.app.state.bench, Watch()).id
    page.goto(f"/designs/{design}/names")
    page.evaluate(
        """text => {
          const moved = new DataTransfer();
          moved.items.add(new File([text], "crew.csv"));
          document.querySelector("#none").dispatchEvent(new DragEvent("drop", {dataTransfer: moved, bubbles: true}));
        }""",
        TABLE.decode("utf-8"),
    )
    page.locator("#grid tbody tr").nth(3).wait_for()
    assert page.locator("#check-words").inner_text() == "The columns have to be put right first."
    page.locator("#field-name").select_option("Rower")
    page.get_by_text("2 problems wait for a decision", exact=True).wait_for()
    # Those that wait stand first, and the piece of the first is the one that is seen.
    page.locator('tr:nth-child(1)[data-number="2"] .n-mark[data-state="waits"]').wait_for()
    assert page.locator("#grid tbody tr").evaluate_all("all => all.map(one => one.dataset.number)") == [
        "2",
        "3",
        "4",
        "5",
    ]
    page.locator('#names[data-shown="2"]').wait_for()

    cell(page, 2).click()
    page.keyboard.press("ArrowDown")
    page.locator('#names[data-shown="3"]').wait_for()
    assert page.locator("#piece-title").inner_text() == "Row 3 · Bob"
    page.keyboard.press("Enter")
    page.keyboard.type("Bo")
    page.keyboard.press("Escape")
    assert cell(page, 3).locator(".n-text").inner_text() == "Bob␣␣"
    page.keyboard.press("Enter")
    page.keyboard.type("Bob")
    page.keyboard.press("Enter")
    page.get_by_text("1 problem waits for a decision", exact=True).wait_for()
    assert cell(page, 3).locator(".n-text").inner_text() == "Bob"
    assert "Bob␣␣" in cell(page, 3).locator(".n-was").inner_text()  # what the table says stays to be seen
    assert page.evaluate("document.activeElement.closest('tr')?.dataset.number") == "3"

    page.keyboard.press("ArrowDown")
    page.keyboard.press("s")
    page.locator('tr[data-number="4"][data-state="skipped"]').wait_for()
    page.locator("#ready", has_text="3 pieces of 3 rows.").wait_for()
    assert page.locator("#make").get_attribute("aria-disabled") == "false"
    assert axe(page) == []

    server.app.state.makings.close()  # the press of the button is tested here, not the work that follows
    try:
        page.locator("#only").fill("2, 5-5")
        page.locator("#make").click()
        page.get_by_text("Waiting for its turn").wait_for()
        page.reload()
        page.get_by_text("Waiting for its turn").wait_for()
        assert page.locator("#count-changed").inner_text().strip() == "1"
        page.locator("#stop").click()
        page.locator("#trouble", has_text="it goes on from there").wait_for()
    finally:
        server.app.state.makings.open()
