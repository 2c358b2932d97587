"""Shelf, history and set-ups in a browser: what a click, a key and a lost network do."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.browser.running import Running
from tests.outside.icc.press import rgb_printer

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.blanks import AddBlank, ListBlanks, add_blank, list_blanks
from wrapwright.jobs.kept.designs import (
    ListDesigns,
    NewDesign,
    SaveDesign,
    ShowDesign,
    list_designs,
    new_design,
    save_design,
    show_design,
)
from wrapwright.jobs.kept.setups import ListSetups, list_setups

# Drops a file of that name and text on the page.
DROP = """([name, text]) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], name));
    document.body.dispatchEvent(new DragEvent("drop", {dataTransfer, bubbles: true, cancelable: true}));
}"""
TUMBLER = {"kind": "straight", "girth": "9 1/4 in", "wall": "80 mm"}


def blank(server: Running, name: str) -> int:
    return add_blank(AddBlank(name, TUMBLER), server.app.state.bench, Watch()).id


def design(server: Running, title: str, blank_id: int) -> int:
    bench = server.app.state.bench
    made = new_design(NewDesign(title, blank_id=blank_id), bench, Watch())
    filled = {**made.document, "element": [{"kind": "fill", "colour": "#3d8a83"}], "sheet": {"ppi": 100}}
    return save_design(SaveDesign(made.id, filled, made.revision), bench, Watch()).id


def titles(server: Running) -> list[str]:
    return sorted(one.title for one in list_designs(ListDesigns(), server.app.state.bench, Watch()))


def test_the_first_visit_leads_to_measuring(page: Any) -> None:
    page.goto("/")
    assert page.get_by_role("link", name="Compose").get_attribute("aria-disabled") == "true"
    starter = page.locator("#starters a").first
    assert "/measure?starter=" in starter.get_attribute("href")
    page.get_by_role("link", name="Measure your first blank").click()
    page.wait_for_url("**/measure")


def test_search_as_you_type(page: Any, server: Running) -> None:
    first = blank(server, "Blue tumbler")
    blank(server, "Mug")
    design(server, "Regatta", first)
    page.goto("/")
    page.get_by_role("searchbox").press_sequentially("blue")
    shown = page.locator("#blanks > :visible")
    assert shown.count() == 1
    assert shown.locator("h3").inner_text() == "Blue tumbler"
    assert page.locator("[data-design]:visible").count() == 1  # its blank has the word
    assert page.locator("#blanks-count").inner_text() == "1 of 2"
    assert "1 design, 1 blank" in page.locator("#said", has_text="blank").text_content()
    page.get_by_role("searchbox").fill("nothing like it")
    assert page.get_by_text("No blank has that in its name.").is_visible()


def test_a_design_is_started_copied_and_removed(page: Any, server: Running) -> None:
    blank(server, "Mug of May")
    page.goto("/")
    page.locator("[data-blank]").get_by_role("button", name="New design on Mug of May").click()
    page.wait_for_url("**/designs/1")
    page.goto("/")
    assert page.get_by_role("link", name="Compose").get_attribute("href") == "/designs/1"
    page.get_by_role("button", name="Copy New design, Mug of May").click()
    page.locator("[data-design]").nth(1).wait_for()
    before = titles(server)
    assert len(before) == 2
    remove = page.locator("[data-design]").first.get_by_role("button", name="Remove")
    remove.click()
    page.keyboard.press("Escape")
    page.locator("dialog").wait_for(state="detached")
    assert titles(server) == before
    gone = page.locator("[data-design]").first.get_attribute("data-title")
    remove.click()
    page.get_by_role("dialog").get_by_role("button", name="Remove it").click()
    page.locator("[data-design]").nth(1).wait_for(state="detached")
    assert titles(server) == [title for title in before if title != gone]
    back = page.get_by_role("button", name="Bring it back")
    assert back.evaluate("it => it === document.activeElement")
    back.click()
    page.locator("[data-design]").nth(1).wait_for()
    assert titles(server) == before
    page.get_by_role("button", name="Remove Mug of May").click()
    page.get_by_role("dialog").get_by_role("button", name="Take it off").click()
    back.click()
    page.locator("[data-blank]", has_text="234").wait_for()
    assert list_blanks(ListBlanks(), server.app.state.bench, Watch())[0].table == TUMBLER


def test_a_design_goes_out_and_comes_in_again(page: Any, server: Running, tmp_path: Path) -> None:
    design(server, "Regatta", blank(server, "Mug"))
    page.goto("/")
    with page.expect_download() as started:
        page.get_by_role("link", name="Export Regatta").click()
    file = tmp_path / "regatta.zip"
    started.value.save_as(file)
    page.locator("#bring-file").set_input_files(file)
    page.wait_for_url("**/designs/2")
    assert len(titles(server)) == 2
    page.goto("/")
    page.evaluate(DROP, ["no.zip", "this is no zip file"])
    page.locator("#trouble:visible").wait_for()
    assert len(titles(server)) == 2


def test_history_makes_again_and_follows(page: Any, server: Running) -> None:
    made = design(server, "Regatta", blank(server, "Mug"))
    page.goto("/")
    asked = page.request.post("/api/made", data={"design": made, "revision": 2, "output": "pdf", "accept": []})
    assert asked.status == 201
    page.goto("/history")
    row = page.locator(f"#made-{asked.json()['id']}")
    row.locator(".made-state", has_text="made").and_(row.locator("[data-severity=ok]")).wait_for(timeout=20000)
    assert row.get_by_role("link", name="sheets.pdf").is_visible()
    with page.expect_download() as started:
        row.get_by_role("link", name="ticket.pdf").click()
    assert Path(started.value.path()).read_bytes().startswith(b"%PDF-")
    row.get_by_role("button", name="Make again").click()
    again = page.locator("[data-made]").first
    page.locator("[data-made]").nth(1).wait_for()
    again.get_by_role("button", name="Stop").click()
    page.locator("[data-made]").first.and_(page.locator("[data-state=stopped]")).wait_for(timeout=15000)
    again.get_by_role("button", name="Remove").click()
    page.get_by_role("dialog").get_by_role("button", name="Remove it").click()
    page.locator("[data-made]").nth(1).wait_for(state="detached")


def test_a_set_up_typed_with_decimal_commas(open_page: Callable[..., Any], server: Running) -> None:
    page = open_page(locale="de-DE")
    page.goto("/setups")
    page.get_by_label("Name").fill("Desk printer")
    page.get_by_label("Size").select_option("roll")
    page.get_by_label("Width").fill("24 in")
    page.get_by_label("Top").fill("3,5")
    page.get_by_label("Short side, measured").fill("190,5")
    page.get_by_label("Long side, measured").fill("nothing")
    page.get_by_role("button", name="Keep this set-up").click()
    wrong = page.get_by_label("Long side, measured")
    page.locator("[aria-invalid]").wait_for()
    assert wrong.get_attribute("aria-invalid") == "true"
    assert "nothing" in page.locator("#measured-along-wrong").inner_text()
    wrong.fill("249")
    page.get_by_role("button", name="Keep this set-up").click()
    page.locator("[data-setup]").wait_for()
    kept = list_setups(ListSetups(), server.app.state.bench, Watch())[0]
    assert kept.sheet["paper"] == {"roll": "609.6 mm"}
    assert kept.sheet["margins"][0] == "3.5 mm"
    # 190.5 / 190 and 249 / 250, as docs/sheet.md works it out.
    assert kept.sheet["scale"] == pytest.approx([1.0026, 0.996])
    assert "609,6\u00a0mm" in page.locator("[data-setup]").inner_text()
    page.get_by_role("button", name="in, inches").click()
    assert "24,000\u00a0in" in page.locator("[data-setup]").inner_text()
    # Three digits behind a comma could be thousands, so a fourth stands in a field.
    assert page.get_by_label("Top").input_value() == "0,1570"  # 4 mm to three digits


def test_a_profile_and_a_font_come_with_their_progress(page: Any, server: Running, tmp_path: Path) -> None:
    (tmp_path / "printer.icc").write_bytes(rgb_printer())
    (tmp_path / "no.icc").write_bytes(b"no profile at all")
    (tmp_path / "no.ttf").write_bytes(b"no font at all")
    page.goto("/setups")
    page.get_by_label("Name").fill("Desk printer")
    page.get_by_label("Wrapwright converts, with a profile").check()
    page.locator("#profile-file").set_input_files(tmp_path / "no.icc")
    page.locator("#profile-trouble:visible").wait_for()
    page.get_by_role("button", name="Keep this set-up").click()
    page.locator("#profile-file-wrong:visible").wait_for()  # none is chosen yet
    page.locator("#profile-file").set_input_files(tmp_path / "printer.icc")
    page.locator("#profile-said", has_text="printer.icc").wait_for()
    page.locator("#profile-file-wrong").wait_for(state="hidden")
    page.locator("#font-file").set_input_files(tmp_path / "no.ttf")
    page.locator("#font-trouble:visible").wait_for()
    page.get_by_role("button", name="Keep this set-up").click()
    page.locator("[data-setup]", has_text="converts with printer.icc").wait_for()
    kept = list_setups(ListSetups(), server.app.state.bench, Watch())[0]
    assert kept.profile_sha256 == hashlib.sha256(rgb_printer()).hexdigest()


def test_the_field_to_measure_a_printer_by_lies_on_the_chosen_paper(page: Any, server: Running) -> None:
    page.goto("/setups")
    page.get_by_label("Size").select_option("A4")
    page.get_by_label("Top").fill("1/4 in")
    page.get_by_role("button", name="Make the field").click()
    page.wait_for_url("**/designs/1/sheet")
    made = show_design(ShowDesign(1), server.app.state.bench, Watch()).document
    assert made["sheet"]["paper"] == "A4"
    assert made["sheet"]["margins"][0] == "6.35 mm"
    assert "scale" not in made["sheet"]
    assert (made["blank"]["flat"], made["blank"]["wall"]) == ("250 mm", "190 mm")


def test_the_network_goes_and_comes_back(page: Any, server: Running) -> None:
    blank(server, "Mug")
    page.goto("/")
    line = page.locator("#away")
    assert line.is_hidden()
    page.context.set_offline(True)
    start = page.locator("[data-blank]").get_by_role("button", name="New design on Mug")
    start.click()
    line.wait_for(state="visible")
    assert "Nothing that was kept is lost" in line.inner_text()
    page.context.set_offline(False)
    line.wait_for(state="hidden")
    assert start.is_enabled()


def test_reading_needs_no_scripts(open_page: Callable[..., Any], server: Running) -> None:
    design(server, "Regatta", blank(server, "Mug"))
    page = open_page(java_script_enabled=False)
    page.goto("/?search=regatta")
    assert page.get_by_role("link", name="Open Regatta").is_visible()
    page.get_by_role("button", name="in, inches").click()
    page.goto("/")
    assert "9.250\u00a0in" in page.locator("[data-blank]").inner_text()


def test_the_content_is_one_key_away(page: Any) -> None:
    page.goto("/")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "To the content"
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "main"


def test_nothing_is_in_the_way(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    page.goto("/")
    assert axe(page) == []
    page.goto("/history")
    assert axe(page) == []
    made = design(server, "Regatta", blank(server, "A tumbler with a long name that somebody typed"))
    page.request.post("/api/made", data={"design": made, "revision": 2, "output": "pdf", "accept": []})
    page.request.post("/api/setups", data={"name": "Desk", "sheet": {}, "colour": {}})
    for width, scheme, paths in (
        (1440, "light", ("/", "/history", "/setups?change=1")),
        (390, "dark", ("/", "/history", "/setups?change=1", "/login", "/nowhere")),
    ):
        page.set_viewport_size({"width": width, "height": 844})
        page.emulate_media(color_scheme=scheme)
        for path in paths:
            page.goto(path)
            assert axe(page) == [], f"{path} {width} {scheme}"
            assert page.evaluate("() => document.documentElement.scrollWidth") <= width, path
    page.goto("/")
    page.get_by_role("button", name="Remove Regatta").click()
    page.get_by_role("dialog").wait_for()
    assert axe(page) == []
