"""Trials are planned for a wall, a heater and a wish; what cannot be is refused and nothing is kept."""

from __future__ import annotations

from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater, put_found
from wrapwright.jobs.press.trial.keeping import list_trials, show_trial
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import ListTrials, PlanTrial, ShowTrial

QUIET = Watch()


def test_a_few_to_begin_with_and_how_many_in_all(bench: Bench) -> None:
    told = plan_trial(PlanTrial("Few", "steel-oven", wall_mm=0.6, within=2.5), bench, QUIET)
    plan = told.plan
    assert len(told.coupons) == 4 < plan.total <= (plan.at_once or 0)
    assert plan.chance is not None
    assert plan.chance >= 0.8
    assert f"about {plan.total} in all" in told.words[0]
    assert plan.free
    assert {celsius for celsius, _ in plan.settings} <= {190.0, 200.0, 205.0}
    assert any("Hot surfaces" in text and grave for text, grave in told.cautions)
    assert not any("closed vessel" in text for text, _ in told.cautions)  # a plate has no inside


def test_times_with_temperatures_are_taken_as_they_are(bench: Bench) -> None:
    asked = PlanTrial("Grid", "steel-oven", celsius=(190.0, 200.0), seconds=(180.0, 300.0))
    grid = [(190.0, 180.0), (190.0, 300.0), (200.0, 180.0), (200.0, 300.0)]
    assert list(plan_trial(asked, bench, QUIET).plan.settings) == grid


def test_one_blank_says_its_caution_and_gets_its_heats(bench: Bench) -> None:
    strip = plan_trial(PlanTrial("Strip", "ceramic-oven", "strip", pieces=5, wall_mm=4.0), bench, QUIET)
    doses = [one.dose.mid for one in strip.coupons]
    assert doses == sorted(doses, reverse=True)
    assert {one.bare for one in strip.coupons} == {strip.coupons[0].dose.mid}
    assert any("closed vessel" in text for text, _ in strip.cautions)
    assert not any("vacuum" in text for text, _ in strip.cautions)
    asked = PlanTrial("Double", "ceramic-oven", "strip", pieces=5, wall_mm=4.0, double=True)
    assert any("vacuum" in text and grave for text, grave in plan_trial(asked, bench, QUIET).cautions)
    places = plan_trial(PlanTrial("Places", "ceramic-oven", "positions", pieces=6), bench, QUIET)
    assert len(set(places.plan.settings)) == 1
    assert len(places.coupons) == 6


def test_a_heater_found_hotter_gives_more_dose_to_the_same_coupons(bench: Bench) -> None:
    oven = keep_heater(KeepHeater("Left", "oven", 1500.0, 4), bench, QUIET)
    asked = PlanTrial("Hot", "steel-oven", heater="left", celsius=(195.0,), seconds=(200.0, 300.0, 400.0, 600.0))
    before = plan_trial(asked, bench, QUIET)
    put_found(oven.id, {"offset_k": 8.0, "offset_half_k": 2.0}, bench)
    after = show_trial(ShowTrial(before.id), bench, QUIET)
    assert all(b.dose.mid > 1.3 * a.dose.mid for a, b in zip(before.coupons, after.coupons, strict=True))


REFUSED: tuple[tuple[dict[str, Any], str], ...] = (
    ({"celsius": (383.0,)}, "was 383 °F meant"),
    ({"seconds": (0.0,)}, "a dwell of 0 s cannot be tried"),
    ({"seconds": (36000.0,)}, "a dwell of 10 h cannot be tried"),
    ({"pieces": 0}, "a trial without coupons tells nothing"),
    ({"celsius": (225.0,)}, "is above the coating's limit"),
    ({"kind": "strip", "celsius": (190.0, 200.0)}, "a strip has one temperature, and 2 are given"),
    ({"kind": "positions", "seconds": (100.0, 200.0)}, "one heat has one time, and 2 are given"),
    ({"seconds": (200.0,), "celsius": (195.0,)}, "1 coupons cannot be planned"),
    ({"material": "cheese"}, 'there is no material "cheese"'),
    ({"recipe": " "}, "no recipe is named"),
    ({"within": 1.0}, "a bound within a ratio of 1"),
    ({"name": " "}, "the trial needs a name"),
)


def test_what_cannot_be_is_refused_and_nothing_is_kept(bench: Bench) -> None:
    for asked, said in REFUSED:
        with pytest.raises(WrapwrightError, match=said):
            plan_trial(PlanTrial(**{"name": "No", "recipe": "steel-oven", "pieces": 4, **asked}), bench, QUIET)
    assert list_trials(ListTrials(), bench, QUIET) == ()


def test_a_name_stands_once(bench: Bench) -> None:
    plan_trial(PlanTrial("Mine", "steel-oven", pieces=4), bench, QUIET)
    with pytest.raises(WrapwrightError, match='a trial called "Mine" already') as problem:
        plan_trial(PlanTrial("MINE", "steel-oven", pieces=4), bench, QUIET)
    assert problem.value.kind is Kind.REFUSED
