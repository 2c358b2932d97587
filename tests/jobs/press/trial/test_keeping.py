"""Scores are kept one by one, the window follows, the next heat is proposed and added, what is accepted stands."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.trial.values import Scores
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.keeping import (
    accept_trial,
    add_coupon,
    clear_scores,
    drop_trial,
    list_trials,
    propose_next,
    score_trial,
    show_trial,
)
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import (
    AcceptTrial,
    AddCoupon,
    ClearScores,
    DropTrial,
    ListTrials,
    PlanTrial,
    ScoreTrial,
    ShowTrial,
    TrialTold,
)

QUIET = Watch()


def test_scores_come_one_by_one(bench: Bench, trial: TrialTold) -> None:
    score_trial(ScoreTrial({1: Scores(density=2)}, id=trial.id), bench, QUIET)
    told = score_trial(ScoreTrial({1: Scores(sharpness=5), 3: Scores(5, 5, 5)}, id=trial.id), bench, QUIET)
    assert told.scores == {1: Scores(2, 5, None), 3: Scores(5, 5, 5)}
    assert told.revision == 3
    assert clear_scores(ClearScores(1, id=trial.id), bench, QUIET).scores == {3: Scores(5, 5, 5)}


def test_what_a_coupon_really_got_counts(bench: Bench, trial: TrialTold) -> None:
    told = score_trial(ScoreTrial({}, {2: 240.0}, id=trial.id), bench, QUIET)
    assert told.coupons[1].seconds == 240.0
    assert told.coupons[1].dose.mid > 1.5 * trial.coupons[1].dose.mid
    with pytest.raises(WrapwrightError, match="a dwell of 10 h"):
        score_trial(ScoreTrial({}, {2: 36000.0}, id=trial.id), bench, QUIET)


def test_bad_scores_change_nothing(bench: Bench, scored: TrialTold) -> None:
    for given in ({1: Scores(6)}, {1: Scores(0)}, {77: Scores(3)}):
        with pytest.raises(WrapwrightError):
            score_trial(ScoreTrial({2: Scores(1, 1, 1), **given}, id=scored.id), bench, QUIET)
    assert show_trial(ShowTrial(scored.id), bench, QUIET).scores == scored.scores


def test_two_stations_do_not_write_over_each_other(bench: Bench, trial: TrialTold) -> None:
    score_trial(ScoreTrial({1: Scores(2)}, seen=trial.revision, id=trial.id), bench, QUIET)
    with pytest.raises(WrapwrightError, match="was changed meanwhile") as problem:
        score_trial(ScoreTrial({1: Scores(4)}, seen=trial.revision, id=trial.id), bench, QUIET)
    assert problem.value.kind is Kind.REFUSED


def test_the_next_heat_is_proposed_and_added(bench: Bench, scored: TrialTold) -> None:
    ahead = propose_next(ShowTrial(scored.id), bench, QUIET)
    assert scored.next == ahead
    told = add_coupon(AddCoupon(id=scored.id), bench, QUIET)
    assert told.plan.settings[-1] == (ahead.celsius, ahead.seconds)
    assert [one.number for one in told.coupons] == [1, 2, 3, 4, 5, 6]
    own = add_coupon(AddCoupon((200.0, 300.0), id=scored.id), bench, QUIET)
    assert own.plan.settings[-1] == (200.0, 300.0)
    with pytest.raises(WrapwrightError, match="was 392 °F meant"):
        add_coupon(AddCoupon((392.0, 300.0), id=scored.id), bench, QUIET)


def test_without_scores_nothing_is_proposed(bench: Bench, trial: TrialTold) -> None:
    assert trial.next is None
    with pytest.raises(WrapwrightError, match="no coupon of this trial is scored yet"):
        propose_next(ShowTrial(trial.id), bench, QUIET)


def test_positions_tell_where_and_take_no_window(bench: Bench) -> None:
    told = plan_trial(PlanTrial("Places", "steel-oven", "positions", pieces=4), bench, QUIET)
    rows = {number: Scores(5 if number != 3 else 2, 5, 5) for number in range(1, 5)}
    told = score_trial(ScoreTrial(rows, id=told.id), bench, QUIET)
    assert told.found is None
    assert told.words[0] == "Less colour at position 3 than elsewhere (2 against 5)."
    for refused in (lambda: accept_trial(AcceptTrial(id=told.id), bench, QUIET),
                    lambda: propose_next(ShowTrial(told.id), bench, QUIET),
                    lambda: add_coupon(AddCoupon(id=told.id), bench, QUIET)):  # fmt: skip
        with pytest.raises(WrapwrightError) as problem:
            refused()
        assert problem.value.kind is Kind.REFUSED


def test_what_is_not_known_or_closed_is_not_accepted(bench: Bench, trial: TrialTold) -> None:
    with pytest.raises(WrapwrightError, match="no bound is known yet"):
        accept_trial(AcceptTrial(id=trial.id), bench, QUIET)
    rows = {1: Scores(1, 5, 5), 2: Scores(1, 4, 5), 3: Scores(2, 1, 5), 4: Scores(4, 1, 5), 5: Scores(5, 1, 5)}
    told = score_trial(ScoreTrial(rows, id=trial.id), bench, QUIET)
    assert told.found is not None
    assert told.found.chance is not None
    assert told.found.chance < 0.5
    with pytest.raises(WrapwrightError, match="no dose does both"):
        accept_trial(AcceptTrial(id=trial.id), bench, QUIET)


def test_listed_and_removed(bench: Bench, scored: TrialTold) -> None:
    (one,) = list_trials(ListTrials(), bench, QUIET)
    assert (one.name, one.pieces, one.scored, one.accepted) == ("Steel", 5, 5, False)
    assert drop_trial(DropTrial(name="steel"), bench, QUIET) == "Steel"
    with pytest.raises(WrapwrightError, match="There is no trial with the number"):
        show_trial(ShowTrial(scored.id), bench, QUIET)
