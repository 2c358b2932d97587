"""The clock: UTC by the wall, and a counter that goes on whatever is set."""

from __future__ import annotations

import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta

import pytest

from wrapwright.core.press.run.clock import OF_A_PROGRAM
from wrapwright.outside.system.clock import steady
from wrapwright.outside.system.clock.steady import SteadyClock, boot, ticks

ANOTHER = "from wrapwright.outside.system.clock.steady import boot, ticks; print(boot(), ticks())"


def test_it_reads_utc() -> None:
    before = datetime.now(UTC)
    told = SteadyClock()()
    assert before <= told <= before + timedelta(seconds=5)
    assert told.utcoffset() == timedelta(0)


def test_the_counter_counts_seconds() -> None:
    """Against the interpreter's own monotonic clock."""
    one, mark = ticks(), time.monotonic()
    while time.monotonic() - mark < 0.05:
        pass
    passed, known = ticks() - one, time.monotonic() - mark
    assert passed == pytest.approx(known, abs=0.03)


def test_both_are_read_at_the_same_moment() -> None:
    wall = datetime(2026, 5, 2, tzinfo=UTC)
    told = SteadyClock(lambda: wall, lambda: 7.5, "a start").told()
    assert (told.at, told.boot, told.ticks) == (wall, "a start", 7.5)


@pytest.mark.skipif(sys.platform != "linux", reason="only there all programs share a word for the machine's start")
def test_two_programs_count_from_the_same_start() -> None:
    here = ticks()
    word, counted = subprocess.run(
        [sys.executable, "-c", ANOTHER], capture_output=True, text=True, check=True
    ).stdout.split()
    assert word == boot()
    assert here <= float(counted) <= ticks()


def test_without_such_a_word_each_program_has_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(steady, "_BOOT_ID", steady._BOOT_ID / "not there")
    assert boot().startswith(OF_A_PROGRAM)
    assert boot() == boot()


def test_where_the_system_has_no_such_counter_the_interpreters_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(time, "CLOCK_BOOTTIME", raising=False)
    assert ticks() == pytest.approx(time.monotonic(), abs=1.0)
