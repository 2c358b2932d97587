"""The cases that a band is read from."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.press.dose.doubt import SOURCES, SPREAD, bounds, doubts, spread_points
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater
from wrapwright.core.press.values import UNCALIBRATED_K, Load, Wall

OVEN = starter_heater("oven")
LOAD = Load(Wall(material_named("steel"), 0.5, 0.045), 4, (cover_named("paper"),), 200.0)


def test_points_are_spread_evenly_and_always_the_same() -> None:
    points = spread_points(SPREAD, 5)
    assert np.array_equal(points, spread_points(SPREAD, 5))
    assert np.abs(points).max() <= 1
    assert np.abs(points.mean(axis=0)).max() < 1e-12
    assert points.var(axis=0) == pytest.approx(1 / 3, abs=0.03)
    together = np.abs(np.corrcoef(points.T) - np.eye(5))
    assert together[0, 1] < 0.15  # the two that weigh most
    assert together.max() < 0.25


def test_the_middle_then_each_source_alone_then_all_mixed() -> None:
    found = doubts(OVEN, LOAD)
    assert found.apart == 1 + 2 * len(SOURCES)
    cases = found.cases
    assert cases.film is not None
    assert cases.offset_k is not None
    assert len(cases.film) == len(found.ea_kj) == found.apart + SPREAD
    assert (cases.film[0], cases.offset_k[0], found.ea_kj[0]) == (OVEN.film.mid, 0.0, 120.0)
    assert set(cases.film[: found.apart]) == {20.0, 30.0, 48.0}
    assert set(cases.offset_k[: found.apart]) == {-15.0, 0.0, 15.0}
    assert set(found.ea_kj[: found.apart]) == {80.0, 120.0, 170.0}
    assert cases.thickness is not None
    assert cases.thickness[: found.apart] == pytest.approx([1] * 5 + [0.9, 1.1] + [1] * 4)


def test_an_uncalibrated_oven_may_be_15_kelvin_out() -> None:
    spread = bounds(OVEN, LOAD)["oven temperature"]
    assert (spread.low, spread.high) == (-UNCALIBRATED_K, UNCALIBRATED_K) == (-15, 15)
    film = bounds(OVEN, LOAD)["surface coefficient"]
    assert (film.low, film.high) == (20, 48)
    wall = bounds(OVEN, LOAD)["wall"]
    assert (wall.low, wall.high) == pytest.approx((0.9, 1.1))
