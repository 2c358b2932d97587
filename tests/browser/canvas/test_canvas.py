"""The wrap on the page: taking, moving, turning and sizing copies by hand."""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import Any

import pytest
from tests.browser.canvas.canvas_stage import Stage
from tests.browser.canvas.drawn_by_hand import (
    STRAIGHT,
    TAPERED,
    copy_of,
    drawn_of,
    moved_up,
    rigid_matrix,
    sample,
)

CREST, LEAF, NAME, STAMP = "1.0", "2.0", "3.0", "4.0"
LEAF_AT = STRAIGHT.seam_deg + 3.0


def test_a_copy_dragged_near_a_line_goes_onto_it_and_is_told_once(stage: Stage) -> None:
    drawn = sample(STRAIGHT)
    stage.show(drawn)
    x, y = stage.px(60.0, 24.0)
    to_x, to_y = stage.px(90.0, 42.0)
    seen: list[Any] = []
    words: list[str] = []

    def look() -> None:
        seen.append(stage.page.evaluate("() => canvas.changing"))
        words.extend(stage.page.locator(".wc-snap-words:visible").all_text_contents())

    stage.drag((x, y), (to_x + 3, to_y), before_drop=look)
    change = stage.one_change()
    assert (change["key"], change["element"], change["copy"]) == (STAMP, 4, 0)
    assert change["changes"]["at_deg"] == 90.0
    assert set(change["changes"]) == {"at_deg", "up_mm"}
    assert change["changes"]["up_mm"] == pytest.approx(42.0, abs=0.5)
    assert seen[0]["key"] == STAMP
    assert seen[0]["at_deg"] == 90.0
    # The ruler's figure of the Right line: half of the 235.3 mm round, the seam being at the left.
    assert any(line == "Right · 117.7\u00a0mm" for line in words), words
    # It stays where it was dropped until the server has drawn it.
    before = stage.page.locator(f'[data-key="{STAMP}"][data-lap="0"]').bounding_box()
    assert before["x"] + before["width"] / 2 == pytest.approx(to_x, abs=1.0)
    stage.show(moved_up(drawn, STRAIGHT, STAMP, change["changes"]))
    after = stage.page.locator(f'[data-key="{STAMP}"][data-lap="0"]').bounding_box()
    assert after["x"] == pytest.approx(before["x"], abs=0.01)
    assert stage.page.evaluate("() => canvas.selected") == [STAMP]


def test_opposite_another_copy_is_half_round_from_it(stage: Stage) -> None:
    copies = [
        copy_of(TAPERED, 0, "Crest", at=20.0, up=100.0),
        copy_of(TAPERED, 1, "Stamp", at=100.0, up=40.0, size=(12.0, 12.0)),
    ]
    stage.show(asdict(drawn_of(TAPERED, copies)))
    to_x, to_y = stage.px(200.0, 52.0)
    words: list[str] = []
    stage.drag(
        stage.px(100.0, 40.0),
        (to_x - 4, to_y),
        before_drop=lambda: words.extend(stage.page.locator(".wc-snap-words:visible").all_text_contents()),
    )
    change = stage.one_change()
    assert change["changes"]["at_deg"] == 200.0
    half = TAPERED.turn_length(change["changes"]["up_mm"]) / 2
    assert any(line == f"Opposite Crest · {half:.1f}\u00a0mm round" for line in words), words


def test_alt_turns_snapping_off(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    to_x, to_y = stage.px(90.0, 42.3)
    stage.drag(stage.px(60.0, 24.0), (to_x + 3, to_y), keys=("Alt",))
    at = stage.one_change()["changes"]["at_deg"]
    assert at != 90.0
    assert at == pytest.approx(90.0 + 3 / stage.page.evaluate("() => canvas.zoom") / 235.3 * 360, abs=0.2)


@pytest.mark.parametrize(("to", "kept"), [((80.0, 30.0), "up_mm"), ((62.0, 60.0), "at_deg")])
def test_shift_keeps_to_one_way(stage: Stage, to: tuple[float, float], kept: str) -> None:
    stage.show(sample(STRAIGHT))
    stage.drag(stage.px(60.0, 24.0), stage.px(*to), keys=("Shift",))
    changes = stage.one_change()["changes"]
    assert kept not in changes
    assert len(changes) == 1


def test_a_rigid_copy_on_a_taper_keeps_the_point_taken_under_the_pointer(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    start, end = stage.px(8.0, 88.0), stage.px(70.0, 110.0)
    seen: list[Any] = []
    script = f"""() => document.querySelector('[data-key="{CREST}"][data-lap="0"]').getScreenCTM().inverse()"""

    def own(point: tuple[float, float]) -> tuple[float, float]:
        found = stage.page.evaluate(f"([x, y]) => new DOMPoint(x, y).matrixTransform(({script})())", list(point))
        return found["x"], found["y"]

    taken = own(start)
    stage.drag(start, end, keys=("Alt",), before_drop=lambda: seen.append(own(end)))
    # What is told is even to 0.1 mm and 0.1 degrees (0.06 mm): the point may lie beside the pointer by half of that.
    assert seen[0] == pytest.approx(taken, abs=0.09)


def test_escape_puts_back_what_is_in_hand(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.drag(stage.px(60.0, 24.0), stage.px(100.0, 50.0), before_drop=lambda: stage.page.keyboard.press("Escape"))
    assert stage.heard("wrapchange") == []
    assert stage.heard("wrapcancel") == [{"key": STAMP}]
    box = stage.page.locator(f'[data-key="{STAMP}"][data-lap="0"]').bounding_box()
    x, y = stage.px(60.0, 24.0)
    assert box["x"] + box["width"] / 2 == pytest.approx(x, abs=0.05)
    assert box["y"] + box["height"] / 2 == pytest.approx(y, abs=0.05)


def test_a_corner_sizes_about_the_centre_and_keeps_the_proportion(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.evaluate("key => { canvas.selected = [key]; }", CREST)
    x, y = stage.grip("se")
    zoom = stage.page.evaluate("() => canvas.zoom")
    stage.drag((x, y), (x + 5 * zoom, y + 4 * zoom), keys=("Alt",))
    changes = stage.one_change()["changes"]
    assert changes == {"width_mm": pytest.approx(60.0, abs=0.2), "height_mm": pytest.approx(48.0, abs=0.2)}
    assert changes["width_mm"] / changes["height_mm"] == pytest.approx(50 / 40)


def test_a_box_with_both_sizes_its_own_is_sized_each_way(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    assert not stage.page.locator(".wc-grip-e").is_visible()
    stage.page.evaluate("key => { canvas.both = [3]; canvas.selected = [key]; }", NAME)
    x, y = stage.grip("e")
    zoom = stage.page.evaluate("() => canvas.zoom")
    stage.drag((x, y), (x + 6 * zoom, y + 30))
    assert stage.one_change()["changes"] == {"width_mm": pytest.approx(58.0, abs=0.2)}
    stage.forget()
    x, y = stage.grip("ne")
    stage.drag((x, y), (x, y - 3 * zoom))
    assert stage.one_change()["changes"] == {"height_mm": pytest.approx(15.0, abs=0.2)}


def test_a_sized_edge_goes_onto_a_line(stage: Stage) -> None:
    copies = [copy_of(STRAIGHT, 0, "Crest", at=60.0, up=50.0, size=(30.0, 20.0))]
    stage.show(asdict(drawn_of(STRAIGHT, copies)))
    stage.page.evaluate("() => { canvas.selected = ['0.0']; }")
    to_x, _ = stage.px(90.0, 50.0)
    x, y = stage.grip("se")
    stage.drag((x, y), (to_x + 2, y + (to_x - x) * 20 / 30))
    # The right edge on the Right line: 30 degrees of 235.3 mm to each side.
    assert stage.one_change()["changes"]["width_mm"] == pytest.approx(2 * 235.3 / 12, abs=1e-5)


@pytest.mark.parametrize(("degrees", "keys", "told"), [(43.0, (), 45.0), (43.0, ("Alt",), 43.0), (37.0, (), 37.0)])
def test_turning_steps_near_each_15_degrees(stage: Stage, degrees: float, keys: tuple[str, ...], told: float) -> None:
    import math

    stage.show(sample(STRAIGHT))
    stage.page.evaluate("key => { canvas.selected = [key]; }", CREST)
    x, y = stage.px(0.0, STRAIGHT.height_mm / 2)
    grip = stage.grip("turn")
    far = math.hypot(grip[0] - x, grip[1] - y)
    angle = math.radians(degrees)
    stage.drag(grip, (x + far * math.sin(angle), y - far * math.cos(angle)), keys=keys)
    assert stage.one_change()["changes"] == {"turn_deg": pytest.approx(told, abs=0.15)}


def test_a_copy_over_the_seam_is_taken_at_the_end_it_is_clicked(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    left = stage.px(LEAF_AT, 30.0)
    right = stage.px(LEAF_AT, 30.0, 1)
    stage.page.mouse.click(left[0] + 3, left[1])
    assert stage.heard("wrapselect") == [{"keys": [LEAF]}]
    near_left = stage.grip("ne")[0]
    stage.page.mouse.click(right[0] - 20, right[1])
    assert stage.heard("wrapselect") == [{"keys": [LEAF]}]
    assert stage.grip("ne")[0] - near_left == pytest.approx(right[0] - left[0], abs=0.1)
    # Taken at the right end and moved to the left: what is told is within one turn.
    to = stage.px(240.0, 55.0)
    stage.drag((right[0] - 20, right[1]), (to[0] - 20, to[1]), keys=("Alt",))
    assert stage.one_change()["changes"]["at_deg"] == pytest.approx(240.0, abs=0.1)


def test_a_copy_dragged_over_the_seam_goes_on_at_the_other_end(stage: Stage) -> None:
    drawn = sample(STRAIGHT)
    stage.show(drawn)
    start = stage.px(180.0, 51.0)
    end = stage.px(272.0, 51.0, 1)
    stage.drag(start, end, keys=("Alt",))
    change = stage.one_change()
    assert change["key"] == "1.1"
    assert change["changes"]["at_deg"] == pytest.approx(272.0, abs=0.1)
    boxes = [one.bounding_box() for one in stage.page.locator('[data-key="1.1"]:visible').all()]
    centres = sorted(box["x"] + box["width"] / 2 for box in boxes)
    round_px = 235.3 * stage.page.evaluate("() => canvas.zoom")
    assert len(centres) == 2
    assert centres[1] - centres[0] == pytest.approx(round_px, abs=0.05)
    grips = stage.grip("turn")[0]
    stage.show(moved_up(drawn, STRAIGHT, "1.1", change["changes"]))
    assert stage.grip("turn")[0] == pytest.approx(grips, abs=0.05)


def test_bare_wrap_lets_go_and_then_takes_the_ground(stage: Stage) -> None:
    stage.show(sample(STRAIGHT))
    stage.page.mouse.click(*stage.px(60.0, 24.0))
    stage.page.mouse.click(*stage.px(45.0, 90.0))
    stage.page.mouse.click(*stage.px(45.0, 90.0))
    assert stage.heard("wrapselect") == [{"keys": [STAMP]}, {"keys": []}, {"keys": ["0.0"]}]
    stage.drag(stage.px(45.0, 90.0), stage.px(70.0, 80.0))
    assert stage.heard("wrapchange") == []


def test_a_selected_copy_under_another_can_be_dragged_and_a_click_takes_the_upper(stage: Stage) -> None:
    copies = [
        copy_of(STRAIGHT, 0, "Under", at=60.0, up=50.0, size=(30.0, 30.0)),
        copy_of(STRAIGHT, 1, "Over", at=60.0, up=50.0, size=(20.0, 20.0)),
    ]
    stage.show(asdict(drawn_of(STRAIGHT, copies)))
    stage.page.evaluate("() => { canvas.selected = ['0.0']; }")
    stage.drag(stage.px(60.0, 50.0), stage.px(75.0, 60.0), keys=("Alt",))
    assert stage.one_change()["key"] == "0.0"
    stage.page.evaluate("() => canvas.putBack()")
    stage.page.mouse.click(*stage.px(60.0, 50.0))
    assert stage.page.evaluate("() => canvas.selected") == ["1.0"]


def test_a_drag_asks_the_server_for_nothing_and_tells_once_a_frame(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    x, y = stage.px(60.0, 24.0)
    asked: list[str] = []
    stage.page.on("request", lambda request: asked.append(request.url))
    counted = stage.page.evaluate(
        """async ([x, y]) => {
          const target = document.elementFromPoint(x, y);
          const fire = (type, dx) => target.dispatchEvent(new PointerEvent(type, {
            bubbles: true, clientX: x + dx, clientY: y - dx / 2, pointerId: 7, pointerType: "mouse", button: 0,
          }));
          let frames = 0;
          fire("pointerdown", 0);
          for (let i = 1; i <= 12; i += 1) {
            fire("pointermove", 8 * i - 4);
            fire("pointermove", 8 * i);
            await new Promise(requestAnimationFrame);
            frames += 1;
          }
          fire("pointerup", 96);
          return [frames, heard.filter((one) => one.name === "wraplive").length];
        }""",
        [x, y],
    )
    frames, lives = counted
    assert 6 <= lives <= frames + 1
    live = stage.heard("wraplive")[-1]
    changes = stage.one_change()["changes"]
    assert {name: live[name] for name in changes} == changes
    assert set(live) == {"key", "at_deg", "up_mm", "turn_deg", "scale_x", "scale_y"}
    assert asked == []


def test_a_drag_in_hand_elsewhere_shows_here(stage: Stage) -> None:
    stage.show(sample(TAPERED))
    copy = sample(TAPERED)["copies"][5]
    change = {"key": STAMP, "at_deg": 140.0, "up_mm": 90.0, "turn_deg": 30.0, "scale_x": 1.0, "scale_y": 1.0}
    border = stage.page.locator(f'[data-key="{STAMP}"][data-lap="0"]')
    before = border.bounding_box()
    stage.page.evaluate("change => { canvas.changing = change; }", change)
    matrix = border.evaluate(
        "one => { const m = one.transform.baseVal.consolidate().matrix; return [m.a, m.b, m.c, m.d, m.e, m.f]; }"
    )
    assert matrix == pytest.approx(rigid_matrix(TAPERED, 140.0, 90.0, copy["turn_deg"]), abs=1e-4)
    assert stage.page.evaluate("() => canvas.changing") == change
    stage.page.evaluate("() => { canvas.changing = null; }")
    assert border.bounding_box() == before
    assert stage.heard("wraplive") == []


def test_a_new_drawing_during_a_drag_does_not_end_it(stage: Stage) -> None:
    drawn = sample(STRAIGHT)
    stage.show(drawn)
    bigger = [
        asdict(replace(copy_of(STRAIGHT, 4, "Stamp", at=60.0, up=24.0, size=(32.0, 32.0))))
        if copy["key"] == STAMP
        else copy
        for copy in drawn["copies"]
    ]
    stage.drag(
        stage.px(60.0, 24.0),
        stage.px(75.0, 40.0),
        keys=("Alt",),
        before_drop=lambda: stage.show({**drawn, "copies": bigger}),
    )
    assert stage.one_change()["changes"] == {
        "at_deg": pytest.approx(75.0, abs=0.1),
        "up_mm": pytest.approx(40.0, abs=0.1),
    }


def test_a_straightened_copy_is_held_at_the_corners_it_shows(stage: Stage) -> None:
    drawn = asdict(drawn_of(STRAIGHT, [copy_of(STRAIGHT, 0, "Crest", at=60.0, up=50.0, size=(30.0, 20.0))]))
    # A straightened taper shows what lies low wider than it is: by a tenth here.
    drawn["frame"]["kind"] = "straight"
    copy = drawn["copies"][0]
    copy["matrix"] = (1.1, *copy["matrix"][1:])
    stage.show(drawn)
    stage.page.evaluate("() => { canvas.selected = ['0.0']; }")
    zoom = stage.page.evaluate("() => canvas.zoom")
    x, y = stage.px(60.0, 50.0)
    grip = stage.grip("se")
    assert grip == pytest.approx((x + 16.5 * zoom, y + 10.0 * zoom), abs=0.05)
    to_x, _ = stage.px(90.0, 50.0)
    stage.drag(grip, (to_x + 2, grip[1] + (to_x - grip[0]) * 20 / 33))
    # Its right edge on the Right line, 235.3 mm / 12 from its middle; told in its own millimetres.
    assert stage.one_change()["changes"]["width_mm"] == pytest.approx(2 * 235.3 / 12 / 1.1, abs=1e-5)
