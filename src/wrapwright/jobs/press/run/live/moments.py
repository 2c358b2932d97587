"""The moment on the heats' own time."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from wrapwright.core.press.run.clock import stamp_after
from wrapwright.core.press.run.values import Stamp
from wrapwright.jobs.bench import Bench
from wrapwright.outside.system.clock.steady import SteadyClock

if TYPE_CHECKING:
    from sqlalchemy import Connection

COLD_S = 2 * 3600.0


def moment(connection: Connection, bench: Bench) -> tuple[Stamp, str]:
    """Return what time it is for the heats that run, and a sentence where the wall clock does not tell it."""
    from wrapwright.outside.store.rows.press.heats import last_stamp

    last, here = last_stamp(connection), _here(bench)
    if last is None:
        return stamp_after(None, here)
    stamp, runs = last
    # Pieces that lie about to be looked at need no time of their own once they are cold.
    lies = not runs and stamp.boot == here.boot and here.ticks - stamp.ticks > COLD_S
    return stamp_after(None if lies else stamp, here)


def said(at: datetime) -> str:
    """Return a time as text: ISO 8601, UTC, milliseconds."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _here(bench: Bench) -> Stamp:
    clock = bench.clock
    if isinstance(clock, SteadyClock):
        told = clock.told()
        return Stamp(told.at, told.boot, told.ticks)
    return Stamp(clock())
