"""What there is to say of a trial: what it can tell, how it is done, what its scores tell, and what to mind."""

from __future__ import annotations

from collections.abc import Mapping

from wrapwright.core.press.trial.values import Found, Scores
from wrapwright.jobs.press.trial.values import Accepted, TrialPlan

_STEPS = ("print", "prepare", "heat", "use")


def trial_words(plan: TrialPlan, scores: Mapping[int, Scores], found: Found | None) -> tuple[str, ...]:
    """Return what a trial tells so far; before anything is scored, how many coupons it is expected to need."""
    from wrapwright.core.press.trial.strip import uneven_words

    if found is None:
        return uneven_words(scores)
    return found.words if scores else weighed_words(plan)


def how_words(plan: TrialPlan) -> tuple[str, ...]:
    """Return what this kind of trial can tell and how it is done."""
    from wrapwright.core.press.trial.strip import kind_words

    return kind_words(plan.kind, free=plan.free)


def weighed_words(plan: TrialPlan) -> tuple[str, ...]:
    """Return how many coupons the wish takes, in sentences."""
    if plan.chance is None:
        return ()
    wish = f"both bounds within a ratio of {plan.within:g}"
    chance = f"{plan.chance * 100:.0f} %"
    many = len(plan.settings)
    if plan.chance < plan.sure:
        said = [f"{plan.total} are the most that are planned; they tell {wish} in {chance} of possible windows."]
    elif many < plan.total:
        said = [
            f"Begin with these {many}. Each further one is then proposed by what those before it told: about"
            f" {plan.total} in all tell {wish} in {chance} of possible windows."
        ]
    else:
        said = [f"{plan.total} tell {wish} in {chance} of possible windows; fewer do not."]
    if many < plan.total and plan.at_once is not None:
        said.append(f"Heated all before any is scored, it takes {plan.at_once}.")
    return tuple(said)


def cautions_of(plan: TrialPlan) -> tuple[tuple[str, bool], ...]:
    """Return the cautions of the steps before a trial's scores, (text, whether grave), the grave ones first."""
    found = [one for step in _STEPS for one in step_cautions(plan, step)]
    return tuple(sorted(found, key=lambda one: not one[1]))


def step_cautions(plan: TrialPlan, step: str) -> tuple[tuple[str, bool], ...]:
    """Return the cautions of one step of a trial, (text, whether grave), the grave ones first."""
    from wrapwright.data.press import cautions_for

    flat = plan.kind == "coupons"
    found = cautions_for(step, plan.ware, plan.heater_kind, flat=flat, double=plan.double)
    return tuple((one.text, one.grave) for one in sorted(found, key=lambda one: not one.grave))


def accepted_words(accepted: Accepted | None) -> tuple[str, ...]:
    """Return what planning goes by, in a sentence; none while nothing is accepted."""
    from wrapwright.core.press.trial.words import interval_words

    if accepted is None:
        return ()
    ends = ((accepted.window.low, "complete from"), (accepted.window.high, "spoilt from"))
    said = ", ".join(f"{words} {interval_words(bound)}" for bound, words in ends if bound is not None)
    return (f"Planning goes by it since {accepted.at:%Y-%m-%d}: {said} ({accepted.window.source}).",)
