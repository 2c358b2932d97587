"""The composing screen: adding, exact figures, opposite copies, order, undo, saving and its troubles."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from tests.browser.compose.composing import BLANK, Composing, composing, job, wait, words
from tests.browser.running import Running

Axe = Callable[[Any], list[str]]
# The parts that follow their box's size do so with the next frame.
DRAWN = "() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))"
CREST = words("Crest", "W", at="front", up="46 mm")


@pytest.fixture
def server(common: Running) -> Running:
    """Give the bench that these tests share: each keeps a design of its own."""
    return common


def keys_of(page: Any) -> list[str]:
    """Return the names in the list, front to back."""
    names: list[str] = page.locator("#elements > li > button .element-name").all_text_contents()
    return names


def test_an_empty_wrap_teaches_and_takes_a_text_with_exact_figures(page: Any, axe: Axe) -> None:
    on = composing(page, job())
    assert page.locator("#teach").is_visible()
    assert axe(page) == []
    page.click("[data-do=text]")
    assert page.locator("#teach").is_hidden()
    page.keyboard.type("Ada {name}")
    on.becomes("text", "Ada {name}")
    assert on.kept()["document"]["fields"] == {"name": "name"}
    on.type("up", "3 1/8 in")
    on.becomes("up", "79.375 mm")  # 3.125 x 25.4 exactly
    assert on.field("up.middle").get_attribute("aria-pressed") == "false"
    on.type("at", "112.5")
    on.becomes("at", "112.5 deg")
    on.type("at", "Back")
    on.becomes("at", "back")
    on.type("size", "1,234")
    assert "ambiguous" in page.locator("#fields .field-wrong:visible").text_content()
    on.type("size", "12")
    on.becomes("size", "12 mm")
    assert page.locator("#fields .field-wrong:visible").count() == 0
    assert axe(page) == []


def test_millimetres_round_the_blank_are_those_of_the_drawn_wrap(page: Any) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    turn = page.evaluate("() => document.querySelector('wrap-canvas').drawn.frame.lower_mm")
    on.type("round.front", "-20")
    expected = 360 - 20 / turn * 360
    on.until(lambda: abs(float(on.element()["at"].removesuffix(" deg").replace("front", "0")) - expected) < 1e-5, "at")
    on.settled()
    # From the seam at the left (270) to 20 mm left of the front: a quarter of a turn less 20 mm.
    assert abs(float(on.field("round.seam").input_value()) - (turn / 4 - 20)) < 0.002


def test_beside_a_handle_lengths_are_counted_from_its_edge(page: Any) -> None:
    mug = {"kind": "straight", "girth": "258 mm", "wall": "95 mm", "handle": {"at": "back", "gap": "26 mm"}}
    on = composing(page, job({**CREST, "at": "front"}, blank=mug))
    on.choose("0")
    assert page.get_by_label("Round from handle").count() == 1
    # The front lies half of the girth (and of the paper's pi x 0.12 mm) less half the gap from the left end.
    assert abs(float(on.field("round.seam").input_value()) - ((258 + 3.14159265 * 0.12) / 2 - 13)) < 0.01
    on.type("round.seam", "20")
    on.until(lambda: on.element()["at"] != "front", "the place")
    on.settled()
    expected = 180 + (20 + 13) / (258 + 3.14159265 * 0.12) * 360
    assert abs(float(on.element()["at"].removesuffix(" deg")) - expected) < 1e-3


def test_a_tapered_wrap_is_straightened_at_a_key_and_its_figures_stay(page: Any) -> None:
    taper = {"kind": "tapered", "girth_top": "280 mm", "girth_bottom": "220 mm", "wall": "150 mm"}
    on = composing(page, job({**CREST, "at": "45 deg", "up": "10 mm"}, blank=taper))
    on.choose("0")
    seen = on.field("round.front").input_value()
    # An eighth of the girth 10 mm up a wall of 150 mm, and of the paper's pi x 0.12 mm.
    assert abs(float(seen) - (220 + 60 * 10 / 150 + 3.14159265 * 0.12) / 8) < 0.01
    page.locator('wrap-canvas .wc-border[data-key="0.0"]').focus()
    page.keyboard.press("t")
    page.wait_for_function("() => document.querySelector('wrap-canvas').drawn.frame.kind === 'straight'")
    assert page.locator("[data-do=straight]").get_attribute("aria-pressed") == "true"
    assert on.field("round.front").input_value() == seen
    on.type("up", "20")
    on.becomes("up", "20 mm")
    assert page.evaluate("() => document.querySelector('wrap-canvas').drawn.frame.kind") == "straight"


def test_a_picture_is_sent_named_and_shown(page: Any, tmp_path: Path) -> None:
    on = composing(page, job())
    art = tmp_path / "Weir Street.png"
    Image.new("RGB", (300, 200), "#0e3a5a").save(art)
    page.click("[data-do=picture]")
    assert "Use only pictures you may use" in page.locator("dialog").text_content()
    page.set_input_files("dialog input[type=file]", str(art))
    on.until(lambda: on.element().get("kind") == "picture", "the picture")
    on.settled()
    assert on.element()["name"] == "Weir Street"
    drawn = page.evaluate("() => document.querySelector('wrap-canvas').drawn.copies[0]")
    assert abs(drawn["width_mm"] / drawn["height_mm"] - 1.5) < 1e-6
    broken = tmp_path / "broken.png"
    broken.write_bytes(art.read_bytes()[:60])
    page.click("[data-do=tile]")
    page.set_input_files("dialog input[type=file]", str(broken))
    said = page.locator(".bring-row .finding")
    said.wait_for()
    assert "broken.png" in said.text_content()
    assert len(on.kept()["document"]["element"]) == 1


def test_pictures_dropped_and_pasted_lie_where_they_were_let_go(page: Any) -> None:
    on = composing(page, job())
    page.evaluate(
        """() => {
          const art = '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20"><path d="M0 0h40v20z"/></svg>';
          const files = [new File([art], 'flag.svg', {type: 'image/svg+xml'})];
          document.querySelector('wrap-canvas').dispatchEvent(
            new CustomEvent('wrapdrop', {bubbles: true, composed: true, detail: {files, at_deg: 90, up_mm: 50.5}}));
        }"""
    )
    on.becomes("at", "right")
    assert (on.element()["up"], on.element()["name"]) == ("50.5 mm", "flag")
    page.evaluate(
        """() => {
          const data = new DataTransfer();
          const art = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0 0h9v9z"/></svg>';
          data.items.add(new File([art], 'flag.svg', {type: 'image/svg+xml'}));
          document.dispatchEvent(new ClipboardEvent('paste', {clipboardData: data, bubbles: true}));
        }"""
    )
    on.until(lambda: on.element(1).get("name") == "flag 2", "the pasted picture")
    on.settled()
    first, other = on.element()["file"], on.element(1)["file"]
    assert first != other
    # The picture sent first keeps its size; the square one is as high as it is wide.
    copies = page.evaluate("() => document.querySelector('wrap-canvas').drawn.copies")
    assert [round(one["width_mm"] / one["height_mm"], 6) for one in copies] == [2.0, 1.0]


def test_an_opposite_copy_is_half_a_turn_away_and_copies_spread(page: Any) -> None:
    on = composing(page, job({**CREST, "at": "112.5 deg"}))
    page.click('wrap-dial [data-key="0.0"]')
    page.keyboard.press("o")
    on.becomes("at", ["112.5 deg", "292.5 deg"])
    assert page.locator("#elements .element-copy[aria-pressed=true]").text_content() == "292.5°opposite 112.5°"
    page.keyboard.press("o")
    assert page.evaluate("() => document.querySelector('wrap-canvas').selected") == ["0.0"]
    on.field("act.count").fill("4")
    on.field("act.spread").click()
    on.becomes("at", ["112.5 deg", "202.5 deg", "292.5 deg", "22.5 deg"])
    on.choose("0.2")
    page.keyboard.press("Delete")
    on.becomes("at", ["112.5 deg", "202.5 deg", "22.5 deg"])
    on.choose("0.1")
    on.type("at", "left")
    on.becomes("at", ["112.5 deg", "left", "22.5 deg"])
    # On the seam (left) the copy shows at both ends.
    laps = page.evaluate("() => document.querySelector('wrap-canvas').drawn.copies.find((c) => c.copy === 1).laps")
    assert len(laps) == 2
    assert page.locator('wrap-canvas .wc-border[data-key="0.1"]').count() == 2


def test_the_order_is_changed_by_keys_buttons_and_hand(page: Any) -> None:
    on = composing(page, job(words("One", "A"), words("Two", "B", at="right"), words("Three", "C", at="back")))
    assert keys_of(page) == ["Three", "Two", "One"]
    on.choose("0")
    page.keyboard.press("PageUp")
    on.until(lambda: [one["name"] for one in on.kept()["document"]["element"]] == ["Two", "One", "Three"], "order")
    on.settled()
    page.click("[data-do=farther]")
    on.until(lambda: on.element()["name"] == "One", "order")
    on.settled()
    grip = page.locator("#elements > li").nth(0).locator(".element-grip").bounding_box()
    last = page.locator("#elements > li").nth(2).bounding_box()
    page.mouse.move(grip["x"] + 4, grip["y"] + 6)
    page.mouse.down()
    page.mouse.move(grip["x"] + 4, last["y"] + last["height"] - 4, steps=4)
    page.mouse.up()
    on.until(lambda: on.element()["name"] == "Three", "order")
    on.settled()
    assert keys_of(page) == ["Two", "One", "Three"]
    page.keyboard.press("Control+d")
    on.until(lambda: on.element(1).get("name") == "Three 2", "the duplicate")


def test_one_drop_is_one_request_and_undo_outlives_a_reload(page: Any) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    sent: list[str] = []
    page.on("request", lambda one: sent.append(one.method) if "/api/designs/" in one.url else None)
    page.evaluate(
        """() => {
          const canvas = document.querySelector('wrap-canvas');
          const told = (name, detail) => canvas.dispatchEvent(
            new CustomEvent(name, {bubbles: true, composed: true, detail}));
          const live = {key: '0.0', at_deg: 0, up_mm: 46, turn_deg: 0, scale_x: 1, scale_y: 1};
          for (let mm = 0; mm < 60; mm += 1) told('wraplive', {...live, up_mm: 46 + mm});
          told('wraplive', {...live, up_mm: 105.25, at_deg: 90, scale_y: 2, turn_deg: 7});
          const shown = (path) => document.querySelector(`#fields [data-path="${path}"]`).value;
          window.followed = ['up', 'at', 'size', 'turn'].map(shown);
          told('wrapchange', {key: '0.0', element: 0, copy: 0, changes: {up_mm: 105.25, at_deg: 90}});
        }"""
    )
    on.becomes("up", "105.25 mm")
    assert on.element()["at"] == "right"
    assert sent.count("PUT") == 1
    assert page.evaluate("() => window.followed") == ["105.25", "90", "18", "7"]
    on.reload()
    assert page.locator("[data-do=undo]").is_enabled()
    page.locator("#elements button").first.focus()
    page.keyboard.press("Control+z")
    on.becomes("up", "46 mm")
    page.keyboard.press("Control+y")
    on.becomes("up", "105.25 mm")
    page.click("[data-do=undo]")
    on.becomes("at", "front")
    assert page.locator("[data-do=undo]").is_disabled()


def second(open_page: Callable[..., Any], on: Composing) -> Composing:
    """Return the same design on another station."""
    other = open_page()
    other.goto(f"/designs/{on.design}")
    wait(other)
    return Composing(other, on.design)


def test_two_stations_choose_and_nothing_is_lost(page: Any, open_page: Callable[..., Any], axe: Axe) -> None:
    on = composing(page, job(CREST))
    other = second(open_page, on)
    on.choose("0")
    on.type("up", "60")
    on.becomes("up", "60 mm")
    other.choose("0")
    other.type("up", "80")
    other.page.wait_for_selector("dialog[open]")
    assert axe(other.page) == []
    other.page.get_by_role("button", name="Keep mine").click()
    other.becomes("up", "80 mm")
    other.page.click("[data-do=undo]")
    other.becomes("up", "60 mm")
    # Now the first page is behind again; this time theirs is kept, and its own stays at Redo.
    other.type("up", "90")
    other.becomes("up", "90 mm")
    on.type("up", "30")
    page.get_by_role("button", name="Keep theirs").click()
    on.until(lambda: on.field("up").input_value() == "90", "theirs")
    on.settled()
    assert on.element()["up"] == "90 mm"
    page.click("[data-do=redo]")
    on.becomes("up", "30 mm")


def test_what_is_done_while_the_server_is_away_is_sent_when_it_is_back(page: Any) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    page.context.set_offline(True)
    on.type("up", "61.5")
    page.wait_for_selector("#saved[data-state=away]")
    assert "the server does not answer" in page.locator("#saved").text_content()
    on.type("turn", "12")
    on.field("turn").press("Tab")
    page.context.set_offline(False)
    on.becomes("turn", 12)
    assert on.element()["up"] == "61.5 mm"
    # A page that is loaded again while its document could not be sent still has it.
    page.route("**/api/designs/*", lambda route: route.abort() if route.request.method == "PUT" else route.continue_())
    on.type("up", "70")
    page.wait_for_selector("#saved[data-state=away]")
    page.unroute("**/api/designs/*")
    assert on.element()["up"] == "61.5 mm"
    on.reload()
    on.becomes("up", "70 mm")


def test_checks_lead_to_their_element(page: Any) -> None:
    on = composing(page, job(words("Tiny", "Weir Street", size="1 mm", at="right"), CREST))
    finding = page.locator(".finding-go", has_text="Tiny").first
    finding.wait_for()
    assert "warning" in page.locator("#checks-count").text_content()
    finding.focus()
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.querySelector('wrap-dial').selected") == ["0.0"]
    assert on.field("name").input_value() == "Tiny"
    on.field("text").fill("")
    on.until(lambda: on.element()["text"] == "", "an empty text")
    page.wait_for_selector("#checks-count:has-text('cannot be drawn')")


def test_every_screen_holds_everything_without_running_over(page: Any, axe: Axe) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    for width, height in ((1440, 900), (1180, 760)):
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate(DRAWN)
        assert page.evaluate("() => document.documentElement.scrollHeight") <= height
        seen = page.evaluate(
            "() => [...document.querySelectorAll('.round')].map((e) => e.scrollHeight - e.clientHeight)"
        )
        assert seen == [0]
    for width, height in ((768, 1024), (390, 844)):
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate(DRAWN)
        assert page.evaluate("() => document.documentElement.scrollWidth") <= width
        assert page.locator("#fields").is_visible()
    page.emulate_media(color_scheme="dark")
    assert axe(page) == []


def test_requests_go_one_by_one_and_the_newest_document_holds_all(page: Any) -> None:
    on = composing(page, job(CREST))
    on.choose("0")
    on.settled()
    flying: list[str] = []
    most: list[int] = []
    sent: list[str] = []

    def slowly(route: Any) -> None:
        if route.request.method == "GET":
            route.continue_()
            return
        sent.append(route.request.url.split("/")[-1].split("?")[0])
        flying.append(sent[-1])
        most.append(len(flying))
        page.wait_for_timeout(250)
        flying.pop()
        route.continue_()

    page.route("**/api/designs/**", slowly)
    for path, text in (("turn", "5"), ("turn", "10"), ("turn", "15"), ("leading", "2")):
        on.type(path, text)
    on.field("side.right").click()
    page.click("[data-do=undo]")
    on.until(lambda: on.kept()["can_redo"], "the step back")
    on.settled()
    assert max(most) == 1
    assert sent[-1] == "undo"
    assert 2 <= len(sent) <= 6
    page.unroute("**/api/designs/**")
    page.click("[data-do=redo]")
    on.becomes("at", "right")
    assert (on.element()["turn"], on.element()["leading"]) == (15, 2)


def test_the_design_s_own_figures_a_set_up_and_newer_readings(page: Any) -> None:
    blank = page.request.post("/api/blanks", data={"name": "Steel cup", "table": BLANK, "wrap": {}}).json()
    page.request.post(
        "/api/setups", data={"name": "Desk", "sheet": {"paper": "A4"}, "colour": {}, "profile_sha256": ""}
    )
    design = page.request.post("/api/designs", data={"title": "Cup", "blank_id": blank["id"]}).json()
    changed = {"name": "Steel cup", "table": {**BLANK, "girth": "236 mm"}, "wrap": {}, "base": 1}
    page.request.put(f"/api/blanks/{blank['id']}", data=changed)
    page.goto(f"/designs/{design.get('design', design)['id']}")
    wait(page)
    on = Composing(page, design.get("design", design)["id"])
    page.click("[data-do=text]")
    on.settled()
    page.click("#tab-design")
    on.field("title").fill("Cup for Ada")
    on.until(lambda: on.kept()["document"].get("title") == "Cup for Ada", "the title")
    on.settled()
    assert page.locator("#tab-design").get_attribute("aria-selected") == "true"
    page.get_by_role("button", name="Take the readings of version 2").click()
    on.until(lambda: on.kept()["document"]["blank"].get("girth") == "236 mm", "the readings")
    on.settled()
    assert page.get_by_role("button", name="Take the readings").count() == 0
    on.field("setup").select_option(label="Desk")
    on.until(lambda: on.kept()["document"].get("sheet", {}).get("paper") == "A4", "the set-up")
    on.settled()
    page.click("summary:has-text('Wrap')")
    on.type("wrap.band.from", "1/2 in")
    on.until(lambda: on.kept()["document"].get("wrap", {}).get("band") == {"from": "12.7 mm"}, "the band")
    on.settled()
    on.type("wrap.seam", "nowhere")
    assert "is not a place" in page.locator("#fields .field-wrong:visible").text_content()
