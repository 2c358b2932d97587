"""The Press screen in a browser: a heat from its load to its results, by keys, over a lost server and a reload.

What time it is the server says; the tests put its clock forward instead of waiting.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from tests.browser.running import Running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater
from wrapwright.jobs.press.run.showing import show_heat
from wrapwright.jobs.press.run.starting import start_heat
from wrapwright.jobs.press.run.values import HeatTold, ShowHeat, StartHeat

NEAR_S = 2


class Wound:
    """A clock that can be put forward."""

    def __init__(self) -> None:
        self.ahead = timedelta()

    def __call__(self) -> datetime:
        return datetime.now(UTC) + self.ahead

    def on(self, seconds: float) -> None:
        self.ahead += timedelta(seconds=seconds)


@pytest.fixture
def server(common: Running) -> Iterator[Running]:
    """Give the bench that tests share, with a clock that can be put forward."""
    kept = common.app.state.bench
    common.app.state.bench = replace(kept, clock=Wound())
    yield common
    common.app.state.bench = kept


def oven(server: Running, name: str) -> int:
    return keep_heater(KeepHeater(name, "oven", 1500.0, capacity=4), server.app.state.bench, Watch()).id


def heat(server: Running, page: Any) -> HeatTold:
    number = int(page.locator(".p-card").get_attribute("data-heat"))
    return show_heat(ShowHeat(number), server.app.state.bench, Watch())


def on(server: Running, page: Any, seconds: float) -> None:
    """Put the server's clock forward; the page asks at once when somebody looks at it again."""
    server.app.state.bench.clock.on(seconds)
    page.evaluate("() => window.dispatchEvent(new Event('focus'))")


def left(page: Any) -> int:
    minutes, seconds = page.locator(".p-big").inner_text().split(":")
    return 60 * int(minutes) + int(seconds)


def phase(page: Any, name: str) -> None:
    page.locator(f'.p-card[data-phase="{name}"]').wait_for()


def begun(page: Any) -> None:
    """Scan a piece, be held by the box that is not ticked, tick it, start and load: by keys alone."""
    page.locator("#plan-figures").wait_for()
    # A scanner's keys, wherever the focus is: they are a piece, and its Enter presses no button.
    page.locator("#start-heat").focus()
    page.keyboard.type("A7-9\n")
    assert page.locator("#numbers button").all_inner_texts() == ["A7-3\n×", "A7-4\n×", "A7-9\n×"]
    page.locator("#hot").check()
    page.locator("#start-heat").press("Enter")
    assert page.evaluate("() => document.activeElement.type") == "checkbox"
    page.keyboard.press("Space")
    page.locator("#start-heat").press("Enter")
    phase(page, "loading")
    assert page.evaluate("() => document.activeElement.dataset.kind") == "loaded"
    page.keyboard.press("Enter")
    phase(page, "dwell")


def lost_and_back(page: Any, server: Running) -> None:
    """Let the server be away: the count goes on, it is said, and what is pressed is kept until it is back."""
    page.context.set_offline(True)
    on(server, page, 0)
    page.locator("#away").wait_for()
    page.locator('[data-kind="door-opened"]').press("Enter")
    page.locator("[data-waits]").wait_for()
    assert left(page) == pytest.approx(heat(server, page).remaining_s, abs=NEAR_S)
    # The machine sleeps for half a minute: its wall clock goes on, the page's own counter does not.
    server.app.state.bench.clock.on(30)
    page.evaluate("() => { const wall = Date.now.bind(Date); Date.now = () => wall() + 30_000; }")
    page.wait_for_timeout(250)
    assert left(page) == pytest.approx(heat(server, page).remaining_s, abs=NEAR_S)
    page.context.set_offline(False)
    page.locator(".p-door").wait_for()
    assert re.fullmatch(r"Door open 0:[0-3]\d", page.locator(".p-door").inner_text())
    page.locator('[data-kind="door-closed"]').click()


def looked(page: Any, server: Running) -> None:
    """Say of one piece which fault it has, of the others that they are good, and be done."""
    page.locator(".p-looked button", has_text="fault").first.press("Enter")
    page.locator(".p-faults button", has_text="Blurred").press("Enter")
    page.locator(".p-causes", has_text="Change first").wait_for()
    assert heat(server, page).pieces[0].result == "blurred"
    page.locator("button", has_text="The others are good").press("Enter")
    phase(page, "ended")
    assert [one.result for one in heat(server, page).pieces] == ["blurred", "good", "good"]


def test_a_heat_from_load_to_result(page: Any, server: Running, axe: Callable[[Any], list[str]]) -> None:
    page.goto(f"/press?recipe=steel-oven&pieces=A7-3,A7-4&heater={oven(server, 'Left oven')}")
    begun(page)
    assert [one.piece for one in heat(server, page).pieces] == ["A7-3", "A7-4", "A7-9"]

    before = left(page)
    on(server, page, 100)
    page.locator(".p-big", has_text=re.compile(rf"^{(before - 100) // 60}:")).wait_for()
    assert left(page) == pytest.approx(heat(server, page).remaining_s, abs=NEAR_S)
    page.reload()
    phase(page, "dwell")
    assert left(page) == pytest.approx(heat(server, page).remaining_s, abs=NEAR_S)
    lost_and_back(page, server)

    on(server, page, 900)
    phase(page, "unload")
    page.locator("#said", has_text="Left oven: Take out now.").wait_for(state="attached")
    assert page.locator(".p-card").get_attribute("data-calls") == "unload"
    assert axe(page) == []
    page.locator('[data-kind="taken-out"]').click()
    phase(page, "cool")
    on(server, page, heat(server, page).cool_s)
    phase(page, "look")
    looked(page, server)
    page.locator("button", has_text="Done").press("Enter")
    page.locator(".p-card").wait_for(state="detached")


def test_a_heater_that_is_taken_meanwhile_is_not_changed_for_another(page: Any, server: Running) -> None:
    number = oven(server, "Taken oven")
    page.goto(f"/press?recipe=steel-oven&count=1&heater={number}")
    page.locator("#plan-figures").wait_for()
    page.locator("#wall").fill("thick")
    page.locator("#ticks input").check()
    page.locator("#wall-wrong:not([hidden])").wait_for()
    page.locator("#start-words", has_text="Mend the wall's thickness first").wait_for()
    page.locator("#wall").fill("0.5")
    page.locator("#wall").press("Tab")
    page.locator("#start-words", has_text=re.compile("^$")).wait_for(state="attached")
    request = StartHeat("Taken oven", "steel-oven", count=1, ticked=("open-empty-dry",), key="elsewhere")
    start_heat(request, server.app.state.bench, Watch())
    on(server, page, 0)
    page.locator("#start-words", has_text="The heater was taken meanwhile.").wait_for()
    assert page.locator("#heaters input:checked").count() == 0
    page.locator("#start-heat").click()
    assert page.evaluate("() => document.activeElement.name") == "heater"


def test_at_a_phone_without_a_secure_context(
    open_page: Callable[..., Any], server: Running, axe: Callable[[Any], list[str]]
) -> None:
    number = oven(server, "Small oven")
    page = open_page(color_scheme="dark", viewport={"width": 390, "height": 844}, has_touch=True)
    page.add_init_script("Object.defineProperty(window, 'isSecureContext', {get: () => false})")
    page.goto(f"/press?heater={number}&count=9")
    page.locator("#plan-trouble:not([hidden]), #plan-figures:not([hidden])").first.wait_for()
    assert "Small oven holds 4 pieces: 5 too many." in page.locator("#count-wrong").inner_text()
    assert "keep the screen awake" in page.locator("#dark").inner_text()
    assert page.locator("#sound").inner_text() == "Tap for sound"
    page.locator("#sound").tap()
    page.wait_for_function("() => document.getElementById('sound').textContent === 'Sound on'")
    heights = page.evaluate("() => [...document.querySelectorAll('.p-act')].map((one) => one.offsetHeight)")
    assert min(one for one in heights if one) >= 72  # what is not shown has none
    assert axe(page) == []
