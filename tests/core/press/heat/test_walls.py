"""One temperature or layers: by the Biot number."""

from __future__ import annotations

import numpy as np
import pytest
from fluids.core import Biot

from wrapwright.core.press.heat.films import Face
from wrapwright.core.press.heat.known import material_named
from wrapwright.core.press.heat.walls import LAYERS, biot, body, shares
from wrapwright.core.press.values import Wall

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
    assert body(wall, _face(25.0), np.ones(1), np.zeros(1)).layers == 1
    assert body(wall, _face(48.0), np.ones(1), np.zeros(1)).layers == layers_at_48


def test_four_millimetres_of_ceramic_at_48() -> None:
    assert biot(np.array([48.0]), np.array([0.004]), 1.3)[0] == pytest.approx(0.148, abs=5e-4)


def test_the_alloy_s_bounds_hold_the_table_s_figure() -> None:
    # 1 mm of 3003 at h 25: 0.00016 with conductivity 154, 0.00013 with 193 (alloysintl.com, substech.com).
    conductivity = material_named("aluminium").conductivity
    assert 25 * 0.001 / conductivity.low == pytest.approx(0.00016, abs=5e-6)
    assert 25 * 0.001 / conductivity.high == pytest.approx(0.00013, abs=5e-6)


def test_one_thick_case_puts_all_in_layers() -> None:
    wall = Wall(material_named("ceramic"), 4.0, 0.02)
    assert body(wall, _face(20.0, 48.0), np.ones(2), np.zeros(2)).layers == LAYERS


@pytest.mark.parametrize("layers", [1, 2, 11])
def test_layers_are_the_whole_wall(layers: int) -> None:
    assert shares(layers).sum() == pytest.approx(1.0)
    wall = Wall(material_named("ceramic"), 4.0, 0.02, other_j_k=55.0)
    one = body(wall, _face(48.0), np.array([1.0]), np.zeros(1), layers=layers)
    assert one.stored_j_k.sum() == pytest.approx(2300 * 840 * 0.004 * 0.02 + 55.0)
