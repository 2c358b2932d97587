"""Whether scores agree with their doses: pairs that run against each other, and when they tell no bound."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.model import LAPSE, coarse, log_likelihood
from wrapwright.core.press.trial.values import BEST, Mark

Array = NDArray[np.float64]

_APART = math.log10(1.25)  # doses nearer than this may well swap their scores
_STEPS = 2  # of score: one may be the eye's
_ODDS = 3.0  # by which "the dose tells nothing" must be the better account
_PRIOR = 0.5  # of each score, where the dose tells nothing (Jeffreys' for a multinomial)


def clashes(marks: Sequence[Mark], *, rising: bool) -> tuple[tuple[int, int], ...]:
    """Return the pairs (lower dose, higher dose) whose scores lie two steps or more against their doses.

    The gravest first; doses within a quarter of each other are not held against each other.
    """
    sign = 1 if rising else -1
    found = []
    for one in marks:
        for other in marks:
            back = sign * (one.low - other.low)
            if other.x - one.x >= _APART and back >= _STEPS:
                found.append((-back, -(other.x - one.x), one.number, other.number))
    return tuple((low, high) for _, _, low, high in sorted(found))


def contradicts(marks: Sequence[Mark], *, rising: bool, lapse: float = LAPSE) -> bool:
    """Return whether the scores go against the dose, or bear no relation to it.

    Scores that never fall where they should rise contradict nothing. Else their mean likelihood over a coarse grid is
    held against the same model turned round, and against scores drawn without looking at the dose (a multinomial with
    Jeffreys' prior). Three to one is where R. E. Kass and A. E. Raftery, Bayes factors, J. Am. Stat. Assoc. 90 (1995)
    773-795, call evidence positive.
    """
    if not _turned_back(marks, rising=rising):
        return False
    with_dose, turned = (
        _mean_log(log_likelihood(marks, coarse(), rising=way, lapse=lapse)) for way in (rising, not rising)
    )
    return turned > with_dose or _without_dose(marks) > with_dose + math.log(_ODDS)


def _turned_back(marks: Sequence[Mark], *, rising: bool) -> bool:
    """Return whether any score lies against its dose, if only by a step."""
    sign = 1 if rising else -1
    return any(one.x < other.x and sign * (one.low - other.low) > 0 for one in marks for other in marks)


def _mean_log(log_like: Array) -> float:
    most = float(log_like.max())
    return most + math.log(float(np.exp(log_like - most).mean()))


def _without_dose(marks: Sequence[Mark]) -> float:
    counts = [sum(one.low <= score <= one.high for one in marks) for score in range(1, BEST + 1)]
    total = sum(counts)
    start = math.lgamma(BEST * _PRIOR) - math.lgamma(BEST * _PRIOR + total)
    return start + sum(math.lgamma(_PRIOR + one) - math.lgamma(_PRIOR) for one in counts)
