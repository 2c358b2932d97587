"""What is said of a heat."""

from __future__ import annotations

import pytest
from tests.core.press.run.heats_told import at, plan, told

from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import EVENT_KINDS, Event, EventKind, Stamp
from wrapwright.core.press.run.words import event_words, state_words

IN: tuple[tuple[float, EventKind], ...] = ((0, "ready"), (60, "loaded"))


@pytest.mark.parametrize(
    ("events", "now", "first"),
    [
        (((0, "preheat"),), 10, "Warming up, about 8 min in all. Set to 195 °C (383 °F)."),
        (((0, "preheat"),), 500, "It should be at temperature. Set to 195 °C (383 °F). Check it, then say so."),
        (((0, "ready"),), 10, "Put the pieces in quickly, close the door, then say so: the dwell counts from there."),
        (IN, 100, "Warming the wall."),
        (IN, 250, "Turn the pieces now."),
        (IN, 361, "Take the pieces out now."),
        (IN, 375, "Take the pieces out now: 15 s over."),
        ((*IN, (330, "taken-out")), 340, "Taken out 30 s early, after 4 min 30 s."),
        ((*IN, (380, "taken-out")), 400, "Taken out 20 s late, after 5 min 20 s."),
        ((*IN, (361, "taken-out")), 400, "In for 5 min 1 s, as planned."),
        ((*IN, (200, "stopped")), 201, "Broken off after 2 min 20 s of 5 min."),
        ((*IN, (360, "taken-out")), 500, "Unwrap and look at the 2 pieces: good, or which fault?"),
        (((0, "ready"), (9, "ended")), 10, "Ended before anything was put in."),
    ],
)
def test_the_most_pressing_comes_first(events: tuple[tuple[float, EventKind], ...], now: float, first: str) -> None:
    waits = plan(preheat=events[0][1] == "preheat", preheat_s=480.0, turn_at_s=(150.0,))
    assert state_words(waits, state_of(waits, told(*events), at(now)), ("", ""))[0] == first


def test_an_open_door_is_said_with_how_long() -> None:
    words = state_words(plan(), state_of(plan(), told(*IN, (100, "door-opened")), at(125)))
    assert "The door is open, for 25 s now: close it." in words
    pressed = plan(heater_kind="mug-press")
    assert "The press is open, for 25 s now: close it." in state_words(
        pressed, state_of(pressed, told(*IN, (100, "door-opened")), at(125))
    )


def test_one_piece_and_none_left() -> None:
    state = state_of(plan(), told(*IN, (360, "taken-out")), at(500))
    assert state_words(plan(), state, ("good", ""))[0] == "Unwrap and look at the piece: good, or which fault?"
    assert "Every piece has been looked at." in state_words(plan(), state, ("good", "faded"))


def test_every_event_has_words() -> None:
    said = [event_words(Event(1, kind, Stamp(at(0)), "", 20.0, 188.0)) for kind in EVENT_KINDS]
    assert len(set(said)) == len(EVENT_KINDS)
    assert "20 s added to the dwell" in said
    assert "Measured 188 °C (370 °F)" in said
