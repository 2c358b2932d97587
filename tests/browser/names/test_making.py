"""A list made for real from its screen: stopped while it runs, made again, taken up after a reload, taken away."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.names.live.deciding import ChangeCells, change_cells
from wrapwright.jobs.names.live.keeping import BringList, bring_list

# Small enough for all pieces to lie on one sheet.
DOCUMENT = {
    "format": 1,
    "blank": {"kind": "flat", "width": "60 mm", "height": "60 mm"},
    "sheet": {"paper": "A4", "ppi": 100},
    "element": [{"kind": "text", "name": "who", "text": "{name}", "width": "40 mm", "height": "10 mm"}],
}


@pytest.fixture
def server(common: Running) -> Running:
    return common


def test_stopped_and_made_again_across_a_reload(page: Any, server: Running, tmp_path: Path) -> None:
    bench = server.app.state.bench
    design = new_design(NewDesign("Coasters", DOCUMENT), bench, Watch()).id
    table = tmp_path / "crew.csv"
    table.write_text("name\nAda\nBen\nCid\n", encoding="utf-8")
    kept = bring_list(BringList(design, "crew.csv", table), bench, Watch())
    runs = [f"*/{kept.sha256}.table", bench.folders.cache / "lists"]

    page.goto(f"/designs/{design}/names")
    page.locator("#ready", has_text="3 pieces of 3 rows.").wait_for()
    page.locator("#made-how summary").click()
    page.locator("#only").fill("2, x")
    page.locator("#make").click()
    assert page.locator("#only-wrong").is_visible()
    page.locator("#only").fill("")
    page.locator("#make").click()
    going = page.locator("#making-words:not(:text-matches('^Waiting'))")
    going.wait_for(timeout=30_000)
    page.locator("#stop").click()
    page.locator("#trouble", has_text="it goes on from there").wait_for(timeout=15_000)
    (made,) = page.request.get(f"/api/made?design={design}").json()
    assert made["state"] == "stopped"
    assert not (bench.folders.data / "made" / str(made["id"])).exists()

    page.locator("#make").click()
    going.wait_for(timeout=30_000)
    page.reload()
    page.locator("#making").wait_for()
    assert page.locator("#ready").inner_text() == "It is being made."
    page.locator("#made-words", has_text="Made: 3 pieces of 3 rows, on 1 sheet.").wait_for(timeout=60_000)
    names = page.locator("#files a").all_inner_texts()
    assert names[:4] == ["sheets.pdf", "contact.pdf", "handling.pdf", "cut-list.pdf"]
    assert page.request.get(page.locator("#files a").first.get_attribute("href")).body().startswith(b"%PDF-")
    assert len([*runs[1].glob(runs[0])]) == 1

    assert page.locator("#made-before").is_hidden()
    change_cells(ChangeCells(design, 3, {"name": "Bea"}), bench, Watch())  # in another window
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    page.locator("#made-before", has_text="was changed after this was made").wait_for()

    page.locator("#drop-list").click()
    page.get_by_role("dialog").get_by_role("button", name="Take it away").click()
    page.locator("#none").wait_for()
    assert [*runs[1].glob(runs[0])] == []
