"""Published figures about heat and dose, each with the tolerance it is held to and our own figure beside it."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from wrapwright.core.press.dose.dose import equivalent_minutes, mean_kinetic_c, ramp_minutes
from wrapwright.core.press.dose.rates import EA_KJ, GAS, activation_kj, rate, tenfold_k
from wrapwright.core.press.heat.films import STEFAN_BOLTZMANN, conductance, cover_resistance, radiated, radiation_film
from wrapwright.core.press.heat.known import cover_named, material_named
from wrapwright.core.press.heat.lumped import (
    lumped_c,
    lumped_seconds,
    radiating_c,
    time_constant_s,
    wall_constant_s,
)
from wrapwright.core.press.heat.slab import Shape, by_series, factors, roots
from wrapwright.core.press.heat.walls import biot
from wrapwright.core.press.values import Wall


class Check(NamedTuple):
    """One published figure: what, whose, the figure, how far ours may be off, ours."""

    what: str
    source: str
    figure: float
    tolerance: float
    ours: Callable[[], float]


def checks() -> list[Check]:
    """Return all of them."""
    return [*_lumped(), *_coefficients(), *_slabs(), *_radiation(), *_walls(), *_arrhenius(), *_minutes()]


BEAD = 7.06e-4


def _bead(at: float) -> float:
    times = np.linspace(0, 20, 2001)
    held = 8500 * 400 * BEAD / 6
    temps = radiating_c(times, 25, gas_c=200, around_c=400, film=400, emissivity=0.9, held_j_m2k=held)
    return float(temps[-1]) if at < 0 else float(np.interp(at, temps, times))


def _lumped() -> list[Check]:
    book = "Incropera and DeWitt, Example 5.1"
    other, later = "Cengel, Example 4-1", "Incropera and DeWitt, Example 5.2"
    return [
        Check(
            "thermocouple bead, time constant, s", book, 1.0, 5e-4, lambda: time_constant_s(400, 8500, 400, BEAD / 6)
        ),
        Check("  25 to 199 degC in gas at 200, s", book, 5.2, 0.05, lambda: lumped_seconds(25, 200, 199, 1.0)),
        Check("junction, rate, 1/s", other, 0.463235, 1e-6, lambda: 1 / time_constant_s(210, 8500, 320, 1e-3 / 6)),
        Check("  99 %, s", other, 9.9413, 1e-3, lambda: lumped_seconds(0, 1, 0.99, 1 / 0.463235)),
        Check("bead radiating to walls at 400, steady, degC", later, 218.7, 0.1, lambda: _bead(-1)),
        Check("  to within 1 K, s", later, 4.97, 0.1, lambda: _bead(217.7)),
        Check("body in a room at 20, 37 to 25 degC, h", "Cengel, Example 4-2", 12.2, 0.05, _body_hours),
    ]


def _body_hours() -> float:
    length = math.pi * 0.15**2 * 1.7 / (2 * math.pi * 0.15 * 1.7 + 2 * math.pi * 0.15**2)
    return lumped_seconds(37, 20, 25, time_constant_s(8, 996, 4178, length)) / 3600


# Incropera, Table 5.1 / Cengel, Table 4-1, as printed (some editions print 1.0160 and 1.2403).
TABLE: list[tuple[Shape, float, float, float]] = [
    ("wall", 0.01, 0.0998, 1.0017),
    ("wall", 0.1, 0.3111, 1.0161),
    ("wall", 0.5, 0.6533, 1.0701),
    ("wall", 1, 0.8603, 1.1191),
    ("wall", 2, 1.0769, 1.1785),
    ("wall", 5, 1.3138, 1.2402),
    ("wall", 10, 1.4289, 1.2620),
    ("wall", 100, 1.5552, 1.2731),
    ("cylinder", 0.1, 0.4417, 1.0246),
    ("cylinder", 1, 1.2558, 1.2071),
    ("cylinder", 10, 2.1795, 1.5677),
    ("sphere", 0.1, 0.5423, 1.0298),
    ("sphere", 1, 1.5708, 1.2732),
    ("sphere", 40, 3.0632, 1.9942),
]


def _coefficients() -> list[Check]:
    found = []
    source = "Incropera, Table 5.1; Cengel, Table 4-1"

    def first(shape: Shape, number: float) -> Callable[[], float]:
        return lambda: float(roots(number, 1, shape)[0])

    def start(shape: Shape, number: float) -> Callable[[], float]:
        return lambda: float(factors(roots(number, 1, shape), shape)[0])

    for shape, number, zeta, factor in TABLE:
        found.append(Check(f"{shape}, Bi {number:g}: zeta", source, zeta, 2e-4, first(shape, number)))
        found.append(Check(f"{shape}, Bi {number:g}: C1", source, factor, 2e-4, start(shape, number)))
    return found


def _slabs() -> list[Check]:
    def brass() -> float:
        return 500 - 480 * float(by_series(120 * 0.02 / 110, 33.9e-6 * 420 / 0.02**2, 1.0))

    def shaft() -> float:
        return 200 + 400 * float(by_series(80 * 0.1 / 14.9, 3.95e-6 * 2700 / 0.1**2, 0.0, "cylinder"))

    plate, one = "Cengel, Example 4-4", "one-term formula, Bi 1, Fo 1"
    return [
        Check("brass plate in an oven, exact, degC", plate, 279.58, 0.02, brass),
        Check("  as the chart reads it, degC", plate, 282, 3, brass),
        Check("steel shaft that cools, centre, degC", "Cengel, Example 4-5", 364, 1, shaft),
        Check("slab, centre, share left", one, 0.53388, 1e-4, lambda: float(by_series(1, 1, 0))),
        Check("slab, surface, share left", one, 0.34820, 1e-4, lambda: float(by_series(1, 1, 1))),
    ]


def _radiation() -> list[Check]:
    pipe, closed = "Incropera and DeWitt, Example 1.2", "closed form, emissivity 0.9"
    book = 5.67e-8 / STEFAN_BOLTZMANN
    paper = [cover_named("paper")]
    return [
        Check("pipe at 473 K radiates, W/m2", pipe, 2270, 1, lambda: book * float(radiated(0.8, 199.85))),
        Check("room at 298 K sends back, W/m2", pipe, 447, 0.5, lambda: book * float(radiated(1, 24.85))),
        Check("h_r, W/m2K", pipe, 10.930, 1e-3, lambda: book * float(radiation_film(0.8, 199.85, 24.85))),
        Check("black, 400 K, W/m2", "ht.q_rad", 1451.613952, 0.003, lambda: float(radiated(1, 126.85))),
        Check("0.85, 400 to 305 K, W/m2", "ht.q_rad", 816.78217, 0.0017, lambda: float(radiated(0.85, 126.85, 31.85))),
        Check("h_r 25 against 200 degC", closed, 12.3110, 1e-3, lambda: float(radiation_film(0.9, 25, 200))),
        Check("h_r 180 against 200 degC", closed, 20.2900, 1e-3, lambda: float(radiation_film(0.9, 180, 200))),
        Check("h_r 195 against 200 degC", closed, 21.2824, 1e-3, lambda: float(radiation_film(0.9, 195, 200))),
        Check("paper, least, W/m2K", "sciencing.com", 385, 0.5, lambda: 1 / float(cover_resistance(paper, -1.0))),
        Check("paper, most, W/m2K", "Incropera, A.3", 1385, 0.7, lambda: 1 / float(cover_resistance(paper, 1.0))),
        Check(
            "paper adds to a film of 25, %",
            "closed form",
            6.5,
            0.05,
            lambda: 2500 / float(conductance(25, paper, -1)) - 100,
        ),
    ]


def _walls() -> list[Check]:
    found = []
    for name, thickness, constant, figure in (
        ("steel", 0.5, 80.0, 0.00077),
        ("aluminium", 1.0, 97.52, 0.00016),
        ("ceramic", 4.0, 309.12, 0.0769),
        ("glass", 3.0, 225.0, 0.075),
    ):
        wall = Wall(material_named(name), thickness, 0.02)

        def ours(wall: Wall = wall) -> float:
            return wall_constant_s(wall, 25.0)

        what = f"{thickness:g} mm of {name} at h 25"
        found.append(Check(f"{what}, s", "closed form rho c d / h", constant, 0.01, ours))
        deep, conductivity = np.array([thickness / 1000]), wall.material.conductivity.mid

        def number(deep: np.ndarray = deep, conductivity: float = conductivity) -> float:
            return float(biot(np.array([25.0]), deep, conductivity)[0])

        found.append(Check(f"{what}, Biot number", "closed form h d / k", figure, 5e-5, number))
    return found


def _arrhenius() -> list[Check]:
    found = []

    def fast(celsius: float, energy: float) -> Callable[[], float]:
        return lambda: float(rate(celsius, energy))

    for energy, celsius, factor in (
        (120, 170, 0.1757),
        (120, 180, 0.3604),
        (120, 190, 0.7169),
        (120, 200, 1.3851),
        (120, 205, 1.9055),
        (120, 210, 2.6042),
        (80, 180, 0.5064),
        (80, 205, 1.5370),
        (163.84, 180, 0.2483),
        (163.84, 205, 2.4117),
    ):
        what = f"rate at {celsius} against 195 degC, Ea {energy:g}"
        found.append(Check(what, "closed form", factor, 1e-4, fast(celsius, energy)))
    for standard, celsius, factor in (
        (20, 0, 0.2865),
        (20, 10, 0.5472),
        (20, 30, 1.7563),
        (20, 40, 2.9755),
        (23, 10, 0.4603),
    ):

        def age(celsius: float = celsius, standard: float = standard) -> float:
            return float(rate(celsius - 0.15, 5000 * GAS / 1000, standard - 0.15))

        found.append(
            Check(f"age factor of concrete, {celsius} against {standard} degC", "ASTM C1074", factor, 1e-3, age)
        )
    found.append(Check("Ea that doubles 190 to 200", "closed form", 126.293, 1e-3, lambda: activation_kj(2, 190, 200)))
    for energy, kelvin in ((80, 52.45), (100, 41.96), (120, 34.97), (163.84, 25.61)):

        def ten(energy: float = energy) -> float:
            return tenfold_k(energy)

        found.append(Check(f"kelvin for ten times, Ea {energy:g}", "ln 10 R T2 / Ea", kelvin, 0.005, ten))
    return found


def _as_fast(celsius: float, z: float, reference: float) -> float:
    """Return the temperature at which Arrhenius' rate is that of 10^((T - reference) / z)."""
    decades = (celsius - reference) / z
    return 1 / (1 / (reference + 273.15) - decades * math.log(10) * GAS / (EA_KJ * 1000)) - 273.15


def _decades() -> float:
    times = np.linspace(0, 600, 6001)
    temps = np.array([_as_fast(100 + 21.1 * at / 600, 10, 121.1) for at in times])
    return float(equivalent_minutes(times, temps, reference_c=121.1))


def _minutes() -> list[Check]:
    def steady(celsius: float, minutes: float, z: float, reference: float) -> Callable[[], float]:
        at = _as_fast(celsius, z, reference)
        return lambda: float(equivalent_minutes([0, minutes * 60], [at, at], reference_c=reference))

    found = [
        Check("15 min at 121 degC, F0", "scribd.com 377248", 15, 1e-3, steady(121, 15, 10, 121)),
        Check("15 min at 111 degC, F0", "scribd.com 377248", 1.5, 1e-3, steady(111, 15, 10, 121)),
        Check("15 min at 124 degC, F0", "scribd.com 377248", 29.93, 0.002, steady(124, 15, 10, 121)),
        Check("lethal rate at 110 degC", "dairyscience.info", 0.077, 5e-4, steady(110, 1, 10, 121.11)),
        Check("5 min at 90 degC, A0, min", "EN ISO 15883-1", 50, 1e-6, steady(90, 5, 10, 80)),
        Check("half a minute at 67 degC, PU", "ilovetranslation.com", 5, 1e-9, steady(67, 0.5, 7, 60)),
        Check("5 min at 65 degC by 1.393, PU", "sizes.com", 26.2256, 1e-3, steady(65, 5, 1 / math.log10(1.393), 60)),
        Check(
            "mean kinetic 20, 25, 30", "USP <1160>", 25.8582, 1e-3, lambda: mean_kinetic_c([20, 25, 30], ea_kj=10 * GAS)
        ),
        Check("mean kinetic 15, 35", "USP <1160>", 29.4686, 1e-3, lambda: mean_kinetic_c([15, 35], ea_kj=10 * GAS)),
        Check(
            "ramp 25 to 195 in 300 s, s",
            "exponential integral",
            25.20932,
            1e-5,
            lambda: 60 * ramp_minutes(25, 195, 300),
        ),
    ]
    for constant, dwell, seconds in (
        (80.0, 300, 107.207),
        (80.0, 600, 495.765),
        (80.0, 900, 910.627),
        (309.12, 300, 0.427),
        (309.12, 600, 29.154),
        (309.12, 900, 177.477),
    ):

        def whole(constant: float = constant, dwell: int = dwell) -> float:
            times = np.linspace(0, dwell, dwell + 1)
            return 60 * float(equivalent_minutes(times, lumped_c(times, 25, 200, constant)))

        what = f"heat-up to 200, constant {constant:g} s, {dwell} s: s at 195"
        found.append(Check(what, "quadrature", seconds, 0.01, whole))
    return found
