"""Figures that cannot be: one clear sentence each."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.values import Heater, Load, Opening, Range, Wall

OVEN = starter_heater("oven")
STEEL = Wall(material_named("steel"), 0.5, 0.045)
NAN = float("nan")
LIGHT = replace(material_named("steel"), density=Range(-1.0, 1.0, 2.0))

WRONG_HEATERS = [
    (replace(OVEN, power_w=0.0), "a power of 0 W cannot be"),
    (replace(OVEN, power_w=-1500.0), "a power of -1500 W"),
    (replace(OVEN, power_w=NAN), "a power of nan W"),
    (replace(OVEN, own_j_k=0.0), "a heat capacity of 0 J/K"),
    (replace(OVEN, film=Range(0.0, 20.0, 30.0)), "a surface coefficient of 0 W/m²K"),
    (replace(OVEN, loss_w_k=-1.0), "a loss to the room of -1 W/K"),
    (replace(OVEN, door_w_k=-1.0), "a loss through the open door of -1 W/K"),
    (replace(OVEN, band_k=-2.0), "a thermostat band of -2 K"),
    (replace(OVEN, radiant=1.5), "a radiant share of 1.5"),
    (replace(OVEN, offset_half_k=-1.0), "a doubt of -1 K of the temperature"),
]
WRONG_LOADS = [
    (Load(replace(STEEL, thickness_mm=-0.5)), "a wall of -0.5 mm"),
    (Load(replace(STEEL, thickness_mm=0.0)), "a wall of 0 mm"),
    (Load(replace(STEEL, thickness_mm=60.0)), "a wall of 60 mm"),
    (Load(replace(STEEL, area_m2=-1.0)), "a heated face of -1 m2"),
    (Load(replace(STEEL, other_j_k=-1.0)), "heat in base and handle of -1 J/K"),
    (Load(replace(STEEL, doubt=1.0)), "a doubt of 1 of the wall"),
    (Load(replace(STEEL, material=LIGHT)), "the density of Stainless steel is -1"),
    (Load(STEEL, 0), "0 pieces cannot be heated"),
    (Load(STEEL, -2), "-2 pieces cannot be heated"),
    (Load(STEEL, 1.5), "1.5 pieces cannot be heated"),  # type: ignore[arg-type]
    (Load(STEEL, set_c=20.0), "set to 20 degrees C nothing warms up in a room at 25"),
    (Load(STEEL, set_c=383.0), "if 383 degrees F is meant, that is 195 degrees C"),
    (Load(STEEL, set_c=NAN), "set to nan degrees C"),
    (Load(STEEL, room_c=77.0), "a room at 77 degrees C cannot be"),
    (Load(STEEL, covers=(replace(cover_named("paper"), thickness_mm=0.0),)), "the cover paper must be over 0 mm"),
    (Load(STEEL, door_s=-5.0), "a door open for -5 s"),
    (Load(STEEL, openings=(Opening(60, -20),)), "a door that opens at 60 s for -20 s"),
]


@pytest.mark.parametrize(("heater", "words"), WRONG_HEATERS, ids=[words for _, words in WRONG_HEATERS])
def test_no_heater_is_like_that(heater: Heater, words: str) -> None:
    _says(words, heater, Load(STEEL))


@pytest.mark.parametrize(("load", "words"), WRONG_LOADS, ids=[words for _, words in WRONG_LOADS])
def test_no_load_is_like_that(load: Load, words: str) -> None:
    _says(words, OVEN, load)


def _says(words: str, heater: Heater, load: Load) -> None:
    with pytest.raises(WrapwrightError) as told:
        warm_up(heater, load, until_s=60)
    assert told.value.kind is Kind.UNUSABLE
    assert not isinstance(told.value, SeveralProblemsError)
    assert words in told.value.message
    assert told.value.message.endswith(".")


def test_everything_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(SeveralProblemsError) as told:
        warm_up(replace(OVEN, power_w=0.0), Load(replace(STEEL, thickness_mm=0.0), 0), until_s=60)
    assert len(told.value.problems) == 3


@pytest.mark.parametrize(
    ("until", "words"), [(0.0, "0 s"), (-60.0, "-60 s"), (36000.0, "10 h"), (NAN, "nan s"), (float("inf"), "inf s")]
)
def test_a_dwell_of_nothing_or_of_hours(until: float, words: str) -> None:
    with pytest.raises(WrapwrightError, match=f"a time in the heat of {words} cannot be reckoned"):
        warm_up(OVEN, Load(STEEL), until_s=until)


def test_a_step_of_nothing() -> None:
    with pytest.raises(WrapwrightError, match="a step of 0 s"):
        warm_up(OVEN, Load(STEEL), until_s=60, step_s=0.0)
