"""What is asked of trials and what comes back: frozen, picklable values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from wrapwright.core.press.trial.values import Coupon, Found, Kind, Next, Scores
from wrapwright.core.press.values import Window

USUAL_WITHIN, USUAL_SURE = 2.0, 0.8
Setting = tuple[float, float]  # degrees C that are set, seconds


@dataclass(frozen=True)
class PlanTrial:
    """Plan a trial.

    Attributes:
        name: unique, whatever the case of its letters.
        recipe: what the window is wanted for.
        kind: coupons, a strip put on part by part, or the positions of one heat.
        heater, heater_id: by name or kind, or by number; "" and 0: one of the recipe's kind to start from.
        wall_mm: thickness of what the trial is heated on; None: the recipe's own wall.
        material: of that; "" for the recipe's.
        double: whether that is double-walled; None: as the recipe's, single where it is coupons.
        free: coupons heated from both sides; None: in an oven yes, in a press no.
        celsius: temperatures to try; () for the recipe's lowest, middle and highest.
        seconds: times to try, each with every temperature; () for times chosen by their dose.
        pieces: how many; None: the fewest that do.
        one_by_one: begin with a few, and choose each further one by what those before it told.
        within: wanted ratio of the ends of each bound's interval.
        sure: in what share of the windows that could be true.
    """

    name: str
    recipe: str
    kind: Kind = "coupons"
    heater: str = ""
    heater_id: int = 0
    wall_mm: float | None = None
    material: str = ""
    double: bool | None = None
    free: bool | None = None
    celsius: tuple[float, ...] = ()
    seconds: tuple[float, ...] = ()
    pieces: int | None = None
    one_by_one: bool = True
    within: float = USUAL_WITHIN
    sure: float = USUAL_SURE


@dataclass(frozen=True)
class ListTrials:
    """All trials, the last changed first."""


@dataclass(frozen=True)
class ShowTrial:
    """One trial, by its number or (number 0) its name; `proposed`: with the next heat that is worth its piece."""

    id: int = 0
    name: str = ""
    proposed: bool = True


@dataclass(frozen=True)
class ScoreTrial:
    """Scores of coupons, by their numbers; what is None in them stays as it was.

    Attributes:
        scores: what was judged.
        heated: seconds that a coupon really had, where not as planned.
        seen: revision that they were given on; 0 for whichever stands.
        id, name: of the trial, as in ShowTrial.
    """

    scores: Mapping[int, Scores]
    heated: Mapping[int, float] = field(default_factory=dict)
    seen: int = 0
    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class ClearScores:
    """Forget what was judged of one coupon."""

    number: int
    seen: int = 0
    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class AddCoupon:
    """Add a coupon to a trial: the heat that is proposed, or (`setting`) another."""

    setting: Setting | None = None
    seen: int = 0
    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class AcceptTrial:
    """Take the trial's window as what planning goes by, or (`accepted` False) no longer."""

    accepted: bool = True
    seen: int = 0
    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class DropTrial:
    """Remove a trial with its scores."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class TrialPlan:
    """What a trial's plan holds; see PlanTrial.

    Attributes:
        settings: the heat of each coupon, in the order of their numbers.
        expected: doses between which the work is looked for, minutes.
        total: how many coupons are expected to be needed.
        chance: in what share of the windows that could be true those do; None where it was not weighed.
        at_once: the fewest that do when all are heated before any is scored; None where it was not weighed.
    """

    kind: Kind
    recipe: str
    heater: str
    heater_id: int
    heater_kind: str
    wall_mm: float
    material: str
    double: bool
    free: bool
    preheated: bool
    covers: tuple[str, ...]
    ware: str
    celsius: tuple[float, ...]
    settings: tuple[Setting, ...]
    expected: tuple[float, float]
    within: float
    sure: float
    total: int
    chance: float | None = None
    at_once: int | None = None


@dataclass(frozen=True)
class Accepted:
    """A window that was accepted, and when."""

    window: Window
    at: datetime


@dataclass(frozen=True)
class TrialTold:
    """A trial and all that there is to say of it.

    Attributes:
        id, name, revision, changed: of the trial.
        plan: what was planned.
        coupons: with the doses that the heater, as it is known now, gives them.
        scores: what was judged.
        found: what the scores tell; None for positions of one heat.
        accepted: the window that planning goes by, None while there is none.
        next: the heat that is worth its piece next; None where none is proposed.
        words: what the trial can tell and what it tells.
        cautions: (text, grave), for the steps before it.
    """

    id: int
    name: str
    revision: int
    changed: datetime
    plan: TrialPlan
    coupons: tuple[Coupon, ...]
    scores: Mapping[int, Scores]
    found: Found | None
    accepted: Accepted | None
    next: Next | None
    words: tuple[str, ...]
    cautions: tuple[tuple[str, bool], ...]


@dataclass(frozen=True)
class TrialListed:
    """A trial in the list: how many coupons, how many of them are scored, and whether its window is accepted."""

    id: int
    name: str
    recipe: str
    kind: Kind
    pieces: int
    scored: int
    accepted: bool
    changed: datetime
