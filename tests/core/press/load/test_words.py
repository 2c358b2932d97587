"""What is said of a load: an estimate, its band, and bounds that are not known yet."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.core.press.load.usual import load, small_oven

from wrapwright.core.press.load.values import Aim, Recommended, Shift, Span
from wrapwright.core.press.load.words import (
    aim_words,
    bounds_words,
    doubt_words,
    effect_words,
    load_words,
    range_words,
    recommended_words,
    wall_words,
    warming_words,
)
from wrapwright.core.press.values import Dose, Wall, Window

ROW = Recommended(4, Span(222.0, 314.0, 508.0), (231.0, 390.0), 246.0, Dose(0.7, 2.6, 6.4))
NEVER = Recommended(6, Span(900.0, math.inf, math.inf), (math.inf, math.inf), math.inf, Dose(0.0, 0.0, 0.0))


def test_a_load():
    four = load(pieces=4)
    assert load_words(four) == "4 pieces, wall 0.5 mm steel, at 200 °C (392 °F)"
    assert wall_words(replace(four.wall, double=True)) == "outer shell of 0.5 mm steel"
    assert wall_words(Wall(replace(four.wall.material, name="aluminium-6061"), 0.85, 0.04)) == "0.85 mm aluminium 6061"


def test_how_long_it_wants():
    said = recommended_words(small_oven(), load(), ROW)
    assert said == "4 pieces: about 5 min, band 3.7–8.5 min, from closing the door."
    press = replace(small_oven(), kind="mug-press")
    assert recommended_words(press, load(preheated=False), ROW).endswith("from closing the press on a cold heater.")
    assert recommended_words(small_oven(), load(), NEVER).startswith("6 pieces: not within an hour; heat fewer")


def test_what_of_it_is_warming_up():
    assert warming_words(load(), ROW).startswith(
        "Of that 4 min go by until the coating is within 5 °C (9 °F) of 200 °C"
    )
    late = replace(ROW, to_temperature_s=600.0)
    assert "only after 10 min: most of the dose is gathered on the way up" in warming_words(load(), late)
    assert "does not come to temperature" in warming_words(load(), NEVER)


def test_before_any_trial_the_bounds_are_not_known_yet():
    said = aim_words(Aim(1.0, 2.5, 4.3), "Steel tumbler")
    assert "not known yet here" in said
    assert 'the same dose as the recipe "Steel tumbler" gives one piece of its own wall: 1 min to 4.3 min' in said
    assert bounds_words(Window()) == "complete from: not known yet; blurs or yellows from: not known yet"


def test_with_trials_their_bounds_are_said():
    window = Window((1.5, 2.0), None)
    said = aim_words(Aim(2.0, 2.4, 4.0, "trials", window), "x")
    assert "(complete from: 1.50 to 2.00 min; blurs or yellows from: not known yet)" in said
    assert range_words(ROW, Aim(2.0, 2.4, 4.0, "trials")) == "In the middle case the bounds would be 3.8–6.5 min here."


def test_how_well_the_heater_is_known():
    assert "Nobody has checked this heater yet: it counts as ± 15 °C (27 °F), 69 % of all" in doubt_words(
        small_oven(), 0.69
    )
    checked = small_oven(offset_half_k=3.0, offset_k=-8.0)
    assert "runs 8 °C (14.4 °F) colder than it is set, ± 3 °C (5.4 °F)" in doubt_words(checked)
    assert doubt_words(small_oven(offset_half_k=3.0)) == "This heater holds what it is set to, ± 3 °C (5.4 °F)."


def test_what_a_change_does():
    assert effect_words(Shift("hotter", 3.4, 1.36, 290.0)) == "36 % more dose; the same dose after 5 min"
    assert effect_words(Shift("shorter", 1.3, 0.52, 314.0)) == "48 % less dose"
    assert effect_words(Shift("more", 2.5, 1.0, math.inf)).endswith("after over 60 min")
