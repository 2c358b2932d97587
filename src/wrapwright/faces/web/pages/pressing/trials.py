"""Trials on one screen: plan them, print their coupons, score them, see the window they tell, and what to heat next."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.heat_words import celsius_range_words, celsius_words, seconds_range_words, seconds_words
from wrapwright.core.press.trial.values import MEANING, QUALITIES, Coupon, Scores
from wrapwright.core.press.trial.words import dose_words, interval_words
from wrapwright.data.press import cautions_for
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.values import TrialTold
from wrapwright.outside.documents.trial.window_plot import window_plot

router = APIRouter()

WIDE_PX, NARROW_PX = 760.0, 348.0
KINDS = (
    ("coupons", "Coupons, each with a heat of its own"),
    ("strip", "A strip round one blank, put on part by part"),
    ("positions", "Positions round one blank, one heat"),
)
SCORES = range(1, 6)


@dataclass(frozen=True)
class CouponShown:
    """A coupon as its row shows it: its heat and dose in words, its scores, and whether all that is asked is judged."""

    number: int
    heat: str
    time: str
    dose: str
    band: str
    scores: Scores
    done: bool


@router.get("/press/trials", response_class=HTMLResponse)
def trials(request: Request, trial: Whole = 0, coupon: Whole = 0, new: Whole = 0) -> HTMLResponse:
    """Return the trials, one of them in full, or the form for a new one."""
    from wrapwright.jobs.kept.setups import ListSetups, list_setups
    from wrapwright.jobs.press.kept.heaters import ListHeaters, list_heaters
    from wrapwright.jobs.press.kept.recipes import ListRecipes, list_recipes
    from wrapwright.jobs.press.trial.keeping import list_trials, show_trial
    from wrapwright.jobs.press.trial.values import ListTrials, ShowTrial

    bench: Bench = request.app.state.bench
    listed = list_trials(ListTrials(), bench, Watch())
    chosen = trial or (listed[0].id if listed and not new else 0)
    told = show_trial(ShowTrial(chosen), bench, Watch()) if chosen else None
    recipes = [one.recipe for one in list_recipes(ListRecipes(), bench, Watch())]
    return page(
        request,
        "trials.html",
        step="press",
        trials=listed,
        told=told,
        shown=None if told is None else _shown(told, coupon),
        setups=list_setups(ListSetups(), bench, Watch()),
        heaters=list_heaters(ListHeaters(), bench, Watch()),
        recipes=[(one, f"{celsius_range_words(one.celsius)}, {seconds_range_words(one.seconds)}") for one in recipes],
        kinds=KINDS,
        meaning=MEANING,
        scores=SCORES,
        cautions={step: _cautions(step, told) for step in ("print", "prepare", "heat", "use")},
    )


@dataclass(frozen=True)
class TrialShown:
    """A trial as the screen shows it: its coupons, the one that is scored, what is asked of it, plots and words."""

    coupons: tuple[CouponShown, ...]
    current: CouponShown
    qualities: tuple[str, ...]
    following: int
    plots: tuple[str, str] | None
    how: tuple[str, ...]
    accepted: tuple[str, ...]
    can_accept: bool
    next_heat: str


def _shown(told: TrialTold, coupon: int) -> TrialShown:
    from wrapwright.core.press.trial.words import CLOSED
    from wrapwright.jobs.press.trial.telling import accepted_words, how_words

    coupons = tuple(_coupon(one, told) for one in told.coupons)
    waiting = [one for one in coupons if not one.done]
    current = next((one for one in coupons if one.number == coupon), waiting[0] if waiting else coupons[0])
    found = told.found
    known = found is not None and (found.window.low is not None or found.window.high is not None)
    open_ = found is not None and (found.chance is None or found.chance >= CLOSED)
    ahead = told.next
    return TrialShown(
        coupons,
        current,
        _asked(current.number, told),
        next((one.number for one in waiting if one.number != current.number), current.number),
        _plots(told),
        how_words(told.plan),
        accepted_words(told.accepted),
        known and open_,
        "" if ahead is None else f"{celsius_words(ahead.celsius)} for {seconds_words(ahead.seconds)}",
    )


def _asked(number: int, told: TrialTold) -> tuple[str, ...]:
    """Return the qualities that a coupon is judged for: on a strip yellowing at its first part alone."""
    if told.plan.kind == "strip" and number != 1:
        return tuple(one for one in QUALITIES if one != "yellowing")
    return tuple(QUALITIES)


def _coupon(one: Coupon, told: TrialTold) -> CouponShown:
    scores = told.scores.get(one.number, Scores())
    judged = {quality: getattr(scores, quality) for quality in _asked(one.number, told)}
    return CouponShown(
        one.number,
        celsius_words(one.celsius),
        seconds_words(one.seconds),
        dose_words(one.dose.mid),
        interval_words((one.dose.low, one.dose.high)),
        scores,
        all(judged.values()),
    )


def _plots(told: TrialTold) -> tuple[str, str] | None:
    if told.found is None:
        return None
    ahead = None if told.next is None else told.next.dose
    accepted = None if told.accepted is None else told.accepted.window
    wide, narrow = (
        window_plot(told.coupons, told.scores, told.found, next_dose=ahead, accepted=accepted, width=width)
        for width in (WIDE_PX, NARROW_PX)
    )
    return wide, narrow


def _cautions(step: str, told: TrialTold | None) -> list[tuple[str, bool]]:
    from wrapwright.jobs.press.trial.telling import step_cautions

    if told is not None:
        return list(step_cautions(told.plan, step))
    found = cautions_for(step, "unknown", "unknown")
    return [(one.text, one.grave) for one in sorted(found, key=lambda one: not one.grave)]
