"""Columns that reach into each other: their distances against the closed forms for sectors of a ring."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.core.sheet.nest.shapes import circle, outline, sector

from wrapwright.core.sheet.lay.values import Part, Shape
from wrapwright.core.sheet.nest.alike.columns import beside, fronts, pitch_mm
from wrapwright.core.sheet.nest.outlines import RING_OFF_MM, Lying, lyings

SECTORS = [(700.0, 910.0, 7.5), (300.0, 430.0, 20.0), (150.0, 250.0, 35.0), (120.0, 220.0, 60.0)]
OFF_MM = 4 * RING_OFF_MM  # both rooms are grown by it and meet at a slant

# Copies per area of the densest infinite patterns, no gutter: stacked columns, best of one turn, alternating columns.
# Found once by a search on fine polygons of these sectors (inner and outer radius in mm, half angle).
DENSITIES = {
    (721.9, 886.9, 8.73): (0.902, 0.947, 0.993),
    (321.4, 471.4, 16.8): (0.828, 0.906, 0.979),
    (150.0, 250.0, 35.0): (0.762, 0.882, 0.935),
    (120.0, 220.0, 60.0): (0.698, 0.828, 0.855),
}


def both(shape: Shape, gutter: float) -> tuple[Lying, Lying]:
    found = {one.turn: one for one in lyings(Part(shape), gutter)}
    return found[0], found[180]


def stacked(inner: float, outer: float, half: float, gap: float) -> float:
    """Closed form: the inner corner of the upper one meets the lower one's outer arc grown by the gutter."""
    return math.sqrt((outer + gap) ** 2 - (inner * math.sin(half)) ** 2) - inner * math.cos(half)


@pytest.mark.parametrize("radii", SECTORS)
@pytest.mark.parametrize("gap", [0.0, 3.0])
def test_a_stack_of_sectors_has_the_pitch_of_the_closed_form(radii: tuple[float, float, float], gap: float) -> None:
    inner, outer, half = radii
    upright, turned = both(sector(*radii), gap)
    wanted = stacked(inner, outer, math.radians(half), gap)
    assert pitch_mm(upright) == pytest.approx(pitch_mm(turned))
    assert wanted <= pitch_mm(upright) <= wanted + OFF_MM


def test_the_closed_form_gives_the_figures_it_is_known_to_give() -> None:
    """Distances found with shapely by bisection for sectors without a gutter: 211.390, 135.671, 111.856, 133.906."""
    found = [stacked(inner, outer, math.radians(half), 0.0) for inner, outer, half in SECTORS]
    assert found == pytest.approx([211.390, 135.671, 111.856, 133.907], abs=0.001)


@pytest.mark.parametrize("radii", SECTORS[:2])
@pytest.mark.parametrize(("gap", "up"), [(0.0, 0.0), (3.0, 0.0), (3.0, 10.0)])
def test_a_neighbour_turned_round_stands_as_near_as_the_closed_form_says(
    radii: tuple[float, float, float], gap: float, up: float
) -> None:
    """The straight ends are parallel: between the axes (r cos a + R + t) tan a + g / cos a, boxes level at t = 0."""
    inner, outer, half = radii[0], radii[1], math.radians(radii[2])
    upright, turned = both(sector(*radii), gap)
    wanted = (inner * math.cos(half) + outer + up) * math.tan(half) + gap / math.cos(half)
    found = float(beside(upright, turned, np.array([up]))[0])
    assert wanted <= found <= wanted + OFF_MM


def densities(radii: tuple[float, float, float]) -> tuple[float, float, float]:
    inner, outer, half = radii
    upright, turned = both(sector(*radii), 0.0)
    area, pitch = math.radians(half) * (outer**2 - inner**2), pitch_mm(upright)

    def apart(one: Lying, other: Lying, shift: float) -> float:
        return float(beside(one, other, np.arange(-4, 5) * pitch + shift).max())

    phases = np.linspace(0.0, pitch, 49)
    plain = apart(upright, upright, 0.0)
    same = min(apart(upright, upright, phase) for phase in phases)
    other = min(apart(upright, turned, phase) + apart(turned, upright, -phase) for phase in phases) / 2.0
    return area / (pitch * plain), area / (pitch * same), area / (pitch * other)


@pytest.mark.parametrize("radii", DENSITIES)
def test_endless_columns_are_as_dense_as_the_best_known_lattices(radii: tuple[float, float, float]) -> None:
    assert all(found >= known - 0.0015 for found, known in zip(densities(radii), DENSITIES[radii], strict=True)), (
        densities(radii)
    )


def test_circles_stand_in_each_others_gaps() -> None:
    """Six columns of circles 10 across in a height of 25 take 10 + 5 sqrt(75) mm, two and two a column."""
    rows = fronts(lyings(Part(circle(10.0)), 0.0), (10.0 + 5 * math.sqrt(75.0) + 1e-6, 25.0), most=100)
    assert rows[-1].count == 12
    assert rows[-1].width_mm == pytest.approx(10.0 + 5 * math.sqrt(75.0))


def test_triangles_of_both_turns_make_a_band() -> None:
    triangle = outline((0.0, 0.0), (40.0, 0.0), (20.0, 30.0))
    rows = fronts(both(triangle, 0.0), (101.0, 30.5), most=100)
    assert rows[-1].count == 4  # 40 + 3 x 20 mm; side by side only 2
    assert {spot.turn_deg for spot in rows[-1].spots} == {0, 180}


def test_what_is_too_large_stands_nowhere() -> None:
    assert fronts(lyings(Part(circle(10.0)), 0.0), (9.0, 100.0), most=9) == []
    assert fronts(lyings(Part(circle(10.0)), 0.0), (100.0, 9.0), most=9) == []
