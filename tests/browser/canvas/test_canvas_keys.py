"""The wrap on the page by the keyboard and for the eye: keys, focus, zoom, files, what is told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from typing import Any

import pytest
from tests.browser.canvas.canvas_stage import Stage, staged
from tests.browser.canvas.drawn_by_hand import (
    HANDLED,
    INVERTED,
    STRAIGHT,
    TAPERED,
    copy_of,
    drawn_of,
    moved_up,
    sample,
)

from wrapwright.core.blank.flat import FlatWrap

NAME, STAMP = "3.0", "4.0"


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED, INVERTED, HANDLED], ids=["straight", "taper", "inverted", "mug"])
def test_arrows_move_millimetres_along_the_arc_and_a_burst_is_one_change(stage: Stage, wrap: FlatWrap) -> None:
    stage.show(asdict(drawn_of(wrap, [copy_of(wrap, 0, "Crest", at=40.0, up=30.0)])))
    stage.page.keyboard.press("Tab")
    stage.page.keyboard.press("Tab")
    assert stage.page.evaluate("() => canvas.selected") == ["0.0"]
    for key in ("ArrowUp", "ArrowRight", "Shift+ArrowRight", "Alt+ArrowRight", "Alt+ArrowDown"):
        stage.page.keyboard.press(key)
    stage.rested()
    changes = stage.one_change()["changes"]
    assert changes["up_mm"] == 30.4
    # 5.6 mm to the right: all of it at 30.5 mm up.
    assert changes["at_deg"] == pytest.approx(40.0 + 360.0 * 5.6 / wrap.turn_length(30.5), abs=1e-6)


def test_keys_turn_size_and_walk(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.evaluate("key => { canvas.selected = [key]; }", STAMP)
    stage.page.locator(".wc-view").focus()
    for keys, told in (
        (("]", "]"), {"turn_deg": 32.0}),
        (("Shift+}",), {"turn_deg": 47.0}),
        (("=",), {"width_mm": 16.16, "height_mm": 16.16}),
        (("End",), {"at_deg": 90.0}),
        (("End",), {"at_deg": 180.0}),
        (("Home",), {"at_deg": 90.0}),
    ):
        stage.forget()
        for key in keys:
            stage.page.keyboard.press(key)
        stage.rested()
        assert stage.one_change()["changes"] == pytest.approx(told, abs=1e-6)
    stage.forget()
    stage.page.keyboard.press("ArrowUp")
    stage.page.keyboard.press("Escape")
    stage.frames()
    assert stage.heard("wrapchange") == []
    assert stage.heard("wrapcancel") == [{"key": STAMP}]
    assert stage.page.evaluate("() => canvas.selected") == [STAMP]


def test_tab_walks_the_copies_with_spoken_names_and_escape_lets_go(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.keyboard.press("Tab")
    walked = []
    for _ in range(6):
        stage.page.keyboard.press("Tab")
        walked.append(stage.page.evaluate("() => document.activeElement.getAttribute('aria-label')"))
    assert walked == [one["spoken"] for one in sample(STRAIGHT)["copies"]]
    assert stage.page.evaluate("() => canvas.selected") == [STAMP]
    stage.page.keyboard.press("Shift+Tab")
    assert stage.page.evaluate("() => canvas.selected") == [NAME]
    button = stage.page.get_by_role("button", name="Name, 95 degrees round", pressed=True)
    assert button.count() == 1
    # A new drawing leaves the keyboard where it is.
    stage.show(moved_up(sample(STRAIGHT), STRAIGHT, STAMP, {"up_mm": 30.0}))
    assert stage.page.evaluate("() => document.activeElement.dataset.key") == NAME
    stage.page.keyboard.press("Escape")
    assert stage.page.evaluate("() => canvas.selected") == []


def test_keys_of_the_page_pass_through(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.mouse.click(*stage.px(60.0, 24.0))
    stage.page.evaluate(
        """() => {
          window.passed = [];
          document.addEventListener("keydown", (event) => {
            if (!event.defaultPrevented) passed.push(event.key);
            event.preventDefault();
          });
        }"""
    )
    for key in ("Delete", "Control+z", "Control+y", "Control+d", "Control++", "Control+-", "ArrowUp", "z"):
        stage.page.keyboard.press(key)
    passed = stage.page.evaluate("() => passed.filter((key) => key !== 'Control')")
    assert passed == ["Delete", "z", "y", "d", "+", "-"]


def test_files_dropped_on_the_wrap_come_with_their_place(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    x, y = stage.px(200.0, 44.0)
    stage.page.evaluate(
        """([x, y]) => {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(new File(["<svg/>"], "crest.svg", { type: "image/svg+xml" }));
          const target = document.elementFromPoint(x, y);
          for (const name of ["dragover", "drop"]) {
            const at = { clientX: x, clientY: y, dataTransfer };
            const event = new DragEvent(name, { bubbles: true, cancelable: true, ...at });
            target.dispatchEvent(event);
            if (!event.defaultPrevented) throw new Error(`${name} was left to the browser`);
          }
        }""",
        [x, y],
    )
    assert stage.heard("wrapdrop") == [
        {"files": 1, "at_deg": pytest.approx(200.0, abs=0.6), "up_mm": pytest.approx(44.0, abs=0.4)}  # whole pixels
    ]


def test_zoom_keeps_the_place_under_the_pointer_and_0_shows_the_whole_wrap(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    page = stage.page
    whole = page.evaluate("() => canvas.zoom")
    x, y = stage.px(30.0, 70.0)
    page.mouse.move(x, y)
    page.keyboard.down("Control")
    page.mouse.wheel(0, -400)
    page.keyboard.up("Control")
    page.wait_for_function("whole => canvas.zoom > whole * 1.5", arg=whole)
    kept = stage.px(30.0, 70.0)
    before = page.evaluate("() => canvas.scene.camera.y")
    assert kept == pytest.approx((x, y), abs=1.0)  # a wheel is told in whole pixels
    page.mouse.wheel(30, 50)
    page.wait_for_function("before => canvas.scene.camera.y < before", arg=before)
    assert stage.px(30.0, 70.0) == pytest.approx((kept[0] - 30, kept[1] - 50), abs=0.01)
    page.locator(".wc-view").focus()
    page.keyboard.press("0")
    assert page.evaluate("() => [canvas.zoom, canvas.fitted]") == [whole, True]


def test_straightening_is_asked_for_on_a_taper_alone(stage: Stage) -> None:
    for wrap, count in ((STRAIGHT, 0), (TAPERED, 1)):
        stage.show(sample(wrap))
        stage.page.locator(".wc-view").focus()
        stage.page.keyboard.press("t")
        assert len(stage.heard("wrapstraight")) == count


def test_the_pointer_is_told_where_it_is(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    stage.page.mouse.move(*stage.px(130.0, 60.0))
    stage.frames()
    told = stage.heard("wrapcursor")[-1]
    length = TAPERED.turn_length(60.0)
    assert told == {
        "at_deg": pytest.approx(130.0, abs=0.01),
        "up_mm": pytest.approx(60.0, abs=0.01),
        "x_mm": pytest.approx(length * (130.0 + 90.0) / 360.0, abs=0.01),
        "y_mm": pytest.approx(60.0, abs=0.01),
    }


def test_axe_finds_nothing(stage: Stage, axe: Callable[[Any], list[str]]) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.mouse.click(*stage.px(60.0, 24.0))
    assert axe(stage.page) == []


def test_fingers_get_44_pixels(browser: Any, address: str) -> None:
    size = {"width": 768, "height": 1024}
    with staged(browser, address, viewport=size, has_touch=True, is_mobile=True) as stage:
        stage.show(sample(STRAIGHT))
        stage.page.touchscreen.tap(*stage.px(60.0, 24.0))
        assert stage.page.evaluate("() => canvas.selected") == [STAMP]
        hits = stage.page.locator(".wc-grip-hit:visible").all()
        assert len(hits) == 5
        for hit in hits:
            box = hit.bounding_box()
            assert min(box["width"], box["height"]) >= 43.99


def test_two_fingers_zoom_and_pan(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    whole = stage.page.evaluate("() => canvas.zoom")
    x, y = stage.px(90.0, 75.0)
    stage.page.evaluate(
        """async ([x, y]) => {
          const target = document.querySelector(".wc-view");
          const fire = (type, id, dx, dy) => target.dispatchEvent(new PointerEvent(type, {
            bubbles: true, clientX: x + dx, clientY: y + dy, pointerId: id, pointerType: "touch", button: 0,
          }));
          fire("pointerdown", 11, -40, 0);
          fire("pointerdown", 12, 40, 0);
          for (const far of [60, 80]) {
            fire("pointermove", 11, 25 - far, 10);
            fire("pointermove", 12, 25 + far, 10);
            await new Promise(requestAnimationFrame);
          }
          fire("pointerup", 11, -55, 10);
          fire("pointerup", 12, 105, 10);
        }""",
        [x, y],
    )
    # Twice as far apart, and their middle 25 px to the right and 10 px down.
    assert stage.page.evaluate("() => canvas.zoom") == pytest.approx(2 * whole)
    assert stage.px(90.0, 75.0) == pytest.approx((x + 25, y + 10), abs=0.01)
    assert stage.heard("wrapchange") == []


def test_the_space_bar_pans_over_a_copy(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    x, y = stage.px(0.0, 51.0)
    stage.page.locator(".wc-view").focus()
    stage.page.keyboard.down(" ")
    stage.drag((x, y), (x + 30, y - 20))
    stage.page.keyboard.up(" ")
    assert stage.px(0.0, 51.0) == pytest.approx((x + 30, y - 20), abs=0.01)
    assert stage.heard("wrapchange") == []
    assert stage.heard("wraplive") == []


def test_lengths_are_said_in_the_readers_unit(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.context.add_cookies([{"name": "unit", "value": "in", "url": stage.address}])
    try:
        stage.page.evaluate("() => document.dispatchEvent(new CustomEvent('wrapunit', { detail: { unit: 'in' } }))")
        figures = stage.page.locator(".wc-ruler-upper text").all_text_contents()
        # 241.3 mm of paper is 9.5 inches.
        assert figures == [f"{half / 2:g}" for half in range(20)]
        assert stage.page.locator(".wc-unit").text_content() == "in"
    finally:
        stage.page.context.clear_cookies()


def test_straightening_keeps_in_the_middle_what_was_looked_at(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    stage.page.evaluate("() => canvas.zoomTo(12, { at_deg: 140, up_mm: 40 })")
    middle = stage.px(140.0, 40.0)
    stage.show(sample(STRAIGHT))
    assert stage.px(140.0, 40.0) == pytest.approx(middle, abs=0.01)
    assert stage.page.evaluate("() => canvas.zoom") == 12


def test_a_finger_drags_a_copy(browser: Any, address: str) -> None:
    size = {"width": 768, "height": 1024}
    with staged(browser, address, viewport=size, has_touch=True, is_mobile=True) as stage:
        stage.show(sample(TAPERED))
        hand = stage.page.context.new_cdp_session(stage.page)
        start, end = stage.px(60.0, 24.0), stage.px(100.0, 50.0)

        def touch(kind: str, *at: tuple[float, float]) -> None:
            points = [{"x": x, "y": y} for x, y in at]
            hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

        touch("touchStart", start)
        for share in (0.2, 0.6, 1.0):
            touch("touchMove", (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))
        touch("touchEnd")
        stage.page.wait_for_function("() => heard.some((one) => one.name === 'wrapchange')")
        change = stage.one_change()
        assert change["key"] == STAMP
        assert change["changes"]["at_deg"] == pytest.approx(100.0, abs=2.0)
        assert change["changes"]["up_mm"] == pytest.approx(50.0, abs=3.0)
