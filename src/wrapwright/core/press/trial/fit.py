"""From scores to the window: each quality's bound with its interval, and what cannot be told from these scores."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.agreement import clashes, contradicts
from wrapwright.core.press.trial.model import LAPSE, RISES, Grid, grid, log_likelihood, quantiles, weighed
from wrapwright.core.press.trial.values import (
    GOOD,
    QUALITIES,
    SHARE,
    Coupon,
    Found,
    Known,
    Mark,
    Quality,
    Scores,
    State,
)
from wrapwright.core.press.trial.words import found_words, known_words
from wrapwright.core.press.values import Window

Array = NDArray[np.float64]

WIDEST = 8.0  # ratio of an interval's ends beyond which a bound counts as not located
NOT_YET = "not known yet"


@dataclass(frozen=True, eq=False)
class Belief:
    """What is held of one quality's bound after its scores.

    Attributes:
        known: in figures and words.
        marks: the scores.
        joint: chances of the grid's points, shape (m, g, s).
        over: the grid.
    """

    known: Known
    marks: tuple[Mark, ...]
    joint: Array
    over: Grid

    @property
    def bound(self) -> Array:
        """Chances of the bound's places, shape (m,)."""
        return np.asarray(self.joint.sum(axis=(1, 2)))


def marks_of(coupons: Sequence[Coupon], scores: Mapping[int, Scores], quality: Quality) -> tuple[Mark, ...]:
    """Return the scores of one quality, by the coupons' numbers; what was not judged is left out.

    Yellowing is read against what the bare coating got, which on a strip is the same for all of its parts: only the
    part with the lowest number counts there.
    """
    found = []
    seen: set[float] = set()
    for one in sorted(coupons, key=lambda coupon: coupon.number):
        score = scores[one.number].of(quality) if one.number in scores else None
        if score is None:
            continue
        minutes = one.dose.mid
        if quality == "yellowing" and one.bare is not None:
            if one.bare in seen:
                continue
            seen.add(one.bare)
            minutes = one.bare
        if minutes > 0.0:
            found.append(Mark(one.number, float(np.log10(minutes)), score, score, one.doubt))
    return tuple(found)


def belief(quality: Quality, marks: Sequence[Mark], over: Grid | None = None, *, lapse: float = LAPSE) -> Belief:
    """Return what the marks of one quality tell of its bound."""
    over = over or grid()
    rising = RISES[quality]
    log_like = log_likelihood(marks, over, rising=rising, lapse=lapse)
    joint = weighed(log_like)
    state = _state(marks, rising=rising, lapse=lapse)
    interval = middle = None
    if state == "known":
        low, half, high = (10.0**one for one in quantiles(over.places, joint.sum(axis=(1, 2)), _tails()))
        if high / low > WIDEST:
            state = "too-few"
        else:
            interval, middle = (low, high), half
    tried = (10.0 ** min(one.x for one in marks), 10.0 ** max(one.x for one in marks)) if marks else None
    known = Known(quality, state, interval, middle, tried, clashes(marks, rising=rising))
    return Belief(known_words(known), tuple(marks), joint, over)


def _tails() -> tuple[float, float, float]:
    return ((1.0 - SHARE) / 2.0, 0.5, (1.0 + SHARE) / 2.0)


def _state(marks: Sequence[Mark], *, rising: bool, lapse: float) -> State:
    if not marks:
        return "not-scored"
    if all(one.low >= GOOD for one in marks):
        return "all-good"
    if all(one.high < GOOD for one in marks):
        return "all-bad"
    if contradicts(marks, rising=rising, lapse=lapse):
        return "contradictory"
    return "known"


def beliefs(coupons: Sequence[Coupon], scores: Mapping[int, Scores]) -> Mapping[Quality, Belief]:
    """Return what the scores tell of each quality."""
    return {quality: belief(quality, marks_of(coupons, scores, quality)) for quality in QUALITIES}


def window_of(held: Mapping[Quality, Belief], source: str = "") -> Found:
    """Return the window: its lower bound from density, its upper one from sharpness and yellowing, the nearer.

    A bound is None where the scores do not tell it: none scored, all accepted, none accepted, too few, or scores that
    contradict each other.

    Args:
        held: from `beliefs`.
        source: what the window says it is from.
    """
    density = held["density"]
    low, low_mid = density.known.interval, density.known.middle
    upper = upper_chances(held)
    high = high_mid = None
    if upper is not None:
        start, half, end = (10.0**one for one in quantiles(density.over.places, upper, _tails()))
        high, high_mid = (start, end), half
    chance = None
    if low is not None and upper is not None:
        above = upper[::-1].cumsum()[::-1] - upper / 2.0
        chance = float(density.bound @ above)
    known = tuple(held[quality].known for quality in QUALITIES)
    window = Window(low, high, source if low or high else NOT_YET)
    found = Found(window, low_mid, high_mid, known, chance)
    return Found(window, low_mid, high_mid, known, chance, found_words(found))


def upper_chances(held: Mapping[Quality, Belief]) -> Array | None:
    """Return the chances of the upper bound's places: the lower of where it blurs and where it yellows.

    None where no quality brackets it, or one of them is spoilt at every dose or contradicts itself.
    """
    scored = [held[quality] for quality in ("sharpness", "yellowing") if held[quality].marks]
    states = {one.known.state for one in scored}
    if "known" not in states or states & {"all-bad", "contradictory", "too-few"}:
        return None
    beyond = np.ones(scored[0].over.places.size + 1)
    for one in scored:
        beyond = beyond * (1.0 - np.concatenate([[0.0], np.cumsum(one.bound)]))
    return np.asarray(np.maximum(-np.diff(beyond), 0.0))


def found_in(coupons: Sequence[Coupon], scores: Mapping[int, Scores], source: str = "") -> Found:
    """Return what a trial's scores tell."""
    return window_of(beliefs(coupons, scores), source)
