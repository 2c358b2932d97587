"""Coverage of pixels against areas known from geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.design.path import Path, Subpath, joined, line_points, polygon, rectangle
from wrapwright.outside.raster.edges import coverage, filled, stroked

PLAIN = np.eye(3)


def _whole(edges, size: int = 64) -> np.ndarray:
    return coverage(edges, (0, size), (0, size)).astype(float)


def test_a_box_on_sixteenths_is_exact() -> None:
    share = _whole(filled(rectangle(3.37, 5.25, 20.5, 9.75), PLAIN))
    assert share.sum() == pytest.approx((20.5 - 3.37) * 4.5, abs=4.5 / 4096)
    # Along x places are kept to 1/4096 of a pixel.
    assert share[5, 3] == pytest.approx(0.63 * 0.75, abs=1 / 4096)
    assert share[7, 10] == 1.0


def test_a_disc_has_its_area() -> None:
    k = 4 / 3 * math.tan(math.pi / 8) * 20
    points = [[52, 32], [52, 32 + k], [32 + k, 52], [32, 52], [32 - k, 52], [12, 32 + k], [12, 32], [12, 32 - k],
              [32 - k, 12], [32, 12], [32 + k, 12], [52, 32 - k], [52, 32]]  # fmt: skip
    share = _whole(filled(Path((Subpath(np.array(points, dtype=float)),)), PLAIN))
    assert share.sum() == pytest.approx(math.pi * 400, rel=1e-3)


def test_fill_rules() -> None:
    twice = joined([rectangle(10, 10, 50, 50), rectangle(20, 20, 40, 40)])
    assert _whole(filled(twice, PLAIN)).sum() == pytest.approx(1600)
    assert _whole(filled(twice, PLAIN, even_odd=True)).sum() == pytest.approx(1200)
    hole = joined([rectangle(10, 10, 50, 50), polygon([(20, 20), (20, 40), (40, 40), (40, 20)])])
    assert _whole(filled(hole, PLAIN)).sum() == pytest.approx(1200)


def test_a_line_with_round_caps_has_its_area() -> None:
    path = Path((Subpath(line_points(np.array([[20.0, 30.0], [45.0, 30.0]])), closed=False),))
    assert _whole(stroked(path, PLAIN, 8.0)).sum() == pytest.approx(25 * 8 + math.pi * 16, rel=2e-3)


def test_a_thin_line_keeps_its_width() -> None:
    path = Path((Subpath(line_points(np.array([[10.0, 8.2], [50.0, 55.0]])), closed=False),))
    length = math.hypot(40, 46.8)
    assert _whole(stroked(path, PLAIN, 0.2)).sum() == pytest.approx(length * 0.2, rel=0.02)


def test_parts_are_parts_of_the_whole() -> None:
    star = filled(polygon([(32 + 30 * math.sin(4 * math.pi * k / 5), 32 - 30 * math.cos(4 * math.pi * k / 5)) for k in range(5)]), PLAIN)  # fmt: skip  # noqa: E501
    whole = coverage(star, (0, 64), (0, 64))
    part = coverage(star, (17, 40), (9, 50))
    assert np.abs(part - whole[17:40, 9:50]).max() < 1e-5


def test_nothing_covers_nothing() -> None:
    assert not _whole(filled(Path(), PLAIN)).any()
    assert not _whole(filled(rectangle(100, 100, 120, 120), PLAIN)).any()
