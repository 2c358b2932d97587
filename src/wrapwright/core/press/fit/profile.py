"""How far one parameter may go before the fit is plainly worse, all others fitted anew: its profile's interval."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.fit.least import Least, fitted, quantile

Floats = NDArray[np.float64]

FARTHEST = 2.0  # of a logarithm: a factor of seven either way


def profile_interval(
    model: Callable[[Floats], list[Floats]], columns: Sequence[Floats], least: Least, which: int
) -> tuple[float, float]:
    """Return the 95 % interval of a parameter from its profile likelihood; an open end is infinite.

    The weighed squares may rise by Student's quantile squared; residuals that hang together count for less.
    """
    if not np.isfinite(least.spread[which, which]):
        return -np.inf, np.inf
    best = _worse(columns, model(least.at), least)
    limit = best + quantile(least.free) ** 2
    spread = float(np.sqrt(max(float(least.spread[which, which]), 1e-12)))
    ends = [_end(model, columns, least, which, sign * spread, limit) for sign in (-1.0, 1.0)]
    return ends[0], ends[1]


def _end(
    model: Callable[[Floats], list[Floats]],
    columns: Sequence[Floats],
    least: Least,
    which: int,
    step: float,
    limit: float,
) -> float:
    middle = float(least.at[which])
    rest = np.delete(least.at, which)

    def rise(value: float) -> float:
        def fixed(at: Floats) -> list[Floats]:
            return model(np.insert(at, which, value))

        return _worse(columns, fixed(fitted(fixed, columns, rest).at), least) - limit

    near, far = 0.0, abs(step) * quantile(least.free)
    while rise(middle + np.copysign(far, step)) < 0.0:
        near, far = far, far * 1.6
        if far > FARTHEST:
            return float(np.copysign(np.inf, step))
    for _ in range(7):
        half = (near + far) / 2.0
        near, far = (near, half) if rise(middle + np.copysign(half, step)) > 0.0 else (half, far)
    return middle + float(np.copysign((near + far) / 2.0, step))


def _worse(columns: Sequence[Floats], fits: Sequence[Floats], least: Least) -> float:
    return float(
        sum(
            np.sum((c - m) ** 2) / n**2 / f
            for c, m, n, f in zip(columns, fits, least.noise, least.together, strict=True)
        )
    )
