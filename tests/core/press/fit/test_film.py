"""Film coefficients from time constants: textbook walls, and back again."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.press.fit.film import film_of, film_with_wall, tau_of
from wrapwright.core.press.heat.known import cover_named
from wrapwright.core.press.values import Material, Range, Wall


def wall(density: float, heat: float, conductivity: float, thickness_mm: float, other: float = 0.0) -> Wall:
    one = [Range(value, value, value) for value in (density, heat, conductivity)]
    return Wall(Material("steel", "", one[0], one[1], one[2], 0.2, 1e-5, ""), thickness_mm, 0.04, other_j_k=other)


def test_lumped_walls_of_the_trade() -> None:
    # tau = rho c d / h, h 25 (closed form): 0.5 mm 304 steel, 1 mm 3003 aluminium, 4 mm ceramic, 3 mm soda-lime glass.
    for figures, tau in (
        ((8000.0, 500.0, 16.2, 0.5), 80.0),
        ((2730.0, 893.0, 160.0, 1.0), 97.52),
        ((2300.0, 840.0, 1.3, 4.0), 309.12),
        ((2500.0, 750.0, 1.0, 3.0), 225.0),
    ):
        assert film_of(tau, wall(*figures)) == pytest.approx(25.0, rel=1e-3)
        assert tau_of(25.0, wall(*figures)) == pytest.approx(tau, rel=1e-3)


def test_a_thick_wall_goes_by_its_slowest_mode() -> None:
    # Incropera, Table 5.1, plane wall: Bi 1 has zeta 0.8603, Bi 0.5 has 0.6533; tau = d2 / (alpha zeta2).
    slab = wall(2300.0, 840.0, 1.3, 4.0)
    for biot, zeta in ((1.0, 0.8603), (0.5, 0.6533)):
        film = biot * 1.3 / 0.004
        tau = 2300.0 * 840.0 / 1.3 * 0.004**2 / zeta**2
        assert film_of(tau, slab) == pytest.approx(film, rel=1e-3)
        assert tau_of(film, slab) == pytest.approx(tau, rel=1e-3)


def test_covers_and_what_hangs_on_the_wall_are_taken_off() -> None:
    paper = cover_named("paper")
    steel = wall(8000.0, 500.0, 16.2, 0.5, other=40.0)
    whole = 1.0 / (1.0 / 30.0 + paper.thickness_mm / 1000.0 / paper.conductivity.mid)
    tau = (8000.0 * 500.0 * 0.0005 + 40.0 / 0.04) / whole
    assert film_of(tau, steel, (paper,)) == pytest.approx(30.0)
    assert tau_of(30.0, steel, (paper,)) == pytest.approx(tau)


def test_what_no_film_can_explain_is_said() -> None:
    with pytest.raises(ValueError, match="covers alone"):
        film_of(0.5, wall(8000.0, 500.0, 400.0, 0.5), (cover_named("paper"),))
    with pytest.raises(ValueError, match="wall alone"):
        film_of(1.0, wall(2300.0, 840.0, 1.3, 4.0))


def test_the_walls_own_doubt_widens_the_film() -> None:
    low, high = film_with_wall((79.0, 81.0), wall(8000.0, 500.0, 16.2, 0.5))
    share = math.hypot(0.10, math.log(81.0 / 79.0) / 2.0)
    middle = film_of(math.sqrt(79.0 * 81.0), wall(8000.0, 500.0, 16.2, 0.5))
    assert (low, high) == (pytest.approx(middle / (1 + share)), pytest.approx(middle * (1 + share)))
