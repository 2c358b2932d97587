"""Trials as they are kept: listed, shown with all that their scores tell, scored, added to, accepted, removed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.trial.values import QUALITIES, Found, Next, Scores
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.beds import COUPONS, bed_of, coupons_of
from wrapwright.jobs.press.trial.plain import (
    accepted_from,
    accepted_table,
    plan_from,
    plan_table,
    scores_from,
    scores_table,
)
from wrapwright.jobs.press.trial.telling import cautions_of, trial_words
from wrapwright.jobs.press.trial.values import (
    AcceptTrial,
    AddCoupon,
    ClearScores,
    DropTrial,
    ListTrials,
    ScoreTrial,
    Setting,
    ShowTrial,
    TrialListed,
    TrialPlan,
    TrialTold,
)  # fmt: skip

if TYPE_CHECKING:
    from wrapwright.core.press.trial.values import Coupon
    from wrapwright.outside.store.rows.press.trials import TrialRow

POSITIONS = "positions"


def list_trials(request: ListTrials, bench: Bench, watch: Watch) -> tuple[TrialListed, ...]:
    """Return the trials, the last changed first; none where there is no store yet."""
    del request, watch
    from wrapwright.outside.store.rows.press.trials import trial_rows

    if bench.store is None or not bench.store.exists():
        return ()
    with bench.store.reading() as connection:
        rows = trial_rows(connection)
    return tuple(_listed(row) for row in rows)


def show_trial(request: ShowTrial, bench: Bench, watch: Watch) -> TrialTold:
    """Return a trial with all that its scores tell.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.press.trials import trial_kept

    with bench.kept().reading() as connection:
        row = trial_kept(connection, id=request.id, name=request.name)
    return told_of(row, bench, proposed=request.proposed)


def propose_next(request: ShowTrial, bench: Bench, watch: Watch) -> Next:
    """Return the heat from which most is to be learned next.

    Raises:
        WrapwrightError: unusable while no coupon is scored; refused for a trial on one blank; missing when there is
            none.
    """
    shown = show_trial(ShowTrial(request.id, request.name), bench, watch)
    _must_be_coupons(shown.plan)
    return shown.next or _proposed(shown.plan, shown.coupons, shown.scores, bench)


def score_trial(request: ScoreTrial, bench: Bench, watch: Watch) -> TrialTold:
    """Return the trial with the scores.

    Raises:
        WrapwrightError: unusable for no such coupon, scores outside 1 to 5, and times that cannot be, with all that is
            wrong; refused when it was changed since it was seen; missing when there is none.
    """
    del watch
    from wrapwright.core.press.trial.asked import scores_asked, settings_asked

    with bench.kept().writing() as connection:
        row, plan, scores = _read(connection, request)
        numbers = range(1, len(plan.settings) + 1)
        for number, given in request.scores.items():
            scores_asked(number, given, numbers)
            before = scores.get(number, Scores())
            fresh = {quality: given.of(quality) or before.of(quality) for quality in QUALITIES}
            scores[number] = Scores(**fresh)
        for number, seconds in request.heated.items():
            scores_asked(number, Scores(), numbers)
            settings_asked((), (seconds,))
            plan = _heated(plan, number, seconds)
        _write(connection, row, request.seen, bench, plan=plan_table(plan), scores=scores_table(scores))
        row = _again(connection, row)
    return told_of(row, bench)


def clear_scores(request: ClearScores, bench: Bench, watch: Watch) -> TrialTold:
    """Return the trial without what was judged of one coupon.

    Raises:
        WrapwrightError: unusable for no such coupon; refused when it was changed since it was seen.
    """
    del watch
    from wrapwright.core.press.trial.asked import scores_asked

    with bench.kept().writing() as connection:
        row, plan, scores = _read(connection, request)
        scores_asked(request.number, Scores(), range(1, len(plan.settings) + 1))
        scores.pop(request.number, None)
        _write(connection, row, request.seen, bench, scores=scores_table(scores))
        row = _again(connection, row)
    return told_of(row, bench)


def add_coupon(request: AddCoupon, bench: Bench, watch: Watch) -> TrialTold:
    """Return the trial with one coupon more: the heat that is proposed, or the one that is given.

    Raises:
        WrapwrightError: unusable for a heat that cannot be, for a trial of one blank, and when nothing is scored that
            a proposal could go by; refused when it was changed since it was seen.
    """
    from wrapwright.core.press.trial.asked import MOST, settings_asked

    shown = show_trial(ShowTrial(request.id, request.name), bench, watch)
    _must_be_coupons(shown.plan)
    if len(shown.plan.settings) >= 2 * MOST:
        message = f"this trial has {len(shown.plan.settings)} coupons, the most there can be."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Plan a new one.")
    setting: Setting
    if request.setting is not None:
        setting = request.setting
        settings_asked((setting[0],), (setting[1],))
    else:
        proposed = shown.next or _proposed(shown.plan, shown.coupons, shown.scores, bench)
        setting = (proposed.celsius, proposed.seconds)
    with bench.kept().writing() as connection:
        row, plan, _ = _read(connection, replace(request, id=shown.id))
        settings = (*plan.settings, setting)
        plan = replace(plan, settings=settings, total=max(plan.total, len(settings)))
        _write(connection, row, request.seen or shown.revision, bench, plan=plan_table(plan))
        row = _again(connection, row)
    return told_of(row, bench)


def accept_trial(request: AcceptTrial, bench: Bench, watch: Watch) -> TrialTold:
    """Return the trial, whose window planning goes by from now on, or no longer.

    Raises:
        WrapwrightError: refused when no bound is known yet, or the bounds leave no window; or when it was changed
            since it was seen.
    """
    shown = show_trial(ShowTrial(request.id, request.name, proposed=False), bench, watch)
    table: dict[str, Any] = {}
    if request.accepted:
        found = shown.found
        _acceptable(found)
        assert found is not None
        table = accepted_table(found.window, bench.clock())
    with bench.kept().writing() as connection:
        row, _, _ = _read(connection, replace(request, id=shown.id))
        _write(connection, row, request.seen or shown.revision, bench, found=table)
        row = _again(connection, row)
    return told_of(row, bench)


def drop_trial(request: DropTrial, bench: Bench, watch: Watch) -> str:
    """Return the name of the trial that was removed with its scores.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.press.trials import remove_trial_row, trial_kept

    with bench.kept().writing() as connection:
        row = trial_kept(connection, id=request.id, name=request.name)
        remove_trial_row(connection, row)
    return row.name


def told_of(row: TrialRow, bench: Bench, *, proposed: bool = True) -> TrialTold:
    """Return a trial with all that there is to say of it; with `proposed` the next heat where scores tell one."""
    plan, scores = plan_from(row.plan), scores_from(row.scores)
    coupons = coupons_of(plan, bench)
    found = None if plan.kind == POSITIONS else _found(row.name, coupons, scores, bench)
    ahead = None
    if proposed and plan.kind == COUPONS and any(scores.values()):
        ahead = _proposed(plan, coupons, scores, bench)
    words = trial_words(plan, scores, found)
    accepted = accepted_from(row.found)
    return TrialTold(
        row.id, row.name, row.revision, row.changed, plan, coupons, scores, found, accepted, ahead, words,
        cautions_of(plan),
    )  # fmt: skip


def _found(name: str, coupons: tuple[Coupon, ...], scores: Mapping[int, Scores], bench: Bench) -> Found:
    from wrapwright.core.press.trial.fit import found_in

    judged = sum(1 for one in scores.values() if any(one.of(quality) for quality in QUALITIES))
    source = f'{judged} scored coupon{"" if judged == 1 else "s"} of the trial "{name}"'
    key = ("window", coupons, tuple(sorted(scores.items())), source)
    found: Found = bench.recent.heats.get(key, lambda: found_in(coupons, scores, source))
    return found


def _proposed(plan: TrialPlan, coupons: tuple[Coupon, ...], scores: Mapping[int, Scores], bench: Bench) -> Next:
    from wrapwright.core.press.trial.proposing import next_trial

    bed = bed_of(plan, bench)
    key = ("next", bed, plan.celsius, coupons, tuple(sorted(scores.items())), plan.within)
    found: Next = bench.recent.heats.get(key, lambda: next_trial(bed, plan.celsius, coupons, scores, plan.within))
    return found


def _must_be_coupons(plan: TrialPlan) -> None:
    if plan.kind != COUPONS:
        message = "nothing can be added to a trial on one blank: it went through its heats."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Plan a trial with coupons.")


def _acceptable(found: Found | None) -> None:
    from wrapwright.core.press.trial.words import CLOSED

    if found is None:
        message = "positions of one heat tell no window."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Plan a trial with coupons.")
    if found.window.low is None and found.window.high is None:
        message = "no bound is known yet, so there is nothing to accept."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Score the coupons, or heat the one that is proposed.")
    if found.chance is not None and found.chance < CLOSED:
        message = "the upper bound lies below the lower one: no dose does both, so there is no window to plan by."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Change paper, ink or coating, and try again.")


def _heated(plan: TrialPlan, number: int, seconds: float) -> TrialPlan:
    settings = list(plan.settings)
    if plan.kind == POSITIONS:
        settings = [(celsius, seconds) for celsius, _ in settings]
    else:
        settings[number - 1] = (settings[number - 1][0], seconds)
    return replace(plan, settings=tuple(settings))


def _read(connection: Any, request: Any) -> tuple[TrialRow, TrialPlan, dict[int, Scores]]:
    from wrapwright.outside.store.rows.press.trials import trial_kept

    row = trial_kept(connection, id=request.id, name=request.name)
    return row, plan_from(row.plan), scores_from(row.scores)


def _write(connection: Any, row: TrialRow, seen: int, bench: Bench, **tables: Mapping[str, Any]) -> None:
    from wrapwright.outside.store.rows.press.trials import change_trial_row

    change_trial_row(connection, row, bench.clock(), seen=seen, **tables)


def _again(connection: Any, row: TrialRow) -> TrialRow:
    from wrapwright.outside.store.rows.press.trials import trial_kept

    return trial_kept(connection, id=row.id)


def _listed(row: TrialRow) -> TrialListed:
    plan, scores = plan_from(row.plan), scores_from(row.scores)
    scored = sum(1 for one in scores.values() if any(one.of(quality) for quality in QUALITIES))
    return TrialListed(
        row.id, row.name, plan.recipe, plan.kind, len(plan.settings), scored, bool(row.found), row.changed
    )
