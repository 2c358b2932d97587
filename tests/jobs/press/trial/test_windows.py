"""Planning goes by the window that was accepted last, and by none before."""

from __future__ import annotations

from wrapwright.core.press.trial.values import Scores
from wrapwright.core.press.values import Window
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.recipes import recipe_named
from wrapwright.jobs.press.trial.keeping import accept_trial, score_trial
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import AcceptTrial, PlanTrial, ScoreTrial, TrialTold
from wrapwright.jobs.press.trial.windows import window_for

QUIET = Watch()


def test_not_known_yet_until_one_is_accepted(bench: Bench, scored: TrialTold) -> None:
    assert window_for("steel-oven", bench) == Window(source="not known yet")
    told = accept_trial(AcceptTrial(id=scored.id), bench, QUIET)
    assert told.found is not None
    recipe = recipe_named("steel-oven", bench)
    assert recipe is not None
    assert window_for(recipe, bench) == told.found.window
    assert window_for("Steel-Oven", bench).source == '5 scored coupons of the trial "Steel"'
    assert window_for("ceramic-oven", bench) == Window(source="not known yet")
    accept_trial(AcceptTrial(accepted=False, id=scored.id), bench, QUIET)
    assert window_for(recipe, bench).low is None


def test_what_was_accepted_stands_while_the_scores_go_on(bench: Bench, scored: TrialTold) -> None:
    accept_trial(AcceptTrial(id=scored.id), bench, QUIET)
    before = window_for("steel-oven", bench)
    score_trial(ScoreTrial({3: Scores(1, 1, 1)}, id=scored.id), bench, QUIET)
    assert window_for("steel-oven", bench) == before


def test_the_one_accepted_last_counts(bench: Bench, scored: TrialTold) -> None:
    asked = PlanTrial("Later", "steel-oven", celsius=(195.0,), seconds=(120.0, 180.0, 270.0, 450.0, 900.0))
    later = plan_trial(asked, bench, QUIET)
    rows = {1: Scores(1, 5, 5), 2: Scores(1, 5, 5), 3: Scores(2, 5, 5), 4: Scores(5, 5, 5), 5: Scores(5, 2, 3)}
    score_trial(ScoreTrial(rows, id=later.id), bench, QUIET)
    accept_trial(AcceptTrial(id=later.id), bench, QUIET)
    accept_trial(AcceptTrial(id=scored.id), bench, QUIET)
    assert "Steel" in window_for("steel-oven", bench).source
    accept_trial(AcceptTrial(id=later.id), bench, QUIET)
    assert "Later" in window_for("steel-oven", bench).source
