"""One temperature or layers: by the Biot number."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fluids.core import Biot

from wrapwright.core.press.heat.films import Face
from wrapwright.core.press.heat.known import material_named, starter_heater
from wrapwright.core.press.heat.stepping import Machine, stepped
from wrapwright.core.press.heat.walls import LAYERS, biot, body, layers_for, shares
from wrapwright.core.press.heat.warming import Cases, warm_up
from wrapwright.core.press.values import Load, Range, Wall

# Closed form h d / k at h 25 and h 48, with the tables' properties.
WALLS = [
    ("steel", 0.5, 0.00077, 1),
    ("aluminium", 1.0, 0.00014, 1),
    ("ceramic", 4.0, 0.0769, LAYERS),
    ("glass", 3.0, 0.075, LAYERS),
]


def _face(*film: float) -> Face:
    return Face(np.array(film), np.zeros(len(film)))


@pytest.mark.parametrize(("name", "thickness", "number", "layers_at_48"), WALLS)
def test_which_walls_have_one_temperature(name: str, thickness: float, number: float, layers_at_48: int) -> None:
    wall = Wall(material_named(name), thickness, 0.02)
    metres = np.array([thickness / 1000])
    ours = biot(np.array([25.0]), metres, wall.material.conductivity.mid)
    assert ours[0] == pytest.approx(number, abs=5e-5)
    assert ours[0] == pytest.approx(Biot(25, thickness / 1000, wall.material.conductivity.mid))
    assert layers_for(wall, 25.0) == 1
    assert layers_for(wall, 48.0) == layers_at_48


def test_four_millimetres_of_ceramic_at_48() -> None:
    assert biot(np.array([48.0]), np.array([0.004]), 1.3)[0] == pytest.approx(0.148, abs=5e-4)


def test_the_alloy_s_bounds_hold_the_table_s_figure() -> None:
    # 1 mm of 3003 at h 25: 0.00016 with conductivity 154, 0.00013 with 193 (alloysintl.com, substech.com).
    conductivity = material_named("aluminium").conductivity
    assert 25 * 0.001 / conductivity.low == pytest.approx(0.00016, abs=5e-6)
    assert 25 * 0.001 / conductivity.high == pytest.approx(0.00013, abs=5e-6)


def test_all_cases_of_one_load_are_reckoned_alike() -> None:
    # An oven whose film may be 48 has layers in ceramic even where one case's film is 20, and so has the case alone.
    load = Load(Wall(material_named("ceramic"), 4.0, 0.024), 1, (), 200.0)
    oven = starter_heater("oven")
    films = np.array([20.0, 48.0])
    both = warm_up(oven, load, until_s=200, cases=Cases(film=films))
    alone = warm_up(oven, load, until_s=200, cases=Cases(film=films[:1]))
    assert both.one_dimensional
    assert np.array_equal(both.coating_c[0], alone.coating_c[0])
    slow = replace(oven, film=Range(20.0, 25.0, 28.0))
    assert not warm_up(slow, load, until_s=200).one_dimensional


def test_layers_and_one_temperature_meet_where_they_change_over() -> None:
    # At a Biot number of 0.1 mean of the layers and one temperature differ by less than 2 % of the heat-up.
    wall, face = Wall(material_named("ceramic"), 4.0, 0.02), _face(0.1 * 1.3 / 0.004)
    curves = []
    for layers in (1, LAYERS):
        steady = Machine(1.0, 0.0, 1e12, 0.0, 0.0, np.array([175.0]), np.array([175.0]), np.ones(1))
        one = body(wall, face, np.ones(1), np.zeros(1), layers=layers)
        curves.append(stepped(steady, one, step_s=2.0, inner=1, moments=300).wall_k[0])
    assert np.abs(curves[0] - curves[1]).max() < 0.02 * 175


@pytest.mark.parametrize("layers", [1, 2, 11])
def test_layers_are_the_whole_wall(layers: int) -> None:
    assert shares(layers).sum() == pytest.approx(1.0)
    wall = Wall(material_named("ceramic"), 4.0, 0.02, other_j_k=55.0)
    one = body(wall, _face(48.0), np.array([1.0]), np.zeros(1), layers=layers)
    assert one.stored_j_k.sum() == pytest.approx(2300 * 840 * 0.004 * 0.02 + 55.0)
