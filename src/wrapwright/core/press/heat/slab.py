"""Walls too thick for one temperature, in steady air: by series, and by the same layers that `warm_up` steps.

Dimensionless, as the textbooks have it (Incropera, Fundamentals of Heat and Mass Transfer, 5.5-5.6; Carslaw and
Jaeger, Conduction of Heat in Solids): Biot number h L / k and Fourier number alpha t / L^2 with L the wall's thickness
where it is heated on one side, half of it where on both, the radius of cylinder and sphere. What is returned is the
share of the first difference to the air that is left: 1 at the start, 0 in the end.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from wrapwright.core.press.heat.stepping import implicit_step
from wrapwright.core.press.heat.walls import LAYERS, shares

Floats = NDArray[np.float64]
Shape = Literal["wall", "cylinder", "sphere"]
TERMS = 60
LONGEST_STEP = 0.05  # of the Fourier number
SPLITS = 64  # each halves what a root is known to: beyond the last digit


def roots(biot: float, terms: int = TERMS, shape: Shape = "wall") -> Floats:
    """Return the first roots, (terms,), growing.

    Of z tan z = Bi (wall), z J1(z) = Bi J0(z) (cylinder), 1 - z cot z = Bi (sphere).

    Args:
        biot: over 0.
        terms: how many.
        shape: of the body.

    Raises:
        ValueError: a Biot number that is not over 0.
    """
    if not biot > 0:
        raise ValueError(f"a Biot number must be over 0, not {biot:g}.")
    low, high = _between(terms, shape)
    crosses = _crossing(biot, shape)
    rising = crosses(high) > 0
    for _ in range(SPLITS):
        mid = (low + high) / 2.0
        upper = (crosses(mid) > 0) == rising
        low, high = np.where(upper, low, mid), np.where(upper, mid, high)
    found: Floats = (low + high) / 2.0
    return found


def factors(zeta: Floats, shape: Shape = "wall") -> Floats:
    """Return what each root's term starts with, C1, C2 ..., of the shape of the roots."""
    from scipy.special import j0, j1

    if shape == "wall":
        found = 4.0 * np.sin(zeta) / (2.0 * zeta + np.sin(2.0 * zeta))
    elif shape == "cylinder":
        found = 2.0 / zeta * j1(zeta) / (j0(zeta) ** 2 + j1(zeta) ** 2)
    else:
        found = 4.0 * (np.sin(zeta) - zeta * np.cos(zeta)) / (2.0 * zeta - np.sin(2.0 * zeta))
    return np.asarray(found, dtype=np.float64)


def by_series(biot: float, fourier: ArrayLike, place: float, shape: Shape = "wall", terms: int = TERMS) -> Floats:
    """Return what is left at one place, of the shape of `fourier`.

    Args:
        biot: over 0.
        fourier: time; with 60 terms from 0.002 on exact to 1e-6.
        place: 0 at the adiabatic back or the centre, 1 at the heated face.
        shape: of the body.
        terms: of the series; 1 from a Fourier number of 0.2 on leaves out less than 2 %.
    """
    from scipy.special import j0

    zeta = roots(biot, terms, shape)
    inside = zeta * place
    across = {"wall": np.cos, "cylinder": j0, "sphere": _sine_over}[shape](inside)
    fades = np.exp(-np.multiply.outer(np.asarray(fourier, dtype=np.float64), zeta**2))
    left: Floats = fades @ (factors(zeta, shape) * across)
    return left


def mean_by_series(biot: float, fourier: ArrayLike, shape: Shape = "wall", terms: int = TERMS) -> Floats:
    """Return what is left on average of the whole body, of the shape of `fourier`: 1 less the heat taken up so far.

    Args:
        biot: over 0.
        fourier: time.
        shape: of the body.
        terms: of the series.
    """
    from scipy.special import j1

    zeta = roots(biot, terms, shape)
    if shape == "wall":
        average = np.sin(zeta) / zeta
    elif shape == "cylinder":
        average = 2.0 * j1(zeta) / zeta
    else:
        average = 3.0 * (np.sin(zeta) - zeta * np.cos(zeta)) / zeta**3
    fades = np.exp(-np.multiply.outer(np.asarray(fourier, dtype=np.float64), zeta**2))
    left: Floats = fades @ (factors(zeta, shape) * average)
    return left


def by_differences(biot: ArrayLike, fourier: Floats, layers: int = LAYERS) -> Floats:
    """Return what is left in every layer of a wall, (k, m, layers), heated face first, back last.

    The layers and the implicit step are those of `warm_up`; all Biot numbers go at once.

    Args:
        biot: (k,), over 0.
        fourier: (m,), growing, over 0.
        layers: at least 2; the error falls with their square.
    """
    wanted = np.asarray(biot, dtype=np.float64)
    rates = np.zeros((len(wanted), layers, layers))
    held = shares(layers)
    passes = float(layers - 1)
    for here in range(layers - 1):
        for one, other in ((here, here + 1), (here + 1, here)):
            rates[:, one, one] -= passes / held[one]
            rates[:, one, other] += passes / held[one]
    rates[:, 0, 0] -= wanted / held[0]
    state = np.ones((len(wanted), layers, 1))
    found = np.empty((len(wanted), len(fourier), layers))
    for number, span in enumerate(np.diff(fourier, prepend=0.0)):
        inner = math.ceil(span / LONGEST_STEP)
        advance = np.linalg.matrix_power(implicit_step(rates, float(span) / inner), inner)
        state = advance @ state
        found[:, number] = state[:, :, 0]
    return found


def _sine_over(angle: Floats) -> Floats:
    """Return sin(x) / x, 1 at 0."""
    return np.sinc(angle / np.pi)


def _between(terms: int, shape: Shape) -> tuple[Floats, Floats]:
    """Return where each root lies: after the one, before the other."""
    from scipy.special import jn_zeros

    count = np.arange(terms, dtype=np.float64)
    if shape == "cylinder":
        starts = np.concatenate([[0.0], jn_zeros(1, terms - 1)]) if terms > 1 else np.zeros(1)
        return starts, np.asarray(jn_zeros(0, terms), dtype=np.float64)
    return count * np.pi, (count + (0.5 if shape == "wall" else 1.0)) * np.pi


def _crossing(biot: float, shape: Shape) -> Callable[[Floats], Floats]:
    """Return a function that crosses zero at each root, with no poles between."""
    from scipy.special import j0, j1

    def crosses(zeta: Floats) -> Floats:
        if shape == "wall":
            found = zeta * np.sin(zeta) - biot * np.cos(zeta)
        elif shape == "cylinder":
            found = zeta * j1(zeta) - biot * j0(zeta)
        else:
            found = (1.0 - biot) * np.sin(zeta) - zeta * np.cos(zeta)
        return np.asarray(found, dtype=np.float64)

    return crosses
