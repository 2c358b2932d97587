"""A heat's state from its events and the moment alone."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.press.run.heats_told import at, plan, told

from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import PHASES, Event, EventKind, Stamp
from wrapwright.core.press.values import Opening

WHOLE = told((0, "preheat"), (500, "ready"), (560, "loaded"), (860, "taken-out"))


@pytest.mark.parametrize(
    ("when", "phase", "remaining", "over"),
    [
        (0, "preheat", 480.0, None),
        (479.5, "preheat", 0.5, None),
        (490, "preheat", 0.0, 10.0),
        (500, "loading", None, None),
        (560, "dwell", 300.0, None),
        (859.75, "dwell", 0.25, None),
    ],
)
def test_every_phase_has_its_remaining_time(when: float, phase: str, remaining: float, over: float | None) -> None:
    known = [one for one in WHOLE if one.at <= at(when)]
    state = state_of(plan(preheat=True, preheat_s=480.0), known, at(when))
    assert (state.phase, state.remaining_s, state.over_s) == (phase, remaining, over)


def test_after_the_dwell_it_counts_what_is_over_until_it_is_taken_out() -> None:
    state = state_of(plan(), told((0, "ready"), (60, "loaded")), at(375))
    assert (state.phase, state.over_s, state.late_s, state.in_s) == ("unload", 15.0, 15.0, 315.0)
    state = state_of(plan(), told((0, "ready"), (60, "loaded"), (380, "taken-out")), at(400))
    assert (state.phase, state.remaining_s, state.in_s, state.late_s) == ("cool", 100.0, 320.0, 20.0)


def test_cooling_ends_by_time_or_by_being_told() -> None:
    taken = ((0, "ready"), (60, "loaded"), (360, "taken-out"))
    assert state_of(plan(), told(*taken), at(480)).phase == "look"
    assert state_of(plan(), told(*taken, (400, "cooled")), at(401)).phase == "look"
    assert state_of(plan(cool_s=0.0), told(*taken), at(360)).phase == "look"


def test_taken_out_early_and_longer() -> None:
    events = told((0, "ready"), (60, "loaded"), (100, "longer", 40), (300, "taken-out"))
    state = state_of(plan(), events, at(300))
    assert (state.dwell_s, state.longer_s, state.in_s, state.early_s) == (340.0, 40.0, 240.0, 100.0)


def test_the_door_is_counted_while_the_pieces_are_in() -> None:
    """An opening that begins before the loading counts from there; one that is still open counts up to now."""
    events = told((0, "ready"), (50, "door-opened"), (60, "loaded"), (70, "door-closed"), (100, "door-opened"))
    state = state_of(plan(), events, at(125))
    assert state.openings == (Opening(0.0, 10.0), Opening(40.0, 25.0))
    assert state.door_open
    later = state_of(plan(), [*events, *told((0, "ready"), (160, "taken-out"))[1:]], at(500))
    assert later.openings[-1] == Opening(40.0, 60.0)
    assert not later.door_open


def test_an_opening_told_afterwards() -> None:
    events = told((0, "ready"), (60, "loaded"), (200, "door-closed", 20))
    assert state_of(plan(), events, at(210)).openings == (Opening(120.0, 20.0),)


def test_turns_are_due_until_they_are_told() -> None:
    two = plan(turn_at_s=(100.0, 200.0))
    assert not state_of(two, told((0, "loaded")), at(99)).turn_due
    assert state_of(two, told((0, "loaded")), at(100)).turn_due
    assert not state_of(two, told((0, "loaded"), (105, "turned")), at(150)).turn_due
    assert state_of(two, told((0, "loaded"), (105, "turned")), at(200)).turn_due
    assert not state_of(two, told((0, "loaded"), (105, "turned")), at(300)).turn_due  # the dwell is over


def test_soak_begins_when_the_coating_is_warm() -> None:
    warm = plan(warm_s=150.0)
    assert not state_of(warm, told((0, "loaded")), at(149)).soak
    assert state_of(warm, told((0, "loaded")), at(150)).soak
    assert not state_of(warm, told((0, "loaded")), at(150), warm_s=200.0).soak


def test_stopped_before_anything_is_in_ends_and_afterwards_asks_for_a_look() -> None:
    assert state_of(plan(preheat=True), told((0, "preheat"), (9, "stopped")), at(10)).phase == "ended"
    state = state_of(plan(), told((0, "ready"), (60, "loaded"), (90, "stopped")), at(91))
    assert (state.phase, state.stopped, state.early_s) == ("cool", True, 270.0)


def test_readings_count_from_when_the_heater_is_at_temperature_to_when_the_pieces_are_out() -> None:
    events = told(
        (0, "preheat"), (9, "measured", 90), (20, "ready"), (40, "measured", 186), (60, "loaded"),
        (100, "measured", 188), (360, "taken-out"), (370, "measured", 120),
    )  # fmt: skip
    state = state_of(plan(preheat=True), events, at(400))
    assert [(one.at_s, one.celsius) for one in state.readings] == [(-20.0, 186.0), (40.0, 188.0)]
    assert state_of(plan(preheat=True), events[:4], at(50)).readings == ()


def test_a_moment_before_the_last_event_counts_as_that_event() -> None:
    state = state_of(plan(), told((0, "ready"), (60, "loaded")), at(-3600))
    assert (state.now, state.remaining_s) == (at(60), 300.0)
    with pytest.raises(ValueError, match="begins with an event"):
        state_of(plan(), [], at(0))


def test_a_door_that_was_open_before_the_pieces_went_in_is_not_counted_beside_one_that_is_open_now() -> None:
    events = told((0, "ready"), (5, "door-opened"), (20, "door-closed"), (30, "door-opened"), (60, "loaded"))
    state = state_of(plan(), events, at(75))
    assert (state.door_open, [(one.at_s, one.for_s) for one in state.openings]) == (True, [(0.0, 15.0)])


KINDS: tuple[EventKind, ...] = (
    "ready", "loaded", "door-opened", "door-closed", "turned", "longer", "taken-out", "cooled", "stopped", "ended",
)  # fmt: skip


@settings(max_examples=50)
@given(
    st.lists(st.tuples(st.floats(0.0, 500.0), st.sampled_from(KINDS)), max_size=12),
    st.floats(0.0, 2000.0),
    st.floats(0.0, 600.0),
)
def test_time_never_runs_back(steps: list[tuple[float, EventKind]], first: float, more: float) -> None:
    """Whatever was told: phases only go on, times are never below nought, remaining and passed time add up."""
    when, events = 0.0, told((0, "preheat"))
    for step, kind in steps:
        when += step
        events.append(Event(len(events) + 1, kind, Stamp(at(when)), str(when), 20.0))
    both = [state_of(plan(preheat=True, preheat_s=300.0), events, at(when + one)) for one in (first, first + more)]
    assert PHASES.index(both[0].phase) <= PHASES.index(both[1].phase)
    for state in both:
        assert state.in_s >= 0.0
        assert state.early_s == 0.0 or state.late_s == 0.0
        assert all(one.at_s >= 0.0 and 0.0 <= one.for_s <= state.in_s for one in state.openings)
        if state.ends is not None:
            passed = (state.now - state.ends).total_seconds()
            assert (state.over_s or 0.0) - (state.remaining_s or 0.0) == pytest.approx(passed, abs=1e-6)
    if both[0].phase == both[1].phase == "dwell":
        assert (both[0].remaining_s or 0.0) - (both[1].remaining_s or 0.0) == pytest.approx(more, abs=1e-5)
