"""The time: UTC by the wall clock, and with it a counter of seconds that nobody can set and that counts sleep."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")  # Linux: another one after each start of the machine


def _now() -> datetime:
    return datetime.now(UTC)


def ticks() -> float:
    """Return seconds since some fixed moment of this start of the machine; sleep is counted, no clock sets it.

    Linux: CLOCK_BOOTTIME. macOS: CLOCK_MONOTONIC, which goes on while the system sleeps. Windows: what
    time.monotonic reads there counts sleep too. Elsewhere time.monotonic, whatever it counts.
    """
    for name, system in (("CLOCK_BOOTTIME", "linux"), ("CLOCK_MONOTONIC", "darwin")):
        clock = getattr(time, name, None)
        if clock is not None and sys.platform.startswith(system):
            try:
                return time.clock_gettime(clock)
            except OSError:  # a kernel without it
                break
    return time.monotonic()


def boot() -> str:
    """Return a word for this start of the machine, the same for all programs; where there is none, of this program."""
    try:
        return _BOOT_ID.read_text(encoding="ascii").strip() or _of_this_program()
    except (OSError, UnicodeDecodeError):
        return _of_this_program()


def _of_this_program() -> str:
    return f"program-{os.getpid()}-{_STARTED}"


_STARTED = time.time_ns()


@dataclass(frozen=True)
class Told:
    """What the machine says of the moment: UTC by its wall clock, its start's word, its counter of seconds."""

    at: datetime
    boot: str
    ticks: float


@dataclass(frozen=True)
class SteadyClock:
    """The wall clock in UTC when called; `told` gives the counter with it, read at the same moment.

    Attributes:
        wall: reads the wall clock.
        counter: reads the counter.
        word: of this start of the machine.
    """

    wall: Callable[[], datetime] = _now
    counter: Callable[[], float] = ticks
    word: str = field(default_factory=boot)

    def __call__(self) -> datetime:
        """Return the time by the wall clock, UTC."""
        return self.wall()

    def told(self) -> Told:
        """Return the moment by both."""
        return Told(self.wall(), self.word, self.counter())
