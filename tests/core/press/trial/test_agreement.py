"""Scores that run against their doses are named; those that bear no relation to them give no bound."""

from __future__ import annotations

import numpy as np
from tests.core.press.trial.worlds import marks

from wrapwright.core.press.trial.agreement import clashes, contradicts
from wrapwright.core.press.trial.values import Mark

X = np.linspace(-0.5, 1.4, 9)


def _marks(scores: tuple[int, ...]) -> tuple[Mark, ...]:
    return tuple(Mark(number, float(x), one, one) for number, (x, one) in enumerate(zip(X, scores, strict=False), 1))


def test_clashes_are_two_steps_or_more_and_the_gravest_comes_first() -> None:
    given = _marks((2, 4, 3, 5, 2, 5, 5, 4, 1))
    assert clashes(given, rising=True)[0] == (4, 9)
    assert (2, 5) in clashes(given, rising=True)
    assert (2, 3) not in clashes(given, rising=True)  # one step is the eye's
    assert clashes(_marks((1, 1, 2, 3, 4, 5, 5, 5, 5)), rising=True) == ()
    near = (Mark(1, 0.0, 5, 5), Mark(2, 0.05, 2, 2))  # doses 12 % apart may well swap
    assert clashes(near, rising=True) == ()


def test_scores_drawn_by_lot_contradict_and_honest_ones_hardly_ever() -> None:
    rng = np.random.default_rng(2)
    drawn = [_marks(tuple(int(one) for one in rng.integers(1, 6, 9))) for _ in range(30)]
    assert sum(contradicts(one, rising=True) for one in drawn) >= 27
    honest = [marks(X, rng.uniform(0.1, 0.8), 0.15, 0.15, rng, rising=True) for _ in range(30)]
    assert sum(contradicts(one, rising=True) for one in honest) <= 1
    assert all(contradicts(one, rising=False) for one in honest)
