"""Planning a heat: what a load wants, in figures, words and as a plot; which sleeve does."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from pydantic import BaseModel, Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.press.sleeve.values import Girths, Rules, Sleeve
from wrapwright.faces.api.asking import QUIET, BenchAsked, Body
from wrapwright.faces.api.keeping import kept_answer, one_kind
from wrapwright.jobs.press.plan.drawn import plan_png, plan_svg
from wrapwright.jobs.press.plan.planning import plan_heat
from wrapwright.jobs.press.plan.sleeves import ChooseSleeve, choose_sleeve, sleeve_statement
from wrapwright.jobs.press.plan.stated import plan_statement
from wrapwright.jobs.press.plan.values import PlanHeat

router = APIRouter(tags=["pressing"])

SVG, PNG = "image/svg+xml", "image/png"
Name = Annotated[str, Field(max_length=200)]
Number = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]


class SpanTold(BaseModel):
    """A time with its doubt, seconds; null: past an hour."""

    low: float | None
    mid: float | None
    high: float | None


class DoseTold(BaseModel):
    """Equivalent minutes at 195 C with their band."""

    low: float
    mid: float
    high: float


class RecommendedTold(BaseModel):
    """How long so many pieces want; `range_s`: the aim's own low and high in the middle case."""

    pieces: int
    dwell_s: SpanTold
    range_s: tuple[float | None, float | None]
    to_temperature_s: float | None
    dose: DoseTold


class AimTold(DoseTold):
    """The dose that is wanted; null bounds are not known yet."""

    source: Literal["trials", "recipe"]
    complete_from: tuple[float, float] | None
    blurs_from: tuple[float, float] | None


class DoubtTold(BaseModel):
    """What one source of doubt does to the dose on its own, and its part of all doubt."""

    source: str
    part: float
    low: float
    high: float


class ShiftTold(BaseModel):
    """What a small change does."""

    change: str
    words: str
    dose: float
    share: float
    dwell_s: float | None


class RecipeTold(BaseModel):
    """The recipe it goes by; temperatures in both scales, dwells in seconds."""

    name: str
    version: int
    celsius: tuple[float, float]
    fahrenheit: tuple[float, float]
    seconds: tuple[float, float]
    source: str


class HeaterTold(BaseModel):
    """What heats; `offset_...` is its true temperature less what is set, a difference in both scales."""

    id: int
    name: str
    kind: str
    capacity: int
    power_w: float
    calibrated: bool
    offset_c: float
    offset_f: float
    offset_half_c: float
    offset_half_f: float


class WallTold(BaseModel):
    """The wall, given or the recipe's own."""

    material: str
    thickness_mm: float
    double: bool
    source: Literal["given", "recipe"] = Field(alias="from")


class PlanTold(BaseModel):
    """What a load wants and what its dwell does."""

    recipe: RecipeTold
    heater: HeaterTold
    wall: WallTold
    pieces: int
    set_c: float
    set_f: float
    dwell_s: float
    dwell_given: bool
    recommended: RecommendedTold
    rows: list[RecommendedTold]
    dose: DoseTold
    aim: AimTold
    doubts: list[DoubtTold]
    sensitivity: list[ShiftTold]
    curves: dict[Literal["air", "wall", "coating"], dict[str, list[float]]]
    findings: list[dict[str, Any]]
    words: list[str]


class OwnSleeve(Body):
    """A sleeve at hand."""

    flat_mm: Number
    radial: Number = 0.5
    lengthwise: Number = 0.1
    limit_c: Number = 210.0
    name: Name = ""


class SleeveBody(Body):
    """What a sleeve goes round, mm, the sleeves at hand, and the rules: common practice, no source."""

    largest_mm: Number
    smallest_mm: Number
    band_mm: Number
    sleeves: Annotated[tuple[OwnSleeve, ...], Field(max_length=50)] = ()
    ease_mm: Number = 8.0
    grip: Number = 0.95
    fold_mm: Number = 15.0
    set_c: Number | None = None


class PlanQuery(Body):
    """A load that is asked about; `heater`: its number or its name; a wall that is not given is the recipe's own."""

    recipe: Name
    heater: Name = ""
    pieces: Annotated[int, Field(ge=-(10**6), le=10**6)] = 1
    set_c: Number | None = None
    dwell_s: Number | None = None
    wall_mm: Number | None = None
    material: Name = ""
    double: bool | None = None


def _asked(query: Annotated[PlanQuery, Query()]) -> PlanHeat:
    """Return the load that is asked about."""
    told = query.model_dump()
    number = int(query.heater) if query.heater.isdecimal() and len(query.heater) < 16 else 0
    return PlanHeat(**{**told, "heater": "" if number else query.heater}, heater_id=number, recipe_wall=True)


Asked = Annotated[PlanHeat, Depends(_asked)]


@router.get("/press/plan", response_model_by_alias=True)
def plan(asked: Asked, bench: BenchAsked) -> PlanTold:
    """Return what a load wants, with its band, for 1 piece up to what the heater holds, and what moves it."""
    return PlanTold.model_validate(plan_statement(plan_heat(asked, bench, QUIET)))


@router.get("/press/plan.svg", **one_kind(SVG))
def plan_picture(asked: Asked, request: Request, bench: BenchAsked) -> Response:
    """Return the plot for a screen."""
    return kept_answer(request, plan_svg(plan_heat(asked, bench, QUIET)), SVG, forever=False)


@router.get("/press/plan.png", **one_kind(PNG))
def plan_pixels(asked: Asked, request: Request, bench: BenchAsked) -> Response:
    """Return the plot as pixels, to be kept or sent."""
    return kept_answer(request, plan_png(plan_heat(asked, bench, QUIET), bench), PNG, forever=False)


@router.post("/press/sleeve")
def sleeve(body: SleeveBody, bench: BenchAsked) -> dict[str, Any]:
    """Return how each sleeve does, the best first, how long it is cut, and why others do not."""
    sleeves = tuple(Sleeve(**one.model_dump()) for one in body.sleeves)
    girths = Girths(body.largest_mm, body.smallest_mm, body.band_mm)
    rules = Rules(body.ease_mm, body.grip, body.fold_mm)
    return sleeve_statement(choose_sleeve(ChooseSleeve(girths, sleeves, rules, body.set_c), bench, QUIET), rules)
