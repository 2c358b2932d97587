"""Trials: planned, printed, scored, and the window that they tell."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from pydantic import Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.press.recipe.asked import celsius_of, seconds_of
from wrapwright.core.press.trial.values import Scores
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Title, Whole
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.press.trial.keeping import (
    accept_trial,
    add_coupon,
    clear_scores,
    drop_trial,
    list_trials,
    score_trial,
    show_trial,
)
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.printing import PrintTrial, print_trial
from wrapwright.jobs.press.trial.stated import listed_statement, trial_statement
from wrapwright.jobs.press.trial.values import (
    AcceptTrial,
    AddCoupon,
    ClearScores,
    DropTrial,
    ListTrials,
    PlanTrial,
    ScoreTrial,
    ShowTrial,
)

router = APIRouter(tags=["trials"])

PDF, SVG = "application/pdf", "image/svg+xml"
Figure = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Count = Annotated[int, Field(ge=-(10**6), le=10**6)]
Seen = Annotated[int, Field(ge=0, le=LARGEST, description="Revision that it was made from; 0: whichever stands.")]
Typed = Annotated[str, Field(max_length=60)] | Figure
Words = Annotated[str, Field(max_length=400)]
Mm = Annotated[float | None, Query(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Told = dict[str, Any]


class PlanBody(Body):
    """A trial to plan; temperatures and times as they are typed ("195 C", "5 min") or in Celsius and seconds."""

    name: Title
    recipe: Words
    kind: Literal["coupons", "strip", "positions"] = "coupons"
    heater: Words = ""
    heater_id: Annotated[int, Field(ge=0, le=LARGEST)] = 0
    wall_mm: Figure | None = None
    material: Words = ""
    both_sides: bool | None = None
    celsius: Annotated[list[Typed], Field(max_length=24)] = Field(default_factory=list)
    seconds: Annotated[list[Typed], Field(max_length=24)] = Field(default_factory=list)
    pieces: Count | None = None
    one_by_one: bool = True
    within: Figure = 2.0
    sure: Figure = 0.8


class ScoreBody(Body):
    """Scores of one coupon, 1 to 5, five the best; null: as it was. `heated`: what it really got, as it is typed."""

    number: Count
    density: Count | None = None
    sharpness: Count | None = None
    yellowing: Count | None = None
    heated: Typed | None = None
    seen: Seen = 0


class CouponBody(Body):
    """A further coupon: its heat, or neither for the one that is proposed."""

    celsius: Typed | None = None
    seconds: Typed | None = None
    seen: Seen = 0


class AcceptBody(Body):
    """Whether planning goes by the trial's window."""

    accepted: bool
    seen: Seen = 0


@router.get("/press/trials")
def trials(bench: BenchAsked) -> list[Told]:
    """Return the trials, the last changed first."""
    return [listed_statement(one) for one in list_trials(ListTrials(), bench, QUIET)]


@router.post("/press/trials", status_code=201)
def new_trial(body: PlanBody, bench: BenchAsked) -> Told:
    """Return the trial that was planned and kept."""
    named = body.model_dump(exclude={"celsius", "seconds", "both_sides"})
    celsius = tuple(celsius_of(one, where="celsius") for one in body.celsius)
    seconds = tuple(seconds_of(one, where="dwell") for one in body.seconds)
    asked = PlanTrial(**named, free=body.both_sides, celsius=celsius, seconds=seconds)
    return trial_statement(plan_trial(asked, bench, QUIET))


@router.get("/press/trials/{number}")
def trial(number: Id, bench: BenchAsked) -> Told:
    """Return one trial: its coupons, their doses and scores, the window they tell, and what to heat next."""
    return trial_statement(show_trial(ShowTrial(number), bench, QUIET))


@router.post("/press/trials/{number}/scores")
def scores(number: Id, body: ScoreBody, bench: BenchAsked) -> Told:
    """Return the trial with the scores of one coupon."""
    given = {body.number: Scores(body.density, body.sharpness, body.yellowing)}
    heated = {} if body.heated is None else {body.number: seconds_of(body.heated, where="dwell")}
    return trial_statement(score_trial(ScoreTrial(given, heated, body.seen, number), bench, QUIET))


@router.delete("/press/trials/{number}/scores/{coupon}")
def no_scores(number: Id, coupon: Id, bench: BenchAsked) -> Told:
    """Return the trial without the scores of one coupon."""
    return trial_statement(clear_scores(ClearScores(coupon, 0, number), bench, QUIET))


@router.post("/press/trials/{number}/coupons", status_code=201)
def further_coupon(number: Id, body: CouponBody, bench: BenchAsked) -> Told:
    """Return the trial with one coupon more: the heat that is given, or the one that is proposed."""
    setting = None
    if body.celsius is not None or body.seconds is not None:
        celsius, seconds = (0.0 if one is None else one for one in (body.celsius, body.seconds))
        setting = (celsius_of(celsius, where="celsius"), seconds_of(seconds, where="dwell"))
    return trial_statement(add_coupon(AddCoupon(setting, body.seen, number), bench, QUIET))


@router.put("/press/trials/{number}/accepted")
def accepted(number: Id, body: AcceptBody, bench: BenchAsked) -> Told:
    """Return the trial, whose window planning goes by from now on, or no longer; 409 while no bound is known."""
    return trial_statement(accept_trial(AcceptTrial(body.accepted, body.seen, number), bench, QUIET))


@router.delete("/press/trials/{number}", status_code=204)
def no_trial(number: Id, bench: BenchAsked) -> None:
    """Remove a trial with its scores."""
    drop_trial(DropTrial(number), bench, QUIET)


def _asked(
    number: Id,
    setup: Whole = 0,
    paper: Annotated[str, Query(max_length=60)] = "",
    width: Mm = None,
    height: Mm = None,
    length: Mm = None,
    spares: Annotated[int | None, Query(ge=-(10**6), le=10**6)] = None,
) -> PrintTrial:
    """Return the coupons that are asked for; sizes in mm."""
    sheet = {"paper": paper or "Letter"} if not setup or paper else {}
    size = None if width is None or height is None else (width, height)
    return PrintTrial(number, "", "", setup, sheet, size, length, spares)


Coupons = Annotated[PrintTrial, Depends(_asked)]


@router.get("/press/trials/{number}/coupons.pdf", **one_kind(PDF))
def coupons_file(asked: Coupons, request: Request, bench: BenchAsked) -> Response:
    """Return the coupons, to be printed at actual size."""
    return kept_answer(request, print_trial(asked, bench, QUIET).data, PDF, forever=False)


@router.get("/press/trials/{number}/coupons.svg", **one_kind(SVG))
def coupons_picture(
    asked: Coupons, request: Request, bench: BenchAsked, page: Annotated[int, Query(ge=1, le=100)] = 1
) -> Response:
    """Return a page of the coupons as a picture for a screen."""
    from dataclasses import replace

    drawn = print_trial(replace(asked, picture=page), bench, QUIET)
    return kept_answer(request, drawn.data, SVG, forever=False)
