"""Heater and load together: against closed forms, an independent integrator, and the conservation of energy."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from wrapwright.core.press.heat.films import cover_resistance
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater, starter_heaters
from wrapwright.core.press.heat.lumped import lumped_c
from wrapwright.core.press.heat.slab import by_series, mean_by_series
from wrapwright.core.press.heat.warming import Cases, warm_up
from wrapwright.core.press.values import Heater, Load, Opening, Range, Wall

PAPER = cover_named("paper")
STEEL = Wall(material_named("steel"), 0.5, 0.045)
CERAMIC = Wall(material_named("ceramic"), 4.0, 0.024)
# So much heat of its own, and as little loss, that its air stays as it is.
STEADY = Heater("oven", "steady", 1.0, 0.0, 1e12, 0.0, 0.0, Range(25.0, 25.0, 25.0))


def _heated(wall: Wall, **more: object) -> Load:
    return replace(Load(wall, 1, (), 200.0, door_s=0.0), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "thickness", "constant"), [("steel", 0.5, 80.0), ("aluminium", 1.0, 97.52), ("glass", 3.0, 225.0)]
)
def test_a_thin_wall_in_steady_air_follows_the_closed_form(name: str, thickness: float, constant: float) -> None:
    # Density x c x thickness / h at h 25; 180 degC after 2.16905, 195 after 3.55535 time constants.
    wall = Wall(material_named(name), thickness, 0.03)
    warming = warm_up(STEADY, _heated(wall), until_s=900)
    assert not warming.one_dimensional
    exact = lumped_c(warming.times_s, 25, 200, constant)
    assert np.abs(warming.coating_c[0] - exact).max() < 0.01
    assert np.interp(2.16905 * constant, warming.times_s, warming.wall_c[0]) == pytest.approx(180, abs=0.02)
    assert np.interp(3.55535 * constant, warming.times_s, warming.wall_c[0]) == pytest.approx(195, abs=0.02)


@pytest.mark.parametrize("film", [48.0, 250.0, 500.0])
def test_a_thick_wall_in_steady_air_follows_the_series(film: float) -> None:
    heater = replace(STEADY, film=Range(film, film, film))
    warming = warm_up(heater, _heated(CERAMIC), until_s=300)
    assert warming.one_dimensional
    fourier = 1.3 / (2300 * 840) * warming.times_s[2:] / 0.004**2
    left = (200 - warming.coating_c[0, 2:]) / 175
    exact = by_series(film * 0.004 / 1.3, fourier, 1.0)
    assert np.abs(left - exact)[fourier >= 0.1].max() < 1e-3
    assert np.abs(left - exact).max() < 2e-3
    mean = (200 - warming.wall_c[0, 2:]) / 175
    assert np.abs(mean - mean_by_series(film * 0.004 / 1.3, fourier)).max() < 1e-3


def test_paper_slows_it_as_resistances_in_series() -> None:
    warming = warm_up(STEADY, _heated(STEEL, covers=(PAPER,)), until_s=300)
    passes = 1 / (1 / 25 + float(cover_resistance([PAPER])))
    assert np.abs(warming.coating_c[0] - lumped_c(warming.times_s, 25, 200, 2000 / passes)).max() < 0.01


@pytest.mark.parametrize("film", [22.0, 30.0, 44.0])
@pytest.mark.parametrize(("wall", "near"), [(STEEL, 0.005), (CERAMIC, 0.02)])
def test_a_time_constant_fitted_to_a_heat_up_gives_the_film(wall: Wall, near: float, film: float) -> None:
    # Radiation is weak while the wall is cold and strong when it is hot; what a log of the whole tells is the film.
    oven = replace(STEADY, film=Range(film, film, film), radiant=0.775)
    held = wall.material.density.mid * wall.material.specific_heat.mid * wall.thickness_mm / 1000
    warming = warm_up(oven, _heated(wall), until_s=5 * held / 30)

    def exponential(times: np.ndarray, constant: float) -> np.ndarray:
        return 200 - 175 * np.exp(-times / constant)

    (constant,), _ = curve_fit(exponential, warming.times_s, warming.coating_c[0], p0=[held / 30])
    assert held / constant == pytest.approx(film, rel=near)


def test_the_outer_shell_alone_is_heated_and_its_back_does_not_count() -> None:
    single, double = STEEL, replace(STEEL, double=True)
    open_back = Cases(back=np.array([25.0]))
    shell = warm_up(STEADY, _heated(double), until_s=200, cases=open_back)
    assert np.array_equal(shell.coating_c, warm_up(STEADY, _heated(single), until_s=200).coating_c)
    # As much film behind as before: a single wall is twice as quick.
    both = warm_up(STEADY, _heated(single), until_s=200, cases=open_back)
    assert np.abs(both.coating_c[0] - lumped_c(both.times_s, 25, 200, 40.0)).max() < 0.01


def test_in_a_press_the_back_loses_to_the_room() -> None:
    press = replace(STEADY, kind="mug-press", film=Range(250.0, 250.0, 250.0))
    warming = warm_up(press, _heated(CERAMIC), until_s=900, cases=Cases(back=np.array([0.0, 10.0])))
    # In the end what comes through film and wall leaves behind: a divider of three resistances.
    face = 200 - 175 * (1 / 250) / (1 / 250 + 0.004 / 1.3 + 1 / 10)
    assert warming.coating_c[:, -1] == pytest.approx([200.0, face], abs=0.05)
    assert warming.lost_j[0] == pytest.approx(0.0, abs=1e-6)
    assert warming.lost_j[1] > 0


OVEN = replace(starter_heater("oven"), radiant=0.0)


@pytest.mark.parametrize("kind", ["oven", "mug-press", "flat-press"])
@pytest.mark.parametrize("wall", [STEEL, CERAMIC, replace(CERAMIC, other_j_k=120.0)])
@pytest.mark.parametrize("switching", [False, True])
def test_no_joule_is_lost_or_made(kind: str, wall: Wall, switching: bool) -> None:
    heater = next(one for one in starter_heaters() if one.kind == kind)
    load = Load(wall, 4, (PAPER,), 200.0, preheated=False, openings=(Opening(200, 20),))
    cases = Cases(film=np.array([heater.film.low, heater.film.mid, heater.film.high]), back=np.array([0.0, 5.0, 10.0]))
    warming = warm_up(heater, load, until_s=900, cases=cases, switching=switching)
    gap = np.abs(warming.heater_j - warming.lost_j - warming.stored_j) / warming.heater_j
    assert gap.max() < 1e-9  # what is asked for is 1e-3
    # What was stored is also what the temperatures say.
    held = heater.own_j_k * (warming.air_c[:, -1] - warming.air_c[:, 0])
    whole = wall.material.density.mid * wall.material.specific_heat.mid * wall.thickness_mm / 1000 * wall.area_m2
    held += 4 * (whole + wall.other_j_k) * (warming.wall_c[:, -1] - 25)
    assert warming.stored_j == pytest.approx(held, rel=1e-9)
    assert (warming.heater_j <= heater.power_w * 900 * (1 + 1e-12)).all()


def test_an_empty_oven_that_is_always_on_follows_the_closed_form() -> None:
    # Nothing in it to speak of, cold: room + P/loss (1 - exp(-t loss/own)) until the thermostat's band.
    oven = replace(OVEN, band_k=2.0)
    warming = warm_up(oven, _heated(replace(STEEL, area_m2=1e-9), preheated=False), until_s=300, switching=True)
    exact = 25 + 1500 / 3.5 * (1 - np.exp(-warming.times_s * 3.5 / 3500))
    assert exact[-1] < 199
    assert np.abs(warming.air_c[0] - exact).max() < 1e-3


def test_the_thermostat_keeps_its_band() -> None:
    load = _heated(replace(STEEL, area_m2=1e-6), preheated=False)
    switched = warm_up(OVEN, load, until_s=3600, switching=True).air_c[0, 1500:]
    swing = 1500 / 3500  # what one second more adds at most
    assert 195 - 1 <= switched.min() <= 196
    assert 204 <= switched.max() <= 205 + swing + 0.1
    steady = warm_up(OVEN, load, until_s=3600).air_c[0, 1500:]
    assert steady.max() - steady.min() < 0.2
    assert switched.mean() == pytest.approx(steady.mean(), abs=1.5)


def test_the_open_door_cools_and_a_press_has_none() -> None:
    opened = Load(STEEL, 1, (), 200.0, openings=(Opening(100, 20),))
    shut = replace(opened, openings=())
    for kind in ("oven", "mug-press"):
        heater = starter_heater(kind)  # type: ignore[arg-type]
        difference = warm_up(heater, opened, until_s=300).air_c - warm_up(heater, shut, until_s=300).air_c
        assert (difference.min() < -5) == (kind == "oven")
        assert np.abs(difference[0, :100]).max() == 0.0


def test_a_door_open_a_little_longer_costs_a_little_more() -> None:
    # The step is two seconds; what is between two of them counts by its share.
    ends = []
    for seconds in (10.0, 10.5, 11.0, 11.5, 12.0):
        opened = Load(STEEL, 1, (), 200.0, door_s=seconds, openings=(Opening(60.3, seconds),))
        ends.append(float(warm_up(OVEN, opened, until_s=120, step_s=2.0).coating_c[0, -1]))
    falls = -np.diff(ends)
    assert (falls > 0).all()
    assert falls == pytest.approx(np.full(4, falls.mean()), rel=0.15)


def test_an_offset_is_what_the_oven_really_does() -> None:
    load = Load(STEEL, 1, (), 200.0)
    cases = Cases(offset_k=np.array([-15.0, 0.0, 15.0]))
    ends = warm_up(OVEN, load, until_s=1800, cases=cases).air_c[:, -1]
    assert ends == pytest.approx([185 + 1, 200 + 1, 215 + 1], abs=0.6)  # the band's share that a warm oven is on


def test_steps_and_moments() -> None:
    warming = warm_up(OVEN, Load(STEEL), until_s=61.5, step_s=10.0)
    assert warming.times_s == pytest.approx(np.linspace(0, 61.5, 8))
    assert warming.coating_c.shape == warming.air_c.shape == (1, 8)
    fine = warm_up(OVEN, Load(STEEL), until_s=61.5, step_s=0.5)
    assert warming.coating_c[0, -1] == pytest.approx(fine.coating_c[0, -1], abs=0.3)


def test_cases_of_different_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="different numbers"):
        warm_up(OVEN, Load(STEEL), until_s=60, cases=Cases(film=np.ones(2), thickness=np.ones(3)))


WALLS = st.builds(
    Wall,
    st.sampled_from([material_named(name) for name in ("steel", "aluminium", "ceramic", "glass")]),
    st.floats(0.2, 8.0),
    st.floats(0.005, 0.08),
    st.booleans(),
)
LOADS = st.builds(
    Load,
    WALLS,
    st.integers(1, 8),
    st.sampled_from([(), (PAPER,), (PAPER, cover_named("sleeve"))]),
    st.floats(120.0, 230.0),
    st.floats(5.0, 35.0),
    st.booleans(),
    door_s=st.floats(0.0, 30.0),
)


@settings(max_examples=25)
@given(st.sampled_from(starter_heaters()), LOADS)
def test_a_wall_only_warms_up_and_never_beyond_the_heat(heater: Heater, load: Load) -> None:
    warming = warm_up(heater, load, until_s=400, step_s=2.0)
    hottest = np.maximum.accumulate(warming.air_c, axis=1)
    assert (warming.coating_c <= hottest + 1e-6).all()
    assert (warming.wall_c <= warming.coating_c + 1e-6).all() or not load.preheated
    assert (warming.coating_c >= load.room_c - 1e-6).all()
    gap = np.abs(warming.heater_j - warming.lost_j - warming.stored_j)
    assert (gap <= 1e-9 * (warming.heater_j + np.abs(warming.stored_j) + 1.0)).all()
    if load.preheated and heater.kind == "oven":  # its air falls while the door is open, then only rises
        after = warming.times_s > load.door_s + 60
        assert np.diff(warming.wall_c[:, after], axis=1).min() > -1e-3


@settings(max_examples=12)
@given(st.sampled_from(starter_heaters()), LOADS)
def test_more_pieces_and_thicker_walls_are_slower(heater: Heater, load: Load) -> None:
    pieces = np.arange(1.0, 7.0)
    warming = warm_up(heater, load, until_s=300, step_s=2.0, cases=Cases(pieces=pieces))
    assert np.diff(warming.wall_c, axis=0).max() < 1e-6
    thicker = warm_up(heater, load, until_s=300, step_s=2.0, cases=Cases(thickness=np.linspace(0.9, 1.1, 5)))
    assert np.diff(thicker.wall_c, axis=0).max() < 1e-6
    film = warm_up(heater, load, until_s=300, step_s=2.0, cases=Cases(film=np.linspace(20.0, 48.0, 5)))
    assert np.diff(film.wall_c[:, -1]).min() > -1e-6 or heater.kind != "oven"


@settings(max_examples=10)
@given(LOADS, st.permutations(range(5)))
def test_the_order_of_cases_does_not_matter(load: Load, order: list[int]) -> None:
    films = np.linspace(20.0, 48.0, 5)
    straight = warm_up(OVEN, load, until_s=200, step_s=2.0, cases=Cases(film=films))
    mixed = warm_up(OVEN, load, until_s=200, step_s=2.0, cases=Cases(film=films[order]))
    assert np.abs(straight.coating_c[order] - mixed.coating_c).max() < 1e-9
