"""The dial in a browser: arcs lie and move round the blank by the degree, and say what they are."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.round.harness_pages import Shown, heard
from tests.browser.round.solid_by_hand import PIECES, drawn_piece


def arc_of(page: Any, key: str) -> dict[str, Any]:
    """Return an arc's angles and radius, read off its outline on the screen: 0 at the foot, growing to the right."""
    found: dict[str, Any] = page.evaluate(
        """key => {
          const figure = dial.figure.getBoundingClientRect();
          const body = dial.shadowRoot.querySelector(`[data-key="${key}"] .body`);
          const length = body.getTotalLength();
          const middle = dial.sizes.size / 2;
          const spots = [];
          for (let i = 0; i < 400; i += 1) {
            const {x, y} = body.getPointAtLength(length * i / 400);
            spots.push([x - middle, y - middle]);
          }
          return {spots, x: figure.x + figure.width / 2, y: figure.y + figure.height / 2};
        }""",
        key,
    )
    angles = [math.degrees(math.atan2(x, y)) % 360.0 for x, y in found["spots"]]
    far = [math.hypot(x, y) for x, y in found["spots"]]
    first = math.degrees(
        math.atan2(sum(math.sin(math.radians(a)) for a in angles), sum(math.cos(math.radians(a)) for a in angles))
    )
    offs = [(a - first + 180.0) % 360.0 - 180.0 for a in angles]
    return {
        "at": (first + (min(offs) + max(offs)) / 2.0) % 360.0,
        "wide": max(offs) - min(offs),
        "radius": (min(far) + max(far)) / 2.0,
        "near": min(far),
        "far": max(far),
        "x": found["x"],
        "y": found["y"],
    }


def spot(arc: dict[str, Any], at: float) -> tuple[float, float]:
    """Return the pixel of the page at an angle on an arc's ring."""
    radius = arc["radius"]
    return arc["x"] + radius * math.sin(math.radians(at)), arc["y"] + radius * math.cos(math.radians(at))


def turn_arc(page: Any, key: str, start: float, end: float, *, alt: bool = False) -> None:
    """Drag an arc round the dial by the pointer."""
    arc = arc_of(page, key)
    if alt:
        page.keyboard.down("Alt")
    page.mouse.move(*spot(arc, start))
    page.mouse.down()
    for share in (0.25, 0.5, 0.75, 1.0):
        page.mouse.move(*spot(arc, start + (end - start) * share))
    page.mouse.up()
    if alt:
        page.keyboard.up("Alt")


def test_arcs_lie_where_the_copies_do_and_are_as_wide(shown: Shown) -> None:
    # On a straight wall the width of a copy is its share of the whole turn: width / (girth + pi t) x 360 degrees.
    page = shown(drawn_piece("straight"))
    length = PIECES["straight"].wrap.lower_mm
    for key, at, width in (("1.0", 0.0, 50.0), ("1.1", 180.0, 50.0), ("2.0", 273.0, 30.0), ("3.0", 95.0, 46.0)):
        arc = arc_of(page, key)
        assert abs((arc["at"] - at + 180.0) % 360.0 - 180.0) < 0.3
        assert arc["wide"] == pytest.approx(360.0 * width / length, abs=0.6)
    # A square of 16 mm turned by 30 degrees is 16 (cos 30 + sin 30) mm wide.
    turned = 16.0 * (math.cos(math.radians(30.0)) + math.sin(math.radians(30.0)))
    assert arc_of(page, "4.0")["wide"] == pytest.approx(360.0 * turned / length, abs=0.6)


def test_arcs_that_overlap_lie_on_rings_of_their_own(shown: Shown) -> None:
    page = shown(drawn_piece("mug"))
    leaf, crest = arc_of(page, "2.0"), arc_of(page, "1.1")
    apart = abs((leaf["at"] - crest["at"] + 180.0) % 360.0 - 180.0)
    assert apart < (leaf["wide"] + crest["wide"]) / 2.0
    assert leaf["near"] > crest["far"], "the one on top lies further out"


def test_a_dragged_arc_gives_its_angle_and_one_change(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    turn_arc(page, "3.0", 97.0, 140.0, alt=True)
    (change,) = heard(page, "wrapchange")
    assert (change["key"], change["from"], list(change["changes"])) == ("3.0", "wrap-dial", ["at_deg"])
    assert change["changes"]["at_deg"] == pytest.approx(138.0, abs=0.6)
    assert heard(page, "wrapselect")[0]["keys"] == ["3.0"]
    assert page.evaluate("() => view.changing.at_deg") == pytest.approx(change["changes"]["at_deg"], abs=1e-5)
    # A click alone changes nothing.
    page.evaluate("() => { heard.length = 0 }")
    arc = arc_of(page, "2.0")
    page.mouse.click(*spot(arc, 273.0))
    assert heard(page, "wrapchange") == []
    assert page.evaluate("() => [dial.selected, view.selected]") == [["2.0"], ["2.0"]]


@pytest.mark.parametrize(
    ("name", "key", "start", "end", "lands"),
    [
        ("straight", "3.0", 95.0, 89.0, 90.0),
        ("straight", "3.0", 95.0, 238.6, 240.0),
        ("mug", "4.0", 60.0, 178.6, 180.0),
    ],
    ids=["a side", "opposite of another", "middle of the handle"],
)
def test_an_arc_is_drawn_to_lines(shown: Shown, name: str, key: str, start: float, end: float, lands: float) -> None:
    page = shown(drawn_piece(name))
    turn_arc(page, key, start, end)
    (change,) = heard(page, "wrapchange")
    assert change["changes"]["at_deg"] == lands


def test_keys_move_an_arc_and_tell_it_once(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    arc = page.get_by_role("slider", name="Name, 95 degrees round, 70 millimetres up")
    arc.focus()
    # The burst from within the page: on a busy machine the driver's keys come too far apart.
    page.evaluate(
        """keys => keys.forEach(([key, shiftKey, altKey]) => dial.shadowRoot.activeElement.dispatchEvent(
          new KeyboardEvent('keydown', {key, shiftKey, altKey, bubbles: true, composed: true, cancelable: true})))""",
        [["ArrowRight", False, False], ["ArrowRight", False, False], ["ArrowRight", True, False],
         ["ArrowRight", False, True], ["ArrowLeft", False, False]],
    )  # fmt: skip
    page.wait_for_function("() => heard.some(one => one.name === 'wrapchange')")
    changes = heard(page, "wrapchange")
    assert changes[-1]["changes"] == {"at_deg": pytest.approx(111.1)}
    assert len(changes) == 1
    assert len(heard(page, "wraplive")) == 5
    page.wait_for_function("() => dial.shadowRoot.activeElement.getAttribute('aria-valuenow') === '111.1'")


def test_escape_puts_an_arc_back(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    page.get_by_role("slider", name="Name, 95").focus()
    page.evaluate(
        """() => ['ArrowRight', 'Escape'].forEach(key => dial.shadowRoot.activeElement.dispatchEvent(
          new KeyboardEvent('keydown', {key, bubbles: true, composed: true, cancelable: true})))"""
    )
    arc = arc_of(page, "2.0")
    page.mouse.move(*spot(arc, 273.0))
    page.mouse.down()
    page.mouse.move(*spot(arc, 300.0))
    page.keyboard.press("Escape")
    page.mouse.up()
    page.wait_for_timeout(300)
    assert [len(heard(page, name)) for name in ("wrapcancel", "wrapchange")] == [2, 0]
    assert page.evaluate("() => [dial.changing, view.changing]") == [None, None]


def test_what_lies_opposite_is_said(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    page.evaluate("() => { dial.selected = ['1.0'] }")
    page.get_by_text("Crest, back, 0.0° off").wait_for()
    page.evaluate("() => { dial.changing = {key: '1.0', at_deg: 2.5, up_mm: 50, turn_deg: 0, scale_x: 1, scale_y: 1} }")
    page.get_by_text("Crest, back, 2.5° to the left").wait_for()
    page.evaluate("() => { dial.changing = null; dial.held.release(); dial.selected = ['3.0'] }")
    page.get_by_text("Leaf, 273.0°, 2.0° to the left").wait_for()


def test_the_eye_on_the_dial_turns_the_view(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    middle = page.evaluate(
        """() => { const box = dial.figure.getBoundingClientRect();
          return {x: box.x + box.width / 2, y: box.y + box.height / 2, radius: dial.sizes.eye} }"""
    )
    page.mouse.move(*spot(middle, 0.0))
    page.mouse.down()
    page.mouse.move(*spot(middle, 40.0))
    page.mouse.move(*spot(middle, 88.0))
    page.mouse.up()
    assert page.evaluate("() => [dial.facing, view.facing]") == [90, 90]
    eye = page.get_by_role("slider", name="Side that faces you")
    eye.focus()
    page.keyboard.press("Shift+ArrowRight")
    assert page.evaluate("() => [dial.facing, view.facing]") == [105, 105]
    page.evaluate("() => { view.turnTo(200, 10) }")
    assert page.evaluate("() => dial.facing") == 200
    page.evaluate("() => { dial.setAttribute('facing', '45') }")
    assert page.evaluate("() => dial.facing") == 45


def test_the_window_of_one_eye_follows_the_selection_or_the_eye(shown: Shown) -> None:
    page = shown(drawn_piece("straight"))
    edges = """async () => { await settled(); const middle = dial.sizes.size / 2;
      const path = dial.shadowRoot.querySelector('.window');
      const far = [];
      for (let i = 0; i < 300; i += 1) {
        const {x, y} = path.getPointAtLength(path.getTotalLength() * i / 300);
        if (Math.hypot(x - middle, y - middle) > dial.sizes.wall - 0.5) far.push(Math.atan2(x - middle, y - middle));
      }
      return [Math.min(...far), Math.max(...far)].map(one => one * 180 / Math.PI);
    }"""
    page.evaluate("() => { dial.facing = 20 }")
    assert page.evaluate(edges) == pytest.approx([-40.0, 80.0], abs=1.5)
    page.evaluate("() => { dial.selected = ['3.0'] }")
    assert page.evaluate(edges) == pytest.approx([35.0, 155.0], abs=1.5)


def test_it_can_be_read_at_280_px(shown: Shown) -> None:
    page = shown(drawn_piece("mug"))
    words = page.evaluate(
        """() => { const box = dial.figure.getBoundingClientRect();
          return {width: box.width, texts: [...dial.shadowRoot.querySelectorAll('svg text')].map(text => {
            const own = text.getBoundingClientRect();
            return {words: text.textContent, size: parseFloat(getComputedStyle(text).fontSize),
              inside: own.x >= box.x - 0.5 && own.y >= box.y - 0.5 && own.right <= box.right + 0.5
                && own.bottom <= box.bottom + 0.5};
          })} }"""
    )
    assert words["width"] == 280
    said = {one["words"] for one in words["texts"]}
    assert {"Front", "Right", "Back", "Left", "Handle", "Crest"} <= said
    assert all(one["size"] >= 11 and one["inside"] for one in words["texts"])


def test_every_copy_is_spoken_and_axe_finds_nothing_wrong(shown: Shown, axe: Callable[[Any], list[str]]) -> None:
    drawn = drawn_piece("mug")
    page = shown(drawn)
    page.evaluate("() => { dial.selected = ['1.0']; view.selected = ['1.0'] }")
    for copy in drawn["copies"]:
        role = "button" if copy["fixed"] else "slider"
        one = page.get_by_role(role, name=copy["spoken"], exact=True)
        one.focus()
        assert page.evaluate("() => dial.shadowRoot.activeElement.dataset.key") == copy["key"]
    page.keyboard.press("Enter")
    assert page.evaluate("() => dial.selected") == ["4.0"]
    assert axe(page) == []
