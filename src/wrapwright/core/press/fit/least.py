"""Least squares by Levenberg and Marquardt's way, with a covariance that knows when residuals hang together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Model = Callable[[Floats], list[Floats]]

_STEPS = 60
_CLOSE = 1e-10


@dataclass(frozen=True)
class Least:
    """A fit of several columns at once.

    Attributes:
        at: the parameters.
        spread: their covariance; infinite for a parameter that the columns do not see.
        residuals: measured less fitted, column by column.
        noise: standard deviation of each column's residuals.
        together: by how much each column's residuals count for less than independent ones (1: independent).
        free: rows less parameters, counted as independent ones.
    """

    at: Floats
    spread: Floats
    residuals: list[Floats]
    noise: list[float]
    together: list[float]
    free: float

    @property
    def misfit(self) -> float:
        """Rows times the logarithm of the mean square, over all columns."""
        return float(sum(len(one) * np.log(max(float(np.mean(one**2)), 1e-12)) for one in self.residuals))

    def rule(self) -> float:
        """Return Schwarz's criterion (BIC): misfit and a price for each parameter; the lower the better."""
        return self.misfit + len(self.at) * float(np.log(sum(len(one) for one in self.residuals)))


def fitted(model: Model, columns: Sequence[Floats], start: Sequence[float] | Floats) -> Least:
    """Return the fit of a model to columns; each column is weighed by its own noise, found on the way.

    Args:
        model: parameters -> one array a column, each as long as its column.
        columns: what was measured.
        start: parameters to begin with, scaled so that a change of one is a large one.
    """
    at = np.asarray(start, dtype=np.float64)
    weights = [1.0] * len(columns)
    for turn in range(3 if len(columns) > 1 else 1):
        at = _walked(model, columns, at, weights)
        if turn < 2:
            noise = [float(np.sqrt(np.mean((c - m) ** 2))) for c, m in zip(columns, model(at), strict=True)]
            weights = [1.0 / max(one, 1e-3) for one in noise]
    return _judged(model, columns, at)


def slopes(model: Model, at: Floats) -> list[Floats]:
    """Return the derivative of each column by each parameter (rows x parameters), by central differences."""
    parts: list[list[Floats]] = []
    for which in range(len(at)):
        step = 1e-5 * max(1.0, abs(float(at[which])))
        up, down = at.copy(), at.copy()
        up[which] += step
        down[which] -= step
        parts.append([(a - b) / (2.0 * step) for a, b in zip(model(up), model(down), strict=True)])
    return [np.stack([part[column] for part in parts], axis=1) for column in range(len(parts[0]))]


def _walked(model: Model, columns: Sequence[Floats], start: Floats, weights: Sequence[float]) -> Floats:
    """Return where the weighed squares are least, walking from `start`."""
    measured: Floats = np.concatenate([c * w for c, w in zip(columns, weights, strict=True)])

    def residual(at: Floats) -> Floats:
        fit: Floats = np.concatenate([m * w for m, w in zip(model(at), weights, strict=True)])
        return measured - fit

    at, damp = start, 1e-3
    now = residual(at)
    squares = float(now @ now)
    for _ in range(_STEPS):
        lean = np.concatenate([s * w for s, w in zip(slopes(model, at), weights, strict=True)])
        normal, pull = lean.T @ lean, lean.T @ now
        for _ in range(12):
            ridge = normal + np.diag(damp * np.maximum(np.diag(normal), 1e-12))
            tried: Floats = at + np.clip(np.linalg.lstsq(ridge, pull, rcond=None)[0], -_reach(at), _reach(at))
            after = residual(tried)
            rest = float(after @ after)
            if np.isfinite(rest) and rest <= squares:
                break
            damp *= 10.0
        else:
            return at
        gained, moved = squares - rest, float(np.max(np.abs(tried - at) / np.maximum(1.0, np.abs(at))))
        at, now, squares, damp = tried, after, rest, max(damp / 10.0, 1e-9)
        if gained <= _CLOSE * squares and moved < 1e-6:
            return at
    return at


def _reach(at: Floats) -> Floats:
    """Return how far one step may go: temperatures 100 K, logarithms 1."""
    reach: Floats = np.where(np.abs(at) > 12.0, 100.0, 1.0)
    return reach


def _judged(model: Model, columns: Sequence[Floats], at: Floats) -> Least:
    left = [c - m for c, m in zip(columns, model(at), strict=True)]
    rows = sum(len(one) for one in left)
    scale = rows / max(rows - len(at), 1)
    noise = [max(float(np.sqrt(np.mean(one**2) * scale)), 1e-9) for one in left]
    together = [hang_together(one) for one in left]
    lean = slopes(model, at)
    normal = np.asarray(sum(s.T @ s / n**2 for s, n in zip(lean, noise, strict=True)))
    meat = np.asarray(sum(f * (s.T @ s) / n**2 for s, n, f in zip(lean, noise, together, strict=True)))
    # A parameter that moves less than one row by one unit is not seen at all.
    blind = np.asarray(sum(np.sum(s**2, axis=0) for s in lean)) < 0.5
    scale_by = 1.0 / np.sqrt(np.where(blind, 1.0, np.diag(normal)))
    back = np.linalg.pinv(normal * np.outer(scale_by, scale_by), hermitian=True, rcond=1e-13)
    back *= np.outer(scale_by, scale_by)
    spread = back @ meat @ back
    spread[blind, blind] = np.inf
    free = sum(len(one) / f for one, f in zip(left, together, strict=True)) - len(at)
    return Least(at, spread, left, noise, together, max(free, 1.0))


def hang_together(residuals: Floats) -> float:
    """Return how many residuals in a row tell no more than one independent one; at least 1.

    The sum of the autocorrelations over pairs of lags, as long as a pair is positive (Geyer's initial positive
    sequence, Statistical Science 7, 1992), for white noise 1.
    """
    count = len(residuals)
    if count < 8:
        return 1.0
    centred = residuals - residuals.mean()
    power = float(centred @ centred)
    if power <= 0.0:
        return 1.0
    total = 0.0
    for lag in range(1, count // 3, 2):
        one = float(centred[:-lag] @ centred[lag:]) / power
        two = float(centred[: -lag - 1] @ centred[lag + 1 :]) / power
        if one + two <= 2.0 / np.sqrt(count):
            break
        total += one + two
    return max(1.0, 1.0 + 2.0 * total)


def quantile(free: float) -> float:
    """Return Student's 97.5 % quantile for so many degrees of freedom."""
    from scipy.special import stdtrit

    return float(stdtrit(max(free, 1.0), 0.975))
