"""The dose by a logger's readings, against closed forms and against the model that made them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.core.press.run.heats_told import load, oven

from wrapwright.core.press.heat.films import conductance
from wrapwright.core.press.heat.lumped import wall_constant_s
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.run.logged import Row, log_words, logged_track


def rows(times: list[float], *, air: list[float] | None = None, coating: list[float] | None = None) -> list[Row]:
    return [
        Row(one, None if air is None else air[at], None if coating is None else coating[at])
        for at, one in enumerate(times)
    ]


def test_a_sensor_under_the_wrap_tells_the_dose_itself() -> None:
    """At the reference temperature a minute counts as one, at 205 C as 1.9055 (Arrhenius, 120 kJ/mol, closed form)."""
    times = [float(one) for one in range(601)]
    steady = logged_track(oven(), load(), rows(times, coating=[195.0] * 601), 600.0)
    assert steady is not None
    assert steady.dose_at(600.0).mid == pytest.approx(10.0, rel=1e-9)
    hotter = logged_track(oven(), load(), rows(times, coating=[205.0] * 601), 600.0)
    assert hotter is not None
    assert hotter.dose_at(300.0).mid == pytest.approx(5.0 * 1.9055, rel=1e-4)
    assert hotter.dose_at(300.0).low < 5.0 * 1.9055 < hotter.dose_at(300.0).high


def test_a_sensor_in_the_air_drives_the_wall() -> None:
    """In steady air a thin wall follows the exponential of its time constant (lumped wall, closed form)."""
    times = [float(one) for one in range(0, 601, 2)]
    track = logged_track(oven(), load(), rows(times, air=[200.0] * len(times)), 600.0)
    assert track is not None
    tau = wall_constant_s(load().wall, float(conductance(oven().film.mid)))
    for when in (60.0, 120.0, 300.0):
        assert track.celsius_at(when)[1] == pytest.approx(200.0 - 175.0 * math.exp(-when / tau), abs=0.05)


def test_the_models_own_air_as_a_log_gives_the_models_dose() -> None:
    """Air as the whole model has it, written down by a logger every 5 s: the dose comes out within a tenth."""
    warmed = warm_up(oven(), load(4), until_s=420.0, step_s=5.0)
    air, wall = warmed.air_c[0].tolist(), warmed.coating_c[0].tolist()
    times = warmed.times_s.tolist()
    by_air = logged_track(oven(), load(4), rows(times, air=air), 420.0)
    by_wall = logged_track(oven(), load(4), rows(times, coating=wall), 420.0)
    assert by_air is not None
    assert by_wall is not None
    assert by_air.dose_at(420.0).mid == pytest.approx(by_wall.dose_at(420.0).mid, rel=0.1)


def test_what_was_read_before_the_door_closed_is_left_out() -> None:
    told = rows([-120.0, -60.0, 0.0, 60.0], coating=[195.0] * 4)
    track = logged_track(oven(), load(), told, 60.0)
    assert track is not None
    assert track.dose_at(60.0).mid == pytest.approx(1.0)
    assert logged_track(oven(), load(), rows([-120.0, -60.0], coating=[195.0] * 2), 60.0) is None


def test_the_last_reading_holds_and_doubtful_times_are_left_out() -> None:
    told = rows([0.0, 30.0, 20.0, 60.0, 60.0], coating=[195.0] * 5)
    track = logged_track(oven(), load(), told, 300.0)
    assert track is not None
    assert np.all(np.diff(track.times_s) > 0)
    assert track.dose_at(300.0).mid == pytest.approx(5.0)


def test_a_long_log_is_thinned_and_stays_right() -> None:
    times = [one * 0.1 for one in range(36_000)]
    track = logged_track(oven(), load(), rows(times, coating=[195.0] * len(times)), 3600.0)
    assert track is not None
    assert len(track.times_s) < 1300
    assert track.dose_at(3599.9).mid == pytest.approx(60.0, rel=1e-4)


def test_what_is_said_of_a_log() -> None:
    assert log_words(rows([0.0, 30.0], air=[195.0] * 2), 60.0) == ()
    assert "said nothing since the door" in log_words(rows([-9.0], air=[195.0]), 5.0)[0]
    late = log_words(rows([90.0, 100.0], air=[195.0] * 2), 300.0)
    assert "begins 1 min 30 s after" in late[0]
    assert "nothing for 3 min 20 s" in late[1]
