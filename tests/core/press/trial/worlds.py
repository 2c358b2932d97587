"""Windows that are known, and coupons scored as they say: written apart from the model under test."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from wrapwright.core.press.trial.values import Coupon, Mark, Scores
from wrapwright.core.press.values import Dose


def coupon(number: int, minutes: float, *, celsius: float = 195.0, bare: float | None = None) -> Coupon:
    return Coupon(number, celsius, 60.0 * minutes, Dose(minutes * 0.5, minutes, minutes * 2.0), 0.0, bare)


def coupons(minutes: Sequence[float]) -> tuple[Coupon, ...]:
    return tuple(coupon(number, float(one)) for number, one in enumerate(minutes, start=1))


def scored(rows: Sequence[tuple[int | None, int | None, int | None]]) -> dict[int, Scores]:
    """Scores of density, sharpness, yellowing, by the coupons' numbers."""
    return {number: Scores(*row) for number, row in enumerate(rows, start=1)}


def score(away: float, gap: float) -> int:
    """The score of a quality that lies `away` decades on the good side of its bound, `gap` decades a step."""
    steps = [away >= (level - 4) * gap for level in (2, 3, 4, 5)]
    return 1 + sum(steps)


def marks(
    x: Sequence[float], bound: float, gap: float, scatter: float, rng: np.random.Generator, *, rising: bool
) -> tuple[Mark, ...]:  # fmt: skip
    found = []
    for number, one in enumerate(x, start=1):
        away = (one - bound if rising else bound - one) + scatter * float(rng.standard_normal())
        found.append(Mark(number, float(one), score(away, gap), score(away, gap)))
    return tuple(found)
