"""A trial as documents say it: plain tables, the same on the command line and in the browser."""

from __future__ import annotations

from typing import Any

from wrapwright.core.base.units import stated, to_fahrenheit
from wrapwright.core.press.trial.values import QUALITIES, Coupon, Found, Known, Next, Scores
from wrapwright.jobs.press.trial.telling import accepted_words, how_words
from wrapwright.jobs.press.trial.values import Accepted, TrialListed, TrialPlan, TrialTold

Bound = tuple[float, float] | None


def listed_statement(one: TrialListed) -> dict[str, Any]:
    """Return a row of the list."""
    return {
        "id": one.id,
        "name": one.name,
        "recipe": one.recipe,
        "kind": one.kind,
        "pieces": one.pieces,
        "scored": one.scored,
        "accepted": one.accepted,
        "changed": one.changed.isoformat(timespec="seconds"),
    }


def trial_statement(told: TrialTold) -> dict[str, Any]:
    """Return a trial with all that there is to say of it; doses in equivalent minutes at 195 degrees Celsius."""
    return {
        "id": told.id,
        "name": told.name,
        "revision": told.revision,
        "changed": told.changed.isoformat(timespec="seconds"),
        "plan": _plan(told.plan),
        "coupons": [_coupon(one, told.scores.get(one.number, Scores())) for one in told.coupons],
        "window": _found(told.found),
        "accepted": _accepted(told.accepted),
        "next": None if told.next is None else next_statement(told.next),
        "how": list(how_words(told.plan)),
        "words": list(told.words),
        "accepted_words": list(accepted_words(told.accepted)),
        "cautions": [{"text": text, "grave": grave} for text, grave in told.cautions],
    }


def next_statement(ahead: Next) -> dict[str, Any]:
    """Return the heat that is proposed; `widths` are ratios of each bound's interval, now (null: unknown) and after."""
    return {
        "celsius": stated(ahead.celsius),
        "fahrenheit": stated(to_fahrenheit(ahead.celsius)),
        "seconds": stated(ahead.seconds),
        "dose": stated(ahead.dose),
        "bits": stated(ahead.bits),
        "widths": {name: [_ratio(now), _ratio(after)] for name, (now, after) in ahead.widths.items()},
        "words": list(ahead.words),
    }


def _ratio(value: float | None) -> float | None:
    return None if value is None else stated(value)


def _plan(plan: TrialPlan) -> dict[str, Any]:
    return {
        "kind": plan.kind,
        "recipe": plan.recipe,
        "heater": plan.heater,
        "wall_mm": stated(plan.wall_mm),
        "material": plan.material,
        "both_sides": plan.free,
        "celsius": [stated(one) for one in plan.celsius],
        "expected": [stated(one) for one in plan.expected],
        "within": plan.within,
        "sure": plan.sure,
        "total": plan.total,
        "chance": plan.chance,
        "at_once": plan.at_once,
    }


def _coupon(one: Coupon, scores: Scores) -> dict[str, Any]:
    dose = one.dose
    return {
        "number": one.number,
        "celsius": stated(one.celsius),
        "fahrenheit": stated(to_fahrenheit(one.celsius)),
        "seconds": stated(one.seconds),
        "dose": {"low": stated(dose.low), "mid": stated(dose.mid), "high": stated(dose.high)},
        "scores": {quality: scores.of(quality) for quality in QUALITIES},
    }


def _found(found: Found | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "low": _bound(found.window.low),
        "low_mid": None if found.low_mid is None else stated(found.low_mid),
        "high": _bound(found.window.high),
        "high_mid": None if found.high_mid is None else stated(found.high_mid),
        "source": found.window.source,
        "chance": None if found.chance is None else stated(found.chance),
        "known": [_known(one) for one in found.known],
    }


def _known(one: Known) -> dict[str, Any]:
    return {
        "quality": one.quality,
        "state": one.state,
        "interval": _bound(one.interval),
        "middle": None if one.middle is None else stated(one.middle),
        "clashes": [list(pair) for pair in one.clashes],
        "words": one.words,
    }


def _accepted(accepted: Accepted | None) -> dict[str, Any] | None:
    if accepted is None:
        return None
    window = accepted.window
    at = accepted.at.isoformat(timespec="seconds")
    return {"low": _bound(window.low), "high": _bound(window.high), "source": window.source, "at": at}


def _bound(bound: Bound) -> list[float] | None:
    return None if bound is None else [stated(one) for one in bound]
