"""How fast heat works at a temperature, against how fast at the reference: the law of Arrhenius."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from wrapwright.core.press.values import REFERENCE_C

Floats = NDArray[np.float64]
GAS = 8.314462618  # J/molK, CODATA 2018
ZERO_C = 273.15

# Diffusion of disperse dye into polyester in dry heat, kJ/mol. Common practice, no source for 170-200 degrees C; in
# water 163.84 was measured (Huang and others, J. Textile Res. 31(11), 2010), in carbon dioxide under pressure 22.
EA_LOW, EA_KJ, EA_HIGH = 80.0, 120.0, 170.0


def rate(temps_c: ArrayLike, ea_kj: ArrayLike = EA_KJ, reference_c: float = REFERENCE_C) -> Floats:
    """Return how many times as fast as at the reference it works: exp(-(Ea/R)(1/T - 1/Tref)), T in kelvin.

    Args:
        temps_c: temperatures, degrees C.
        ea_kj: activation energy, kJ/mol; anything that broadcasts with the temperatures.
        reference_c: where the rate is 1.
    """
    kelvin = np.asarray(temps_c, dtype=np.float64) + ZERO_C
    steep = np.asarray(ea_kj, dtype=np.float64) * (1000.0 / GAS)
    fast: Floats = np.exp(steep * (1.0 / (reference_c + ZERO_C) - 1.0 / kelvin))
    return fast


def activation_kj(times_faster: float, from_c: float, to_c: float) -> float:
    """Return the activation energy, kJ/mol, at which `to_c` works `times_faster` than `from_c`.

    R ln(ratio) / (1/T1 - 1/T2).

    Raises:
        ValueError: a ratio that is not over 0, or one temperature twice.
    """
    if times_faster <= 0 or from_c == to_c:
        raise ValueError("an activation energy needs a ratio over 0 and two temperatures.")
    return GAS * math.log(times_faster) / (1.0 / (from_c + ZERO_C) - 1.0 / (to_c + ZERO_C)) / 1000.0


def tenfold_k(ea_kj: float = EA_KJ, at_c: float = REFERENCE_C) -> float:
    """Return how many kelvin more make it work ten times as fast, near one temperature: ln(10) R T^2 / Ea."""
    return math.log(10.0) * GAS * (at_c + ZERO_C) ** 2 / (ea_kj * 1000.0)
