"""How far round can be seen and read, against geometry drawn out in full."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.sight import HAND_MM, read_round_deg, read_window_mm, seen_round_deg


def test_a_far_eye_reads_a_third_of_the_girth() -> None:
    assert read_round_deg(235.0) == 60.0
    assert read_window_mm(235.0) == pytest.approx(235.0 / 3)
    assert seen_round_deg(235.0) == 90.0


def test_an_eye_at_a_distance_sees_to_the_tangent() -> None:
    # Right angle at the tangent point: cos = r / L.
    assert seen_round_deg(2 * math.pi * 40, 500.0) == pytest.approx(math.degrees(math.acos(0.08)))


@pytest.mark.parametrize("radius", [20.0, 37.4, 60.0])
def test_the_reading_limit_is_where_foreshortening_is_a_half(radius: float) -> None:
    # The surface's normal against the line to an eye at (L, 0), by plain vectors.
    angle = math.radians(read_round_deg(2 * math.pi * radius, HAND_MM))
    normal = np.array([math.cos(angle), math.sin(angle)])
    sight = np.array([HAND_MM, 0.0]) - radius * normal
    assert normal @ sight / np.linalg.norm(sight) == pytest.approx(0.5, abs=1e-12)
    assert 50.0 < math.degrees(angle) < 60.0
