"""Oven and load against an independent integrator, which knows nothing of layers' matrices or linear steps."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from wrapwright.core.press.heat.films import STEFAN_BOLTZMANN
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater
from wrapwright.core.press.heat.stepping import implicit_step
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.values import Cover, Heater, Load, Opening, Wall

STEEL = Wall(material_named("steel"), 0.5, 0.045)
CERAMIC = Wall(material_named("ceramic"), 4.0, 0.024)
PAPER = cover_named("paper")


def _flux(heater: Heater, covers: tuple[Cover, ...], goal_c: float, air: float, face: float) -> float:
    """Return W/m2 into the face: the temperature of the outermost surface is found, not followed from a usual film."""
    resistance = sum(one.thickness_mm / 1000 / one.conductivity.mid for one in covers)
    film, share = heater.film.mid, heater.radiant
    usual = 25 + 0.44 * (goal_c - 25)
    black = film * share / (((goal_c + 273.15) ** 4 - (usual + 273.15) ** 4) / (goal_c - usual) * STEFAN_BOLTZMANN)

    def into(outer: float) -> float:
        radiation = black * STEFAN_BOLTZMANN * ((air + 273.15) ** 4 - (outer + 273.15) ** 4)
        return film * (1 - share) * (air - outer) + radiation

    if not covers:
        return into(face)
    outer = brentq(lambda at: into(at) - (at - face) / resistance, min(air, face) - 1, max(air, face) + 1)
    return into(outer)


def _independent(heater: Heater, load: Load, times: np.ndarray, points: int) -> tuple[np.ndarray, np.ndarray]:
    """Return air and face by a method of lines of other cells (faces apart from the cells' middles), stiff solver."""
    wall, material = load.wall, load.wall.material
    deep = wall.thickness_mm / 1000
    cell = deep / points
    held = material.density.mid * material.specific_heat.mid * cell
    lead = material.conductivity.mid / cell

    def face_of(flux: float, first: float) -> float:
        return first + flux / (2 * lead) if points > 1 else first

    def face_flux(air: float, first: float) -> float:
        flux = 0.0
        for _ in range(30):  # the face lies half a cell before the first middle
            flux = _flux(heater, load.covers, load.set_c, air, face_of(flux, first))
        return flux

    def slope(at: float, state: np.ndarray) -> np.ndarray:
        air, cells = state[0], state[1:]
        is_open = (load.preheated and at < load.door_s) or any(o.at_s <= at < o.at_s + o.for_s for o in load.openings)
        on = min(1.0, max(0.0, (load.set_c + heater.band_k / 2 - air) / heater.band_k))
        flux = face_flux(air, cells[0])
        loss = (heater.loss_w_k + (heater.door_w_k if is_open else 0)) * (air - load.room_c)
        gains = np.zeros(points)
        gains[0] = flux
        between = lead * np.diff(cells)
        gains[:-1] += between
        gains[1:] -= between
        air_gain = (heater.power_w * on - loss - load.pieces * wall.area_m2 * flux) / heater.own_j_k
        return np.concatenate([[air_gain], gains / held])

    start = np.full(points + 1, load.room_c)
    start[0] = load.set_c if load.preheated else load.room_c
    found = solve_ivp(slope, (0, times[-1]), start, t_eval=times, method="LSODA", rtol=1e-6, atol=1e-6, max_step=5.0).y
    faces = [face_of(face_flux(air, first), first) for air, first in zip(found[0], found[1], strict=True)]
    return found[0], np.array(faces)


OVEN = starter_heater("oven")


@pytest.mark.parametrize(
    ("heater", "load", "points"),
    [
        (OVEN, Load(STEEL, 4, (PAPER,), 200.0, openings=(Opening(100, 20),)), 1),
        (OVEN, Load(STEEL, 2, (), 200.0, preheated=False), 1),
        (replace(OVEN, radiant=0.0), Load(STEEL, 6, (PAPER,), 190.0), 1),
        (replace(OVEN, film=replace(OVEN.film, mid=48.0)), Load(CERAMIC, 4, (), 200.0), 30),
        (starter_heater("mug-press"), Load(CERAMIC, 1, (PAPER,), 195.0), 30),
    ],
    ids=["steel, paper, door", "from cold", "film that stays", "layers", "mug press"],
)
def test_oven_and_load_are_those_of_an_independent_integrator(heater: Heater, load: Load, points: int) -> None:
    warming = warm_up(heater, load, until_s=300)
    assert warming.one_dimensional == (points > 1)
    times = warming.times_s[::20]
    air, face = _independent(heater, load, times, points)
    assert np.abs(warming.air_c[0, ::20] - air).max() < 0.35
    assert np.abs(warming.coating_c[0, ::20] - face)[1:].max() < 0.35
    assert warming.coating_c[0, -1] == pytest.approx(face[-1], abs=0.15)


def test_a_step_halved_changes_nothing_to_speak_of() -> None:
    load = Load(STEEL, 4, (PAPER,), 200.0)
    whole, half = (warm_up(OVEN, load, until_s=300, step_s=step) for step in (2.0, 1.0))
    assert np.abs(whole.coating_c - half.coating_c[:, ::2]).max() < 0.2


def test_a_step_is_the_exponential_and_never_leaves_the_range() -> None:
    rates = np.array([[[-1.0, 1.0], [0.5, -0.5]]])
    for span in (0.01, 1.0, 100.0):
        step = implicit_step(rates, span)[0]
        fades = np.exp(-1.5 * span)
        exact = np.array([[1 + 2 * fades, 2 - 2 * fades], [1 - fades, 2 + fades]]) / 3
        assert np.abs(step - exact).max() < 2e-3
        assert step.min() >= 0
        assert step.sum(axis=1) == pytest.approx([1.0, 1.0], rel=1e-12)
