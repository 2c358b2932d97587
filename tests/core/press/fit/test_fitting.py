"""What is found in logs made from known figures: figures, intervals, and what a log cannot tell."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import binom
from tests.core.press.fit.synthetic import ROOM, STEEL, heat_up, series

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.fit.curves import held, wall_in_held, wall_in_measured
from wrapwright.core.press.fit.film import film_of
from wrapwright.core.press.fit.fitting import fit_log, found_in
from wrapwright.core.press.fit.values import Asked, Fitted, Reference, Series
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.values import Load, Wall

ASKED = Asked(set_c=200.0, wall=STEEL)
OVEN = replace(starter_heater("oven"), radiant=0.0)


def names(found: Fitted) -> tuple[set[str], set[str]]:
    return {one.name for one in found.estimates}, {one.name for one in found.untold}


def test_intervals_cover_as_often_as_they_say() -> None:
    random = np.random.default_rng(11)
    logs, hits = 40, dict.fromkeys(("wall-time-constant", "film", "oven-time-constant", "offset"), 0)
    for number in range(logs):
        tau, oven, offset = random.uniform(60.0, 320.0), random.uniform(60.0, 400.0), random.uniform(-15.0, 15.0)
        start = ROOM if number % 2 else 160.0
        log = series(*heat_up(tau, oven, 200.0 + offset, air_start=start, seed=number))
        found = fit_log(log, ASKED)
        true = {
            "wall-time-constant": tau,
            "film": film_of(tau, STEEL),
            "oven-time-constant": oven,
            "offset": offset,
        }
        for name, value in true.items():
            told = found.told(name)  # type: ignore[arg-type]
            assert told is not None
            hits[name] += told.low <= value <= told.high
    # Of intervals that hold 95 % there are fewer only in one of two hundred runs.
    assert min(hits.values()) >= binom.ppf(0.005, logs, 0.95)
    # And they are no wider than needed: a quarter of a kelvin, half a per cent.
    assert found.told("offset").half < 0.25  # type: ignore[union-attr]
    assert found.told("wall-time-constant").half < 0.005 * tau  # type: ignore[union-attr]


def test_the_figures_are_those_of_another_fit() -> None:
    times, _, wall = heat_up(120.0, 60.0, 206.0, air_start=206.0, seconds=700, seed=3)
    found = fit_log(series(times, (), wall), ASKED)

    def curve(t: object, level: float, start: float, tau: float) -> object:
        return level + (start - level) * np.exp(-np.asarray(t) / tau)

    theirs, spread = curve_fit(curve, times, wall, [200.0, 30.0, 100.0])
    tau, level = found.told("wall-time-constant"), found.told("level")
    assert tau is not None
    assert level is not None
    assert (tau.value, level.value) == (pytest.approx(theirs[2], rel=1e-5), pytest.approx(theirs[0], rel=1e-6))
    assert tau.half == pytest.approx(1.963 * np.sqrt(spread[2, 2]), rel=0.05)
    assert found.form == "steady-air"
    assert any("air was not logged" in one for one in found.words)


@pytest.mark.parametrize("switching", [False, True])
@pytest.mark.parametrize("preheated", [False, True])
def test_the_film_of_our_own_warm_up_comes_back(switching: bool, preheated: bool) -> None:
    heater = replace(starter_heater("oven"), offset_k=6.0)
    paper = (cover_named("paper"),)
    ran = warm_up(heater, Load(STEEL, 1, paper, 200.0, preheated=preheated), until_s=1500.0, switching=switching)
    noise = np.random.default_rng(8).normal(0.0, 0.5, (2, len(ran.times_s)))
    log = series(ran.times_s, ran.air_c[0] + noise[0], ran.wall_c[0] + noise[1])
    found = fit_log(log, replace(ASKED, covers=paper, heater=heater))
    film = found.told("film")
    assert film is not None
    assert film.value == pytest.approx(heater.film.mid, rel=0.01)
    oven = found.told("oven-time-constant")
    assert (oven is None) == preheated
    if oven is not None:  # the blank's own heat is in it too
        whole = heater.own_j_k + 0.043 * 2000.0
        assert oven.value == pytest.approx(whole / heater.loss_w_k, rel=0.03)


def test_a_thick_wall_comes_back_too() -> None:
    heater = replace(starter_heater("oven"), radiant=0.0)
    mug = Wall(material_named("ceramic"), 4.0, 0.03)
    heater = replace(heater, film=replace(heater.film, mid=45.0))
    ran = warm_up(heater, Load(mug, 1, (), 200.0), until_s=2400.0)
    assert ran.one_dimensional
    found = fit_log(series(ran.times_s, ran.air_c[0], ran.wall_c[0]), Asked(set_c=200.0, wall=mug, heater=heater))
    assert found.told("film").value == pytest.approx(45.0, rel=0.03)  # type: ignore[union-attr]


def test_an_empty_oven_tells_what_it_takes_up_itself() -> None:
    heater = starter_heater("oven")
    nothing = replace(STEEL, area_m2=1e-6)
    ran = warm_up(heater, Load(nothing, 1, (), 200.0, preheated=False), until_s=1500.0)
    noise = np.random.default_rng(9).normal(0.0, 0.5, len(ran.times_s))
    asked = Asked(set_c=200.0, heater=heater)
    found = fit_log(series(ran.times_s, ran.air_c[0] + noise), asked)
    assert found.form == "full-power"
    assert found_in(found, asked).own_j_k == pytest.approx(heater.own_j_k, rel=0.02)


@pytest.mark.parametrize("until_s", [240.0, 400.0])
def test_an_oven_that_is_not_hot_yet_tells_no_offset(until_s: float) -> None:
    heater = starter_heater("oven")
    ran = warm_up(heater, Load(STEEL, 1, (), 200.0, preheated=False), until_s=until_s)
    noise = np.random.default_rng(14).normal(0.0, 0.5, len(ran.times_s))
    found = fit_log(series(ran.times_s, ran.air_c[0] + noise), Asked(set_c=200.0, heater=heater))
    assert names(found) == ({"oven-time-constant"}, {"level", "offset"})
    whole = heater.own_j_k + 0.043 * 2000.0
    assert found.told("oven-time-constant").value == pytest.approx(whole / heater.loss_w_k, rel=0.1)  # type: ignore[union-attr]
    assert "still changes" in found.untold[0].why or "too far below" in found.untold[0].why


def test_another_setting_is_no_offset() -> None:
    found = fit_log(series(*heat_up(80.0, 120.0, 205.0)), Asked(set_c=130.0))
    assert any("75 °C (135 °F) from the 130 °C (266 °F) set" in one.why for one in found.untold)


def test_an_oven_that_cycles_is_taken_as_measured() -> None:
    times = np.arange(0.0, 900.0)
    air = 205.0 + 6.0 * np.sin(times / 20.0)
    random = np.random.default_rng(10)
    wall = wall_in_measured(times, air, ROOM, 100.0) + random.normal(0.0, 0.5, 900)
    found = fit_log(series(times, air + random.normal(0.0, 0.5, 900), wall), ASKED)
    assert found.form == "measured-air"
    tau, offset = found.told("wall-time-constant"), found.told("offset")
    assert tau is not None
    assert offset is not None
    assert tau.low <= 100.0 <= tau.high
    assert offset.low <= 5.0 <= offset.high
    assert offset.half > 0.2  # hundreds of rows that hang together are not hundreds of rows
    assert "oven-time-constant" in names(found)[1]


def test_two_sensors_that_differ_do_not_bend_the_time_constant() -> None:
    times, air, wall = heat_up(100.0, 60.0, 205.0, seconds=900, seed=4)
    found = fit_log(series(times, air, wall - 3.0), ASKED)
    tau = found.told("wall-time-constant")
    assert tau is not None
    assert tau.value == pytest.approx(100.0, rel=0.01)
    assert any(re.search(r"settles (2.9|3|3.1) °C \(\S+ °F\) below", one) for one in found.words)


def test_what_a_log_cannot_tell_is_named() -> None:
    times, _, wall = heat_up(80.0, 250.0, 205.0, seconds=1800)
    found = fit_log(series(times, (), wall), ASKED)  # whose is whose?
    assert names(found) == ({"level", "offset"}, {"wall-time-constant", "film", "oven-time-constant"})
    assert "two time constants" in found.untold[0].why
    short = heat_up(300.0, 60.0, 205.0, air_start=205.0, seconds=60)
    found = fit_log(series(*short), Asked())
    assert names(found) == ({"wall-time-constant", "level"}, {"film", "oven-time-constant", "offset"})
    with pytest.raises(WrapwrightError, match="does not bend enough"):
        fit_log(series(short[0], (), short[2]), Asked())


def test_a_wall_that_follows_no_heat_up_is_refused() -> None:
    random = np.random.default_rng(13).uniform(20.0, 200.0, 600)
    with pytest.raises(WrapwrightError, match="nothing can be fitted"):
        fit_log(series(np.arange(600.0), np.full(600, 205.0) + random / 100.0, random), ASKED)


def test_without_a_wall_or_a_setting_there_is_no_film_and_no_offset() -> None:
    found = fit_log(series(*heat_up(80.0, 120.0, 205.0)), Asked())
    assert names(found)[1] == {"film", "offset"}
    wrong = replace(STEEL, material=material_named("ceramic"), thickness_mm=12.0)
    found = fit_log(series(*heat_up(30.0, 120.0, 205.0)), Asked(wall=wrong))
    assert any("not the one logged" in one.why for one in found.untold)


def test_a_film_that_no_oven_has_is_not_told() -> None:
    """Half an inch of steel typed for half a millimetre: the log's 85 s would want 700 W/m2K."""
    thick = replace(STEEL, thickness_mm=12.7)
    log = series(*heat_up(85.0, 120.0, 205.0))
    found = fit_log(log, replace(ASKED, wall=thick, heater=OVEN))
    assert any("ovens have 20 to 48 W/m²K" in one.why for one in found.untold if one.name == "film")
    assert fit_log(log, replace(ASKED, heater=OVEN)).told("film") is not None


def test_sensor_and_oven_are_told_apart_by_a_reference_alone() -> None:
    log = series(*heat_up(80.0, 120.0, 205.0))
    plain, known = ASKED, replace(ASKED, reference=Reference(100.0, 98.0, 0.5))
    together, apart = fit_log(log, plain), fit_log(log, known)
    assert together.told("offset").value == pytest.approx(5.0, abs=0.1)  # type: ignore[union-attr]
    assert apart.told("offset").value == pytest.approx(7.0, abs=0.1)  # type: ignore[union-attr]
    assert (together.sensor_k, apart.sensor_k) == (None, (-2.0, 0.5))
    assert found_in(together, plain).offset_half_k == pytest.approx(2.5, abs=0.05)
    assert found_in(apart, known).offset_half_k == pytest.approx(0.5, abs=0.05)
    assert any("cannot be told apart" in one for one in together.words)


def test_equal_logs_give_equal_figures() -> None:
    log: Series = series(*heat_up(80.0, 120.0, 205.0))
    assert fit_log(log, ASKED) == fit_log(log, ASKED)


def test_an_oven_at_full_power_from_cold_is_found_within_its_interval() -> None:
    random, hits, logs = np.random.default_rng(4), 0, 16
    for number in range(logs):
        # The room is not told: it is read off the log, also where the wall's first minute hides the oven's start.
        room, tau, oven = random.uniform(17.0, 28.0), random.uniform(60.0, 200.0), random.uniform(400.0, 1200.0)
        rise, level = (room + OVEN.power_w / OVEN.loss_w_k, room, oven), 200.0 + random.uniform(-14.0, 14.0)
        times = np.arange(0.0, 1500.0)
        air, wall = held(times, rise, level), wall_in_held(times, rise, level, room, tau)
        air, wall = (one + random.normal(0.0, 0.5, len(times)) for one in (air, wall))
        found = fit_log(series(times, air, wall if number % 4 else ()), replace(ASKED, heater=OVEN))
        told = found.told("oven-time-constant")
        assert found.form == "full-power"
        assert told is not None
        assert told.half < 0.03 * oven
        hits += told.low <= oven <= told.high
    assert hits >= binom.ppf(0.005, logs, 0.95)
