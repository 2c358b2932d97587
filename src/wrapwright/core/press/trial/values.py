"""What a trial is made of: coupons with their heat and dose, their scores, and what is known of each bound."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from wrapwright.core.press.values import Dose, Window

Kind = Literal["coupons", "strip", "positions"]
Quality = Literal["density", "sharpness", "yellowing"]
State = Literal["known", "all-good", "all-bad", "too-few", "contradictory", "not-scored"]

KINDS: tuple[Kind, ...] = ("coupons", "strip", "positions")
QUALITIES: tuple[Quality, ...] = ("density", "sharpness", "yellowing")
GOOD = 4  # from this score on a coupon is accepted
BEST = 5
SHARE = 0.90  # of the interval that is said of a bound
MEANING: Mapping[Quality, tuple[str, str]] = {
    "density": ("1 hardly any colour", "5 full, deep colour"),
    "sharpness": ("1 lines run together", "5 the finest lines stand apart"),
    "yellowing": ("1 yellow or brown", "5 as white as an unheated piece"),
}


@dataclass(frozen=True)
class Coupon:
    """One numbered piece of a trial and the heat it gets.

    Attributes:
        number: printed on it; counted from 1.
        celsius: what the heater is set to.
        seconds: how long it is heated; on a strip: the heat that begins when this part is put on.
        dose: what its transfer gets in all, equivalent minutes.
        doubt: standard deviation of the logarithm (base 10) of its dose that it does not share with the others.
        bare: what its coating gets in all: more than `dose` on a strip, whose parts are put on in turn; else the same.
    """

    number: int
    celsius: float
    seconds: float
    dose: Dose
    doubt: float = 0.0
    bare: float | None = None


@dataclass(frozen=True)
class Scores:
    """What a person judged of one coupon, 1 to 5, five always the best; None: not judged."""

    density: int | None = None
    sharpness: int | None = None
    yellowing: int | None = None

    def of(self, quality: Quality) -> int | None:
        """Return the score of one quality."""
        score: int | None = getattr(self, quality)
        return score


@dataclass(frozen=True)
class Mark:
    """One score as the fit reads it.

    Attributes:
        number: of the coupon.
        x: logarithm (base 10) of its dose in minutes.
        low, high: the score lies from `low` to `high`; the same for a score that was given.
        doubt: as a coupon's.
    """

    number: int
    x: float
    low: int
    high: int
    doubt: float = 0.0


@dataclass(frozen=True)
class Known:
    """What the scores of one quality tell of the dose at which it is as often accepted as not.

    Attributes:
        quality: which.
        state: "known", or why not.
        interval: nine of ten chances lie in it, equivalent minutes; None unless known.
        middle: half the chances lie below; None unless known.
        tried: lowest and highest dose that was scored, minutes; None when none was.
        clashes: pairs of coupons whose scores run against their doses, the gravest first.
        words: in a sentence.
    """

    quality: Quality
    state: State
    interval: tuple[float, float] | None = None
    middle: float | None = None
    tried: tuple[float, float] | None = None
    clashes: tuple[tuple[int, int], ...] = ()
    words: str = ""


@dataclass(frozen=True)
class Found:
    """What a trial's scores tell.

    Attributes:
        window: the bounds; None in it where the scores do not tell.
        low_mid, high_mid: middles of the bounds.
        known: of each quality.
        chance: that there is a window at all: the lower bound below the upper one; None unless both are known.
        words: what there is to say, the weightiest first.
    """

    window: Window
    low_mid: float | None
    high_mid: float | None
    known: tuple[Known, ...]
    chance: float | None
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class Next:
    """The trial from which most is to be learned.

    Attributes:
        celsius, seconds: its heat.
        dose: what that gives.
        bits: expected information about the bounds.
        widths: for each bound ("low", "high") the ratio of its interval's ends now and as expected after; None now:
            not known yet.
        words: why, in sentences.
    """

    celsius: float
    seconds: float
    dose: float
    bits: float
    widths: Mapping[str, tuple[float | None, float]] = field(default_factory=dict)
    words: tuple[str, ...] = ()
