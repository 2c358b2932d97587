"""The likely causes of a fault, ranked by the run's own evidence."""

from __future__ import annotations

import math

from wrapwright.core.press.run.faults.causes import CAUSES, Cause
from wrapwright.core.press.run.faults.clues import Clue
from wrapwright.core.press.run.faults.evidence import Evidence
from wrapwright.core.press.run.faults.values import Fault, Ranked

ONE_CHANGE = "Change one thing alone, heat a spare piece, look at it, and only then change the next."
_LEAST_SHARE = 0.03  # what is less likely is not worth a line


def ranked(fault: Fault, run: Evidence) -> tuple[Ranked, ...]:
    """Return the causes of a fault, the likeliest first; their shares of the ones shown add up to 1.

    Each cause has a weight for the fault, and each clue of this run multiplies it. Weights and factors are judgement
    (common practice, no source); equal ones stay in the order of the list.
    """
    weighed = [(*_weight(cause, fault, run), cause) for cause in CAUSES if fault in cause.weights]
    whole = sum(weight for weight, _, _ in weighed)
    likely = [one for one in weighed if one[0] >= _LEAST_SHARE * whole]
    shown = sum(weight for weight, _, _ in likely)
    likely.sort(key=lambda one: -one[0])
    return tuple(
        Ranked(cause.name, cause.words, round(weight / shown, 4), _because(clues), _change(clues, cause))
        for weight, clues, cause in likely
    )


def _weight(cause: Cause, fault: Fault, run: Evidence) -> tuple[float, tuple[Clue, ...]]:
    """Return the weight of a cause in this run, and what speaks for it and then what against it."""
    found = [clue for clue in (reader(run) for reader in cause.readers) if clue is not None]
    weight = cause.weights[fault] * math.prod(clue.factor for clue in found)
    return weight, tuple(sorted(found, key=lambda one: -one.factor))


def _because(clues: tuple[Clue, ...]) -> tuple[str, ...]:
    return tuple(
        f"Against it: {one.words[0].lower()}{one.words[1:]}" if one.factor < 1.0 else one.words for one in clues
    )


def _change(clues: tuple[Clue, ...], cause: Cause) -> str:
    return next((one.change for one in clues if one.change), cause.change)
