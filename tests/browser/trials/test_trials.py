"""A trial in a browser: scored with its keys, the window follows; a wrong time is marked where it stands."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.browser.running import Running

from wrapwright.core.press.trial.values import Scores
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.trial.keeping import score_trial, show_trial
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import PlanTrial, ScoreTrial, ShowTrial


def test_scored_by_keys_until_the_window_is_taken(
    server: Running, open_page: Callable[..., Any], axe: Callable[[Any], list[str]]
) -> None:
    bench = server.app.state.bench
    asked = PlanTrial("Steel", "steel-oven", celsius=(195.0,), seconds=(120.0, 180.0, 270.0, 450.0))
    number = plan_trial(asked, bench, Watch()).id
    score_trial(ScoreTrial({1: Scores(1, 5, 5), 2: Scores(3, 5, 5), 3: Scores(5, 5, 5)}, id=number), bench, Watch())
    page = open_page(bypass_csp=True)
    page.goto(f"{server.url}/press/trials?trial={number}")
    assert page.inner_text(".t-number") == "4"
    page.wait_for_selector("input[name=density]:enabled")
    for quality, key in (("density", "5"), ("sharpness", "2"), ("yellowing", "4")):
        page.focus(f'input[name={quality}][value="1"]')
        page.keyboard.press("ArrowLeft")  # round to 5
        for _ in range(5 - int(key)):
            page.keyboard.press("ArrowLeft")
    page.wait_for_selector("text=All are scored.")
    assert show_trial(ShowTrial(number), bench, Watch()).scores[4] == Scores(5, 2, 4)
    page.fill("#heated", "10 h")
    page.click("[data-act=heated]")
    page.wait_for_selector("#heated[aria-invalid]")
    assert "15 s to 1 h" in page.inner_text("#heated-wrong")
    assert axe(page) == []
    page.click("[data-act=accept]")
    page.wait_for_selector("text=Planning goes by it since")
    page.click("[data-act=add]")
    page.wait_for_url("**coupon=5**")
    assert page.inner_text(".t-number") == "5"
