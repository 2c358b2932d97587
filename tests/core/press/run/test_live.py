"""The live dose: the model of the plan, run again with what has happened."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.core.press.run.heats_told import at, load, oven, plan, told

from wrapwright.core.base.heat_words import seconds_words
from wrapwright.core.press.dose.band import dose_band
from wrapwright.core.press.run.live import Track, as_measured, offer_of, track_of, with_openings
from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import HeatPlan, HeatState, Reading
from wrapwright.core.press.values import Opening

PLANNED = dose_band(oven(), load(), 300.0).dose
PLAN = plan(dose=PLANNED)


def opened(at_s: float, for_s: float, now_s: float) -> tuple[HeatState, Track]:
    events = told((0, "loaded"), (at_s, "door-opened"), (at_s + for_s, "door-closed"))
    state = state_of(PLAN, events, at(now_s))
    return state, track_of(oven(), with_openings(load(), state.openings), 1200.0)


def test_with_nothing_happened_it_is_the_plan() -> None:
    track = track_of(oven(), load(), 1200.0)
    assert track.dose_at(300.0).mid == pytest.approx(PLANNED.mid, rel=1e-3)
    assert track.dose_at(300.0).low == pytest.approx(PLANNED.low, rel=1e-2)
    assert track.dose_at(300.0).high == pytest.approx(PLANNED.high, rel=1e-2)
    assert offer_of(PLAN, state_of(PLAN, told((0, "loaded")), at(200)), track) is None


def test_an_opened_door_costs_dose_and_what_is_offered_makes_up_for_it() -> None:
    """Reckoned apart from the offer: with the added time the planned dose is there, 5 s earlier it is not."""
    state, track = opened(150.0, 40.0, 200.0)
    offer = offer_of(PLAN, state, track)
    assert offer is not None
    assert (offer.seconds % 5.0, "the door stood open for 40 s" in offer.words) == (0.0, True)
    door = replace(load(), openings=(Opening(150.0, 40.0),))
    assert dose_band(oven(), door, 300.0).dose.mid < 0.95 * PLANNED.mid
    assert dose_band(oven(), door, 300.0 + offer.seconds).dose.mid >= PLANNED.mid * 0.999
    assert dose_band(oven(), door, 300.0 + offer.seconds - 5.0).dose.mid < PLANNED.mid


def test_a_longer_opening_costs_more() -> None:
    offers = [offer_of(PLAN, *opened(150.0, seconds, 250.0)) for seconds in (20.0, 40.0, 80.0)]
    seconds = [0.0 if one is None else one.seconds for one in offers]
    assert seconds == sorted(set(seconds))


def test_what_was_added_is_not_offered_again() -> None:
    events = told((0, "loaded"), (150, "door-opened"), (190, "door-closed"))
    state, track = opened(150.0, 40.0, 200.0)
    first = offer_of(PLAN, state, track)
    assert first is not None
    events += told((0, "loaded"), (0, "ready"), (0, "ready"), (200, "longer", first.seconds))[3:]
    assert offer_of(PLAN, state_of(PLAN, events, at(210)), track) is None


def test_nothing_is_offered_for_what_the_pieces_have_already() -> None:
    events = told((0, "loaded"), (150, "door-opened"), (190, "door-closed"))
    _, track = opened(150.0, 40.0, 200.0)
    assert offer_of(PLAN, state_of(PLAN, events, at(600)), track) is None
    assert (
        offer_of(PLAN, state_of(PLAN, [*events, *told((0, "loaded"), (400, "taken-out"))[1:]], at(600)), track) is None
    )


def test_past_the_end_only_what_is_still_missing_is_offered_and_never_at_an_open_door() -> None:
    events = told((0, "loaded"), (150, "door-opened"), (190, "door-closed"))
    _, track = opened(150.0, 40.0, 200.0)
    whole = offer_of(PLAN, state_of(PLAN, events, at(200)), track)
    assert whole is not None
    late = offer_of(PLAN, state_of(PLAN, events, at(310)), track)
    assert late is not None
    left = seconds_words(whole.seconds - 10.0)
    assert (late.seconds, late.words.split(":")[0]) == (whole.seconds, f"Leave them in for {left} more")
    # Within a few seconds of it there is nothing worth adding, and who has opened the door takes them out.
    assert offer_of(PLAN, state_of(PLAN, events, at(300 + whole.seconds - 4)), track) is None
    unloading = [*events, *told((0, "loaded"), (308, "door-opened"))[1:]]
    assert offer_of(PLAN, state_of(PLAN, unloading, at(310)), track) is None


def measured(celsius: float, when: float = 200.0) -> tuple[float, float, tuple[str, ...]]:
    track = track_of(oven(), load(), 600.0)
    heater, words = as_measured(oven(), load(), (Reading(when, celsius),), track)
    return heater.offset_k, heater.offset_half_k, words


def test_a_thermometer_takes_the_place_of_what_was_thought() -> None:
    offset, half, words = measured(185.0)
    assert offset == pytest.approx(-10.0)
    assert half == pytest.approx(min(oven().offset_half_k, oven().band_k / 2.0 + 3.0))
    assert "10 °C (18 °F) cooler than was reckoned with" in words[0]
    assert measured(195.4)[2] == ()


def test_a_reading_before_the_pieces_go_in_tells_of_the_heater() -> None:
    assert measured(185.0, when=-30.0)[0] == pytest.approx(-10.0)


def test_a_reading_just_after_loading_is_only_noted() -> None:
    """A steel piece in a cold start: the air has not recovered, so nothing is learnt of the heater."""
    many = replace(load(4), door_s=40.0)
    track = track_of(oven(), many, 600.0)
    coldest = float(track.times_s[int(track.air_c.argmin())])
    heater, words = as_measured(oven(), many, (Reading(coldest, 170.0),), track)
    assert heater == oven()
    assert "only noted" in words[0]


def test_a_cooler_heater_is_offered_more_time_and_a_hotter_one_less() -> None:
    def offered(celsius: float) -> float:
        events = told((0, "loaded"), (180, "measured", celsius))
        state = state_of(PLAN, events, at(190))
        first = track_of(oven(), load(), 1200.0)
        heater, _ = as_measured(oven(), load(), state.readings, first)
        offer = offer_of(PLAN, state, track_of(heater, load(), 1200.0))
        return 0.0 if offer is None else offer.seconds

    assert offered(185.0) >= 60.0
    assert offered(195.0) == 0.0
    assert offered(205.0) <= -20.0


def test_without_a_reckoned_dose_nothing_is_offered() -> None:
    state, track = opened(150.0, 40.0, 200.0)
    assert offer_of(HeatPlan("oven", 195.0, 300.0), state, track) is None


def test_when_the_coating_is_warm() -> None:
    track = track_of(oven(), load(), 1200.0)
    warm = track.warm_s(195.0)
    assert warm is not None
    assert track.celsius_at(warm)[1] >= 190.0 > track.celsius_at(warm - 2.0)[1]
    assert track.warm_s(240.0) is None
    assert track.reaches(1e9) is None
