"""The screen of trials, as it is sent."""

from __future__ import annotations

from typing import Any

from wrapwright.core.press.trial.values import Scores
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.keeping import score_trial
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import PlanTrial, ScoreTrial

QUIET = Watch()


def test_an_empty_workshop_gets_the_form(client: Any) -> None:
    text = client.get("/press/trials").text
    assert 'id="t-plan"' in text
    assert "would see one dose only" in text
    assert "The makers&#39; instructions" in text
    assert client.get("/press/trials?trial=999").status_code == 404


def test_a_trial_with_its_next_coupon_in_front(client: Any, bench: Bench) -> None:
    asked = PlanTrial("Steel <1>", "steel-oven", celsius=(195.0,), seconds=(120.0, 180.0, 270.0, 450.0))
    told = plan_trial(asked, bench, QUIET)
    fresh = client.get(f"/press/trials?trial={told.id}").text
    assert "Steel &lt;1&gt;" in fresh
    assert fresh.index('id="print-title"') < fresh.index('id="window-title"')  # first it is printed and heated
    assert "Hot surfaces: heat-proof gloves." in fresh
    assert 'data-coupon="1"' in fresh
    score_trial(ScoreTrial({1: Scores(1, 5, 5), 2: Scores(2, 5, 5), 4: Scores(5, 2, 5)}, id=told.id), bench, QUIET)
    scored = client.get(f"/press/trials?trial={told.id}").text
    assert scored.index('id="window-title"') < scored.index('id="print-title"')
    assert 'data-coupon="3"' in scored
    assert "Plan by this window" in scored
    assert "Add it as coupon 5" in scored
    assert 'data-coupon="2"' in client.get(f"/press/trials?trial={told.id}&coupon=2").text


def test_a_strip_is_judged_for_yellowing_once(client: Any, bench: Bench) -> None:
    told = plan_trial(PlanTrial("Strip", "ceramic-oven", "strip", pieces=4), bench, QUIET)
    assert 'name="yellowing"' in client.get(f"/press/trials?trial={told.id}&coupon=1").text
    assert 'name="yellowing"' not in client.get(f"/press/trials?trial={told.id}&coupon=2").text
