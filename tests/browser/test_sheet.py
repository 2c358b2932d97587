"""The sheet's screen in a browser: the page to single pixels, what is accepted, what is made, a smaller paper."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.designs import NewDesign, SaveDesign, ShowDesign, new_design, save_design, show_design
from wrapwright.jobs.kept.setups import AddSetup, add_setup

DOCUMENT = {
    "format": 1,
    "title": "Ada's cup",
    "blank": {"kind": "straight", "girth": "200 mm", "wall": "60 mm"},
    "sheet": {"ppi": 100},
    "element": [{"kind": "fill", "colour": "#e9d8a6"}],
}
ON_SEAM = {"kind": "text", "text": "Ada", "size": "12 mm", "colour": "#0e3a5a", "at": "left"}


@pytest.fixture
def server(common: Running) -> Running:
    """Give the bench that these tests share: each keeps a design of its own."""
    return common


def design(server: Running, **more: Any) -> int:
    return new_design(NewDesign("Ada's cup", DOCUMENT | more), server.app.state.bench, Watch()).id


def newest(server: Running, number: int) -> Any:
    return show_design(ShowDesign(number), server.app.state.bench, Watch())


def ready(page: Any) -> None:
    """Wait until the page is drawn whole and the checks have spoken."""
    page.locator("#checks-words", has_text=".").filter(has_not_text="Checking").wait_for()
    page.wait_for_function("() => document.getElementById('view').getAttribute('aria-busy') === 'false'")


def colour(page: Any, x: float, y: float) -> tuple[int, ...]:
    """Return the canvas' colour at a place of the view, CSS px."""
    got = page.evaluate(
        "([x, y]) => [...document.getElementById('page').getContext('2d').getImageData(x, y, 1, 1).data]", [x, y]
    )
    return tuple(got[:3])


def test_the_page_is_looked_at_down_to_single_pixels(
    page: Any, server: Running, axe: Callable[[Any], list[str]]
) -> None:
    number = design(server)
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    view = page.locator("#view")
    assert "as printed, mirrored" in view.get_attribute("aria-label")
    box = view.bounding_box()
    middle = (box["width"] / 2 + 12, box["height"] / 2 + 12)
    assert colour(page, *middle) == (0xE9, 0xD8, 0xA6)
    assert page.locator("#zoom").inner_text() == "fit"
    view.focus()
    page.keyboard.press("1")
    ready(page)
    assert page.locator("#zoom").inner_text() == "800 %"
    # One pixel of the sheet is a square of eight: at the page's corner paper ends between two of them.
    for _ in range(3):
        page.keyboard.press("+")
    assert page.locator("#zoom").inner_text() != "800 %"
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("0")
    assert page.locator("#zoom").inner_text() == "fit"
    page.get_by_role("button", name="As seen").click()
    ready(page)
    assert "as seen" in view.get_attribute("aria-label")
    assert page.locator("#marks").is_hidden()
    assert axe(page) == []


def test_a_mark_is_shown_where_it_stands(page: Any, server: Running) -> None:
    number = design(server)
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    before = page.evaluate("document.getElementById('page').toDataURL()")
    page.get_by_role("button", name="Check bars").focus()
    page.wait_for_function("before => document.getElementById('page').toDataURL() !== before", arg=before)
    page.get_by_role("button", name="Make the sheets").focus()
    page.wait_for_function("before => document.getElementById('page').toDataURL() === before", arg=before)


def test_an_error_is_accepted_by_name_and_the_files_come(
    page: Any, server: Running, tmp_path: Path, axe: Callable[[Any], list[str]]
) -> None:
    number = design(server, element=[*DOCUMENT["element"], ON_SEAM])
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    make = page.get_by_role("button", name="Make the sheets")
    assert make.get_attribute("aria-disabled") == "true"
    make.click(force=True)
    assert page.locator("#trouble").inner_text() == "Mend or accept the error first."
    page.get_by_label("Make it in spite of crosses-seam").check()
    page.get_by_label("Kind of file").select_option("png")
    assert axe(page) == []
    assert make.get_attribute("aria-disabled") == "false"
    make.click()
    page.locator("#making progress").wait_for()
    page.locator("#files a", has_text="report.json").wait_for(timeout=60000)
    assert page.locator("#files a").all_inner_texts() == ["sheet-001.png", "proof.pdf", "ticket.pdf", "report.json"]
    assert "Made: 4 files" in page.locator("#made-words").inner_text()
    with page.expect_download() as come:
        page.locator("#files a", has_text="report.json").click()
    come.value.save_as(tmp_path / "report.json")
    report = json.loads((tmp_path / "report.json").read_text(encoding="utf-8"))
    accepted = [one["rule"] for one in report["checks"] if one["accepted"]]
    assert accepted == ["crosses-seam"]
    assert axe(page) == []
    page.reload()
    page.locator("#files a", has_text="ticket.pdf").wait_for()  # what was made of this revision is still offered


def test_a_making_is_stopped(page: Any, server: Running) -> None:
    number = design(server, quantity=12, sheet={"ppi": 600})
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    page.get_by_label("Kind of file").select_option("tiff")
    page.get_by_role("button", name="Make the sheets").click()
    page.get_by_role("button", name="Stop", exact=True).click()
    page.locator("#trouble", has_text="Stopped. Nothing was left half-made.").wait_for(timeout=20000)
    assert page.locator("#making").is_hidden()


def test_a_set_up_with_a_smaller_paper_says_that_it_does_not_fit(
    page: Any, server: Running, axe: Callable[[Any], list[str]]
) -> None:
    bench = server.app.state.bench
    number = design(server)
    add_setup(AddSetup("Cards", {"paper": ["100 mm", "150 mm"], "ppi": 100}, {"route": "driver"}), bench, Watch())
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    page.get_by_label("Printer, paper and scale").select_option(label="Cards")
    page.locator("#no-page .finding[data-severity=error]").wait_for()
    page.get_by_text("This cannot be accepted").wait_for()
    assert page.get_by_role("button", name="Make the sheets").get_attribute("aria-disabled") == "true"
    assert page.get_by_label("Make it in spite of").count() == 0
    assert newest(server, number).revision == 2
    assert axe(page) == []


def test_more_pieces_are_more_pages(page: Any, server: Running) -> None:
    number = design(server)
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    assert page.locator("#pages").is_hidden()
    page.get_by_label("Pieces").fill("0")
    page.keyboard.press("Tab")
    assert page.locator("#quantity-wrong").inner_text() == "A whole number from 1 to 10000."
    page.get_by_label("Pieces").fill("3")
    page.keyboard.press("Tab")
    page.locator("#page-words", has_text="page 1 of 3").wait_for()
    assert newest(server, number).document["quantity"] == 3
    page.get_by_role("button", name="Next page").click()
    page.locator("#page-words", has_text="page 2 of 3").wait_for()


def test_another_station_is_told_and_its_revision_shown(page: Any, server: Running) -> None:
    number = design(server)
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    elsewhere = {**DOCUMENT, "sheet": {"ppi": 150}}
    save_design(SaveDesign(number, elsewhere, 1), server.app.state.bench, Watch())
    page.get_by_label("Pieces").fill("2")
    page.keyboard.press("Tab")
    page.locator("#trouble", has_text="changed at another station").wait_for()
    page.locator("#facts", has_text="150 ppi").wait_for()
    assert newest(server, number).document["sheet"] == {"ppi": 150}


def test_what_cannot_be_drawn_says_why_and_where_to_go(page: Any, server: Running) -> None:
    number = design(server, element=[{"kind": "picture", "file": "lost.png", "width": "40 mm"}])
    page.goto(f"/designs/{number}/sheet")
    page.locator("#no-page", has_text="lost.png").wait_for()
    page.get_by_role("link", name="Mend it in Compose").click()
    page.wait_for_url(f"**/designs/{number}")


@pytest.mark.parametrize("dark", [False, True])
def test_a_phone_shows_the_page_and_makes(
    open_page: Callable[..., Any], server: Running, axe: Callable[[Any], list[str]], dark: bool
) -> None:
    number = design(server)
    page = open_page(viewport={"width": 390, "height": 844}, has_touch=True, color_scheme="dark" if dark else "light")
    page.goto(f"/designs/{number}/sheet")
    ready(page)
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert page.locator("#view").bounding_box()["width"] <= 390
    assert page.get_by_role("button", name="Make the sheets").get_attribute("aria-disabled") == "false"
    assert axe(page) == []
