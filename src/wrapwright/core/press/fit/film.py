"""The film coefficient of a wall whose time constant is known, and back: lumped, or a slab where it must be."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wrapwright.core.press.values import Cover, Wall

LUMPED_BELOW = 0.1  # Biot number


def capacity_j_m2k(wall: Wall) -> float:
    """Return the heat that a square metre of the wall takes up per kelvin, what hangs on it included."""
    own = wall.material.density.mid * wall.material.specific_heat.mid * wall.thickness_mm / 1000.0
    return own + (wall.other_j_k / wall.area_m2 if wall.area_m2 > 0 else 0.0)


def film_of(tau_s: float, wall: Wall, covers: Sequence[Cover] = ()) -> float:
    """Return the film coefficient in W/m2K that gives a wall its time constant, covers in series taken off.

    Lumped, tau = rho c d / h. Where that would be a Biot number h d / k of 0.1 or more, the slowest mode of a slab
    heated on one side: tau = d2 / (a zeta2) with zeta tan zeta = Bi (Incropera, Fundamentals of Heat and Mass
    Transfer, 5.5), which is what a log shows after its first moments.

    Raises:
        ValueError: when the covers alone let less heat through than the log shows, or the wall alone is slower.
    """
    whole = capacity_j_m2k(wall) / tau_s
    conductivity, thickness = wall.material.conductivity.mid, wall.thickness_mm / 1000.0
    if whole * thickness / conductivity >= LUMPED_BELOW:
        zeta = math.sqrt(capacity_j_m2k(wall) * thickness / (conductivity * tau_s))
        if zeta >= math.pi / 2.0:
            raise ValueError("the wall alone takes longer")
        whole = zeta * math.tan(zeta) * conductivity / thickness
    resistance = 1.0 / whole - sum(one.thickness_mm / 1000.0 / one.conductivity.mid for one in covers)
    if resistance <= 0.0:
        raise ValueError("the covers alone take longer")
    return 1.0 / resistance


def tau_of(film: float, wall: Wall, covers: Sequence[Cover] = ()) -> float:
    """Return the time constant in s of a wall under a film coefficient: the inverse of `film_of`."""
    whole = 1.0 / (1.0 / film + sum(one.thickness_mm / 1000.0 / one.conductivity.mid for one in covers))
    conductivity, thickness = wall.material.conductivity.mid, wall.thickness_mm / 1000.0
    biot = whole * thickness / conductivity
    zeta = _root(biot)
    lumped = capacity_j_m2k(wall) / whole
    slab = capacity_j_m2k(wall) * thickness / (conductivity * zeta**2)
    return lumped if capacity_j_m2k(wall) / slab * thickness / conductivity < LUMPED_BELOW else slab


def _root(biot: float) -> float:
    """Return the first root of zeta tan zeta = Bi, by halving."""
    low, high = 0.0, math.pi / 2.0
    for _ in range(80):
        middle = (low + high) / 2.0
        low, high = (middle, high) if middle * math.tan(middle) < biot else (low, middle)
    return (low + high) / 2.0


def film_with_wall(tau: tuple[float, float], wall: Wall, covers: Sequence[Cover] = ()) -> tuple[float, float]:
    """Return the film coefficient's range when the time constant's interval and the wall's own doubt both count.

    Thickness, density and specific heat are let in as shares, added as squares, with the time constant's.
    """
    material = wall.material
    low_tau, high_tau = tau
    middle = film_of(math.sqrt(low_tau * high_tau), wall, covers)
    shares = [
        wall.doubt,
        (material.density.high - material.density.low) / 2.0 / material.density.mid,
        (material.specific_heat.high - material.specific_heat.low) / 2.0 / material.specific_heat.mid,
        math.log(high_tau / low_tau) / 2.0,
    ]
    share = math.sqrt(sum(one**2 for one in shares))
    return middle / (1.0 + share), middle * (1.0 + share)
