"""What of a log is a heat-up, and the refusals."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from tests.core.press.fit.synthetic import heat_up, series

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.fit.values import Asked, Series
from wrapwright.core.press.fit.window import MOST
from wrapwright.core.press.fit.window import heat_up as window_of

NOTHING = Asked()


def refusal(log: Series, asked: Asked = NOTHING) -> str:
    with pytest.raises(WrapwrightError) as caught:
        window_of(log, asked)
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.remedy
    return caught.value.message


def test_rest_before_and_fall_after_are_left_out() -> None:
    times, air, wall = heat_up(80.0, 60.0, 205.0, air_start=190.0, seconds=600)
    rest = np.full(120, 25.0) + np.random.default_rng(1).normal(0.0, 0.3, 120)
    fall = wall[-1] - np.arange(1.0, 121.0)
    whole = np.concatenate([rest, wall, fall])
    found = window_of(series(np.arange(len(whole)), np.full(len(whole), 205.0) + 0.1 * whole % 1, whole), NOTHING)
    assert 115.0 <= found.from_s <= 130.0
    assert found.from_s + found.times_s[-1] == pytest.approx(720.0, abs=6.0)
    assert any("before the heat-up" in one for one in found.words)
    assert any("after it was taken out" in one for one in found.words)
    alone = window_of(series(times, air, wall), NOTHING)
    assert (alone.from_s, len(alone.times_s), alone.words) == (0.0, 600, ())


def test_a_cycling_oven_may_be_cooler_than_a_hot_wall() -> None:
    times, _, wall = heat_up(80.0, 60.0, 205.0, air_start=205.0, seconds=1500)
    assert len(window_of(series(times, 205.0 + 9.0 * np.sin(times / 20.0), wall), NOTHING).times_s) == 1500


def test_a_part_may_be_asked_for() -> None:
    times, _, wall = heat_up(80.0, 60.0, 205.0, air_start=205.0, seconds=600)
    found = window_of(series(times, (), wall), Asked(from_s=10.0, to_s=400.0))
    assert (found.from_s, found.times_s[-1]) == (10.0, 390.0)
    assert "before it begins" in refusal(series(times, (), wall), Asked(from_s=50.0, to_s=20.0))


def test_missing_readings_gaps_and_many_rows() -> None:
    times, _, wall = heat_up(800.0, 60.0, 205.0, air_start=205.0, seconds=9000)
    wall[5] = math.nan
    kept = np.delete(np.arange(9000), np.arange(100, 200))
    found = window_of(series(times[kept], (), wall[kept]), NOTHING)
    assert len(found.times_s) <= MOST
    assert any("1 of 8900 rows lack a reading" in one for one in found.words)
    assert any("gap of up to 101 s" in one for one in found.words)


def test_a_wild_reading_does_no_harm() -> None:
    times, air, wall = heat_up(80.0, 60.0, 205.0, air_start=205.0, seconds=600)
    wall[200] = 399.0
    found = window_of(series(times, air, wall), NOTHING)
    assert (len(found.times_s), found.words) == (599, ("Left out: 1 reading far off all others round it.",))


def test_nonsense_is_refused_with_its_reason() -> None:
    times, air, wall = heat_up(80.0, 60.0, 205.0, air_start=190.0, seconds=600)
    assert "no column" in refusal(series(times))
    assert "12 rows" in refusal(series(times[:12], air[:12], wall[:12]))
    assert "rises by 0 °C (0 °F)" in refusal(series(times, (), 25.0 - times / 100.0))
    assert "no heat-up" in refusal(series(times, (), 25.0 + times / 60.0))
    cold = heat_up(80.0, 60.0, 205.0, seconds=600)
    assert "hotter than the air" in refusal(series(times, cold[2], cold[1]))
    with pytest.raises(WrapwrightError, match="the other way round"):
        window_of(series(times, wall, air), NOTHING)
    broken = wall.copy()
    broken[300:] = 1372.0
    assert "reads 1372 °C (2502 °F)" in refusal(series(times, air, broken))


def stuck(wall: Any, begin: int, end: int) -> Any:
    made = wall.copy()
    made[begin:end] = made[begin]
    return made


def test_a_stuck_sensor_is_refused() -> None:
    times, air, wall = heat_up(80.0, 60.0, 205.0, air_start=190.0, seconds=600)
    assert "stuck or not connected" in refusal(series(times, air, np.full(600, 25.0)))
    assert "it is stuck" in refusal(series(times, air, stuck(wall, 40, 150)))
    slow = heat_up(80.0, 60.0, 205.0, seconds=600)
    assert "it is stuck" in refusal(series(times, slow[1], stuck(wall, 40, 600)))
    waits = np.concatenate([np.full(90, 25.0), wall[:510]])  # outside, while the oven heats up
    assert len(window_of(series(times, slow[1] + 20.0, waits), NOTHING).times_s) == pytest.approx(510, abs=10)
    coarse = np.round(wall / 5.0) * 5.0  # a level that is read in steps of five stands still, and is none
    assert len(window_of(series(times, air, coarse), NOTHING).times_s) == 600
