"""The time that has really passed, whatever was done to the wall clock."""

from __future__ import annotations

from datetime import timedelta

import pytest
from tests.core.press.run.heats_told import at

from wrapwright.core.press.run.clock import stamp_after
from wrapwright.core.press.run.values import Stamp

LAST = Stamp(at(0), "one start", 1000.0)


def test_with_no_heat_the_wall_clock_counts() -> None:
    here = Stamp(at(77), "one start", 5.0)
    assert stamp_after(None, here) == (here, "")


@pytest.mark.parametrize("wall", [-86400.0, -3600.0, 0.0, 61.0, 3600.0])
def test_within_one_start_the_counter_counts(wall: float) -> None:
    """One minute has passed by the counter, whatever the wall clock says."""
    stamp, words = stamp_after(LAST, Stamp(at(wall), "one start", 1060.0))
    assert stamp == Stamp(at(60), "one start", 1060.0)
    assert bool(words) == (abs(wall - 60.0) >= 2.0)


def test_a_changed_clock_is_said() -> None:
    back = stamp_after(LAST, Stamp(at(60 - 3660), "one start", 1060.0))[1]
    assert back.startswith("The clock of this machine was set back by 1 h 1 min while a heat runs:")
    assert "forward by 45 s" in stamp_after(LAST, Stamp(at(105), "one start", 1060.0))[1]


def test_after_a_new_start_of_the_machine_the_wall_clock_counts() -> None:
    here = Stamp(at(600), "another start", 12.0)
    assert stamp_after(LAST, here) == (here, "")


def test_a_wall_clock_that_has_gone_back_over_a_new_start_is_said_and_the_heat_goes_on_by_what_has_surely_passed() -> (
    None
):
    for on_s in (12.0, 30.0, 2000.0):
        stamp, words = stamp_after(LAST, Stamp(at(-7200), "another start", on_s))
        assert stamp == Stamp(at(on_s), "another start", on_s)
        assert f"reads at least 2 h {0 if on_s < 60 else 33} min too early" in words


def test_where_only_a_program_s_start_is_known_its_counter_still_tells_the_least() -> None:
    last = Stamp(at(0), "program-7-1", 1000.0)
    # The same machine, the program started anew, the clock set back by an hour meanwhile.
    assert stamp_after(last, Stamp(at(60 - 3600), "program-8-2", 1060.0))[0].at == at(60)
    # The machine started anew: its counter is below the one of the last event, and tells nothing at first.
    assert stamp_after(last, Stamp(at(-3600), "program-8-2", 30.0))[0].at == at(0)
    # A clock that is right is left alone, without a word.
    assert stamp_after(last, Stamp(at(60), "program-8-2", 1060.0)) == (Stamp(at(60), "program-8-2", 1060.0), "")


def test_without_a_word_for_the_start_only_the_wall_clock_is_left() -> None:
    here = Stamp(at(30))
    assert stamp_after(Stamp(at(0)), here) == (here, "")


def test_a_chain_of_events_keeps_the_time_though_the_clock_is_set_between_any_two() -> None:
    stamp = LAST
    for step, wall in enumerate((5000.0, -5000.0, 12.0, -1.0), 1):
        stamp, _ = stamp_after(stamp, Stamp(at(wall), "one start", 1000.0 + 10.0 * step))
    assert stamp.at - LAST.at == timedelta(seconds=40)
