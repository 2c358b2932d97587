"""Measuring in a browser: keys, marks at fields, keeping, two stations, a phone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.blanks import (
    AddBlank,
    ChangeBlank,
    ListBlanks,
    ShowBlank,
    add_blank,
    change_blank,
    list_blanks,
    show_blank,
)

# Buttons and fields that are less than 24 px high; a checkbox is pressed by its label.
SMALL_TARGETS = """() => [...document.querySelectorAll(
    "main button, main input:not([type=radio], [type=checkbox]), main label:has([type=checkbox]), main select, summary"
  )].filter(one => one.offsetParent && one.getBoundingClientRect().height < 24).map(one => one.outerHTML)"""
MUG = {"kind": "straight", "girth": "257 mm", "wall": "94 mm"}


def kept(server: Running) -> list[Any]:
    return list(list_blanks(ListBlanks(), server.app.state.bench, Watch()))


def field(page: Any, name: str) -> Any:
    return page.get_by_role("textbox", name=name, exact=True)


def drawn(page: Any, words: str) -> None:
    page.locator("#flat-drawing svg text", has_text=words).first.wait_for()


def test_the_whole_path_by_keys_alone(page: Any, server: Running) -> None:
    page.goto("/measure")
    page.locator("#needed", has_text="Begin with: the shape.").wait_for()
    page.get_by_label("Name").focus()
    page.keyboard.type("Blue cup")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")  # straight
    page.get_by_role("button", name="in", exact=True).last.focus()
    page.keyboard.press("Enter")
    field(page, "Distance round").focus()
    page.keyboard.type("9 1/4")
    page.locator("#needed", has_text="Still needed: the height of the wall.").wait_for()
    page.locator("[data-read='blank.girth']", has_text="= 234.95 mm").wait_for()
    page.keyboard.press("Tab")
    page.keyboard.type("6 1/2")
    drawn(page, "6.5 in")
    page.keyboard.press("Enter")  # saves, as in any form
    page.get_by_text("Blue cup is on the shelf.").first.wait_for()
    (blank,) = kept(server)
    # An inch tape is divided into sixteenths until another division is chosen.
    table = {"kind": "straight", "girth": "9 1/4 in", "wall": "6 1/2 in", "tape": {"division": "1/16 in"}}
    assert (blank.name, blank.table) == ("Blue cup", table)
    assert page.url.endswith(f"/measure/{blank.id}")
    page.get_by_role("button", name="Compose on it").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/designs/1")


def test_every_key_draws_and_only_the_newest_is_shown(page: Any) -> None:
    page.goto("/measure?starter=straight-bottle")
    drawn(page, "165 mm")
    sent: list[Any] = []
    page.on("request", lambda one: sent.append(one) if one.url.endswith("/api/measure") else None)
    field(page, "Wall").fill("")
    page.locator("#still", has_text="height of the wall").wait_for()
    assert page.locator("#drawings").get_attribute("aria-busy") == "true"  # what was drawn last stays, dimmed
    assert page.locator("#flat-drawing svg").is_visible()
    before = len(sent)
    field(page, "Wall").press_sequentially("171.5")
    drawn(page, "171.5 mm")
    assert page.locator("#drawings").get_attribute("aria-busy") == "false"
    assert 1 <= len(sent) - before <= 5  # one a key, less where keys came faster than answers


def test_what_is_wrong_is_marked_at_its_field(page: Any, axe: Callable[[Any], list[str]]) -> None:
    page.goto("/measure?starter=tapered-tumbler")
    drawn(page, "158 mm")
    top = field(page, "Distance round, top")
    top.fill("9 1/4")
    field(page, "Distance round, bottom").fill("9,125")
    page.get_by_label("Its thickness").fill("thin")
    wrong = page.locator("#blank-girth_top-wrong", has_text="Was it 9.25 in (234.95 mm)")
    wrong.wait_for()
    assert top.get_attribute("aria-invalid") == "true"
    assert "blank-girth_top-wrong" in top.get_attribute("aria-describedby")
    page.locator("#blank-girth_bottom-wrong", has_text="ambiguous").wait_for()
    page.keyboard.press("Tab")
    page.locator("#blank-tape-thickness-wrong", has_text="not a length").wait_for()
    assert page.locator("[aria-invalid='true']").count() == 3
    assert axe(page) == []
    page.get_by_role("button", name="Save").click(force=True)  # it is off, and says why when pressed all the same
    assert page.locator("#kept").inner_text() == "Mend what is marked first."
    assert page.evaluate("document.activeElement.id") == "blank-girth_top"
    top.fill("281")
    field(page, "Distance round, bottom").fill("225")
    page.get_by_label("Its thickness").fill("")
    drawn(page, "158 mm")
    page.locator("[aria-invalid='true']").first.wait_for(state="detached")


def test_a_field_in_hand_is_not_scolded_at_once(page: Any) -> None:
    page.goto("/measure?starter=straight-bottle")
    girth = field(page, "Distance round")
    girth.focus()
    with page.expect_response("**/api/measure"):
        girth.fill("2")  # on the way to 235
    assert page.locator("#blank-girth-wrong").is_hidden()
    page.locator("#blank-girth-wrong", has_text="less than").wait_for()


def test_a_bulge_is_read_in_rows(page: Any, axe: Callable[[Any], list[str]]) -> None:
    page.goto("/measure")
    page.get_by_text("Bulging", exact=True).click()
    cell = page.get_by_label("Height of reading 1")
    cell.focus()
    for one in ("0", "226", "50", "236", "100", "226"):
        page.keyboard.type(one)
        page.keyboard.press("Enter")
    page.locator("#misfit-drawing svg[aria-label*='over the limit']").wait_for()
    assert page.locator(".m-reading").count() == 4  # Enter after the last began another
    page.locator("#remarks", has_text="The tallest band that fits").wait_for()
    assert axe(page) == []
    page.get_by_role("button", name="Remove reading 2").click()
    page.locator("#remarks", has_text="a bulge between them cannot be seen").wait_for()
    assert page.locator("[data-field='blank.readings.1.0']").input_value() == "100"
    page.reload()  # what is not kept yet is held in the tab
    page.locator("#remarks", has_text="a bulge between them cannot be seen").wait_for()
    assert page.locator("[data-field='blank.readings.1.1']").input_value() == "226"


def test_a_switch_of_the_unit_changes_no_reading(page: Any, server: Running) -> None:
    page.goto("/measure?starter=straight-bottle")
    drawn(page, "165 mm")
    page.get_by_label("Name").fill("Bottle")
    field(page, "Wall").fill("160")
    page.locator("#unit button[value='in']").click()
    drawn(page, "6.299 in")  # 160 / 25.4
    assert field(page, "Wall").input_value() == "160 mm"
    assert field(page, "Wall").locator("xpath=..").inner_text() == ""  # its own unit is enough
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Bottle is on the shelf.").first.wait_for()
    assert kept(server)[0].table["wall"] == "160 mm"
    page.locator("#unit button[value='mm']").click()
    drawn(page, "160 mm")
    assert field(page, "Wall").input_value() == "160"


def test_two_stations_and_nothing_is_lost(page: Any, server: Running) -> None:
    bench = server.app.state.bench
    blank = add_blank(AddBlank("Mug", MUG), bench, Watch())
    page.goto(f"/measure/{blank.id}")
    drawn(page, "94 mm")
    change_blank(ChangeBlank(blank.id, "Mug", MUG | {"wall": "95 mm"}, {}, 1), bench, Watch())
    field(page, "Wall").fill("93")
    drawn(page, "93 mm")
    page.get_by_role("button", name="Save").click()
    page.get_by_text("was kept at another station").wait_for()
    assert field(page, "Wall").input_value() == "93"
    assert page.get_by_role("link", name="Open version 2").get_attribute("href") == f"/measure/{blank.id}"
    page.get_by_role("button", name="Keep mine as version 3").click()
    page.get_by_text("Kept as version 3.").first.wait_for()
    assert show_blank(ShowBlank(blank.id), bench, Watch()).table["wall"] == "93 mm"
    assert show_blank(ShowBlank(blank.id, version=2), bench, Watch()).table["wall"] == "95 mm"


def test_older_readings_are_opened_again(page: Any, server: Running) -> None:
    bench = server.app.state.bench
    blank = add_blank(AddBlank("Mug", MUG), bench, Watch())
    change_blank(ChangeBlank(blank.id, "Mug", MUG | {"wall": "95 mm"}, {}, 1), bench, Watch())
    page.goto(f"/measure/{blank.id}")
    drawn(page, "95 mm")
    page.get_by_role("link", name="version 1").click()
    drawn(page, "94 mm")
    assert page.get_by_text("These are older readings, version 1 of 2.").is_visible()
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Kept as version 3.").first.wait_for()


def test_a_name_twice_is_told_at_the_name(page: Any, server: Running) -> None:
    add_blank(AddBlank("Mug", MUG), server.app.state.bench, Watch())
    page.goto("/measure?starter=mug")
    drawn(page, "90 mm")
    page.get_by_role("button", name="Save").click()
    page.locator("#name-wrong", has_text="Give it a name").wait_for()
    page.get_by_label("Name").fill("mug")
    page.get_by_role("button", name="Save").click()
    page.wait_for_function("() => document.getElementById('name').getAttribute('aria-invalid') === 'true'")
    assert page.locator("#name-wrong").inner_text() != ""
    assert len(kept(server)) == 1


@pytest.mark.parametrize("dark", [False, True])
def test_a_phone_has_everything_within_its_width(
    open_page: Callable[..., Any], axe: Callable[[Any], list[str]], dark: bool
) -> None:
    page = open_page(viewport={"width": 390, "height": 844}, has_touch=True, color_scheme="dark" if dark else "light")
    page.goto("/measure?starter=mug")
    drawn(page, "90 mm")
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    for svg in page.locator(".m-drawing svg:visible").all():
        box = svg.bounding_box()
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 390
        assert box["width"] / float(svg.get_attribute("width")) == pytest.approx(1.0, abs=0.02)  # words keep their size
    small = page.evaluate(SMALL_TARGETS)
    assert small == []
    assert axe(page) == []
