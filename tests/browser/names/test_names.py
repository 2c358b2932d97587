"""The screen of names in a browser: a table dropped, mapped by hand, put right in place, decided about; seen by axe."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.names.live.deciding import ChangeCells, DecideRows, change_cells, decide_rows
from wrapwright.jobs.names.live.keeping import MapList, map_list

Page = Any
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


def cell(page: Page, row: int) -> Any:
    return page.locator(f'tr[data-number="{row}"] td').first


def dropped(page: Page, content: bytes, name: str) -> None:
    """Drop a file on the rows."""
    page.evaluate(
        """([bytes, name]) => {
          const moved = new DataTransfer();
          moved.items.add(new File([new Uint8Array(bytes)], name));
          document.querySelector("#none").dispatchEvent(new DragEvent("drop", {dataTransfer: moved, bubbles: true}));
        }""",
        [list(content), name],
    )


def test_a_list_is_put_right_and_decided_about(page: Page, server: Running, axe: Callable[[Any], list[str]]) -> None:
    design = new_design(NewDesign("Crew", DOCUMENT), server.app.state.bench, Watch()).id
    page.goto(f"/designs/{design}/names")
    dropped(page, TABLE, "crew.csv")
    page.locator("#grid tbody tr").nth(3).wait_for()
    assert page.locator("#check-words").inner_text() == "The columns have to be put right first."
    page.locator("#field-name").select_option("Rower")
    page.get_by_text("2 problems wait", exact=True).wait_for()
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
    page.get_by_text("1 problem waits", exact=True).wait_for()
    assert cell(page, 3).locator(".n-text").inner_text() == "Bob"
    assert "Bob␣␣" in cell(page, 3).locator(".n-was").inner_text()  # what the table says stays to be seen
    assert page.evaluate("document.activeElement.closest('tr')?.dataset.number") == "3"

    page.keyboard.press("ArrowDown")
    page.keyboard.press("s")
    page.locator('tr[data-number="4"][data-state="skipped"]').wait_for()
    page.locator("#ready", has_text="3 pieces of 3 rows.").wait_for()
    assert page.locator("#make").get_attribute("aria-disabled") == "false"
    assert axe(page) == []
    page.emulate_media(color_scheme="dark")
    page.set_viewport_size({"width": 390, "height": 844})
    assert axe(page) == []


def test_words_of_a_job_file_are_said_of_the_screen(page: Page, server: Running) -> None:
    """A file of a spreadsheet of old; what cannot be a table is told by its name and changes nothing."""
    bench = server.app.state.bench
    right = {**DOCUMENT, "element": [{**DOCUMENT["element"][0], "at": "right"}]}
    design = new_design(NewDesign("Crew", right), bench, Watch()).id
    page.goto(f"/designs/{design}/names")
    dropped(page, b"\xff\xd8\xff\xe0 a photo", "crew.csv")
    page.locator("#table-wrong", has_text="crew.csv: It is a picture (JPEG), not a table.").wait_for()
    dropped(page, "name;Boat\nZoë;Swan\n Bob  Lee;Øre\nAda;Zürich\n".encode("cp1252"), "März.csv")
    page.get_by_text("1 problem waits", exact=True).wait_for()
    assert page.locator("#table-wrong").is_hidden()
    assert cell(page, 3).inner_text() == "␣Bob␣␣Lee"
    assert "Windows-1252" in page.locator("#table-words").inner_text()
    page.locator("#piece-title", has_text="Row 3").wait_for()
    page.locator("#row-after").click()  # for a finger, what an arrow is on the keys
    page.locator("#piece-title", has_text="Row 2 · Zoë").wait_for()
    assert page.locator("turning-view").evaluate("view => view.facing") == 90  # the side that rows change
    said = page.locator("main").inner_text()
    assert "choose its letters under “How it is read”" in said
    assert "[names" not in said
    page.locator("#row-before").click()
    page.locator("#row-problems", has_text="tick “Trim white space” below its field").wait_for()
    another_window(page, design, bench)


def another_window(page: Page, design: int, bench: Bench) -> None:
    """What is decided elsewhere is seen when one comes back; a mapping that rests on an earlier one is not taken."""
    page.locator("#more summary").click()
    map_list(MapList(design, {"fields": {"name": "name"}, "encoding": "windows-1252"}, 1), bench, Watch())
    page.get_by_label("Colour of who").select_option("Boat")
    page.locator("#mapping-wrong", has_text="This is how it is now: choose again.").wait_for()
    assert page.get_by_label("Colour of who").input_value() == ""
    change_cells(ChangeCells(design, 3, {"name": "Bea"}), bench, Watch())
    decide_rows(DecideRows(design, "skip", (2,)), bench, Watch())
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    page.locator("tr[data-number='3'] .n-was", has_text="Bob").wait_for()
    page.locator("tr[data-number='2'][data-state='skipped']").wait_for()
