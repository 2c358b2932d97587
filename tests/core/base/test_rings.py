"""Outlines: their figures, and the sentence for each that nothing can be cut to."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.base.rings import (
    MOST_POINTS,
    anticlockwise,
    at_origin,
    outline_problem,
    ring_area,
    ring_box,
    turned,
)

SQUARE = ((10.0, 20.0), (40.0, 20.0), (40.0, 50.0), (10.0, 50.0))
BOW = ((0.0, 0.0), (40.0, 40.0), (40.0, 0.0), (0.0, 40.0))


def regular(count: int, radius: float) -> tuple[tuple[float, float], ...]:
    steps = [2.0 * math.pi * index / count for index in range(count)]
    return tuple((radius * math.cos(step), radius * math.sin(step)) for step in steps)


def test_a_square_has_its_box_and_area() -> None:
    assert ring_box(SQUARE) == (10.0, 20.0, 40.0, 50.0)
    assert ring_area(SQUARE) == 900.0
    assert ring_area(SQUARE[::-1]) == -900.0


def test_a_regular_polygon_has_the_area_of_its_formula_far_from_the_origin_too() -> None:
    """n/2 r^2 sin(2 pi / n)."""
    far = tuple((x + 1e7, y - 1e7) for x, y in regular(7, 30.0))
    assert ring_area(far) == pytest.approx(7 / 2 * 900.0 * math.sin(2 * math.pi / 7), rel=1e-7)


def test_an_outline_is_made_to_run_anticlockwise_and_loses_repeated_points() -> None:
    assert ring_area(anticlockwise(SQUARE[::-1])) == 900.0
    assert anticlockwise((*SQUARE[:2], SQUARE[1], *SQUARE[2:], SQUARE[0])) == (*SQUARE[1:], SQUARE[0])


def test_a_quarter_turn_is_exact_and_keeps_the_size() -> None:
    assert turned(((3.0, 1.0),), 90) == ((-1.0, 3.0),)
    assert turned(((3.0, 1.0),), -180) == ((-3.0, -1.0),)
    assert ring_box(at_origin(turned(SQUARE, 45.0)))[2:] == pytest.approx((30 * math.sqrt(2), 30 * math.sqrt(2)))


@pytest.mark.parametrize("ring", [SQUARE, SQUARE[::-1], regular(100, 40.0), ((0, 0), (60, 0), (10, 10), (0, 60))])
def test_a_sound_outline_has_no_problem(ring: tuple[tuple[float, float], ...]) -> None:
    assert outline_problem(ring) == ""


@pytest.mark.parametrize(
    ("ring", "said"),
    [
        ((), "0 different points and needs at least 3"),
        (((0, 0), (9, 9), (0, 0)), "2 different points"),
        (((0, 0), (9, math.nan), (9, 9)), "no number"),
        (((0, 0), (math.inf, 9), (9, 9)), "no number"),
        (((0, 0), (30, 0), (60, 0)), "60 x 0 mm and too small to cut: each side needs at least 5 mm"),
        (((0, 0), (30, 0), (30, 4), (0, 4)), "30 x 4 mm and too small"),
        (((0, 0), (30, 30), (60, 60)), "crosses or touches itself"),
        (((0, 0), (30, 30), (30.01, 30)), "holds 0.15 mm2"),
        (((0, 0), (5100, 0), (50, 50)), "5100 x 50 mm and too large: no side may pass 5000 mm"),
        (BOW, "crosses or touches itself at 20.0, 20.0 mm"),
        (((0, 0), (40, 0), (40, 40), (20, 0), (0, 40)), "touches itself at 20.0, 0.0 mm"),
        (regular(MOST_POINTS + 1, 100.0), "20001 points and may have 20000"),
    ],
)
def test_what_cannot_be_cut_is_said_with_its_figure(ring: tuple[tuple[float, float], ...], said: str) -> None:
    assert said in outline_problem(ring)


def test_limits_can_be_given() -> None:
    assert outline_problem(SQUARE, least_mm=31.0).endswith("at least 31 mm.")
    assert "no side may pass 29 mm" in outline_problem(SQUARE, most_mm=29.0)
