"""What time it is for heats that run: the time that has really passed, whatever was done to the wall clock."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from wrapwright.core.press.run.values import Stamp

OF_A_PROGRAM = "program-"  # a word for a start begins so where it is only the program's: the machine's is not known
NOTICED_S = 2.0  # a smaller change of the wall clock is the network's care for it and not worth a word


def stamp_after(last: Stamp | None, here: Stamp) -> tuple[Stamp, str]:
    """Return the moment on the heats' own time, and a sentence where the wall clock does not tell it (else "").

    Within one start of the machine the counter of its seconds tells what has passed since the last event, so that
    neither a changed wall clock nor a new start of the program matters. After a new start of the machine there is
    only the wall clock; where it reads earlier than the time for which the machine has been on since, it cannot be
    right, and the heat goes on by that time.

    Args:
        last: of the last event of a heat that runs; None where none does: then the wall clock counts.
        here: what this machine says now.
    """
    if last is None:
        return here, ""
    if last.boot and last.boot == here.boot and here.ticks >= last.ticks:
        at = last.at + timedelta(seconds=here.ticks - last.ticks)
        return replace(here, at=at), _changed((here.at - at).total_seconds())
    least = last.at + timedelta(seconds=_surely_s(last, here))
    if here.at >= least:
        return here, ""
    back = (least - here.at).total_seconds()
    words = (
        f"The clock of this machine reads at least {_long(back)} too early, and it was started anew since the last"
        " event: the heat goes on by what has surely passed, and it may be more. Set the clock, and judge the pieces"
        " by eye."
    )
    return replace(here, at=least), words if back >= NOTICED_S else ""


def _surely_s(last: Stamp, here: Stamp) -> float:
    """Return how long ago the last event was at the least, by the counters of two starts."""
    if last.boot.startswith(OF_A_PROGRAM) or here.boot.startswith(OF_A_PROGRAM):
        # The machine may be the one that was running then: its counter goes on, or it has begun again from nought.
        return max(0.0, here.ticks - last.ticks)
    return here.ticks if last.boot and here.boot else 0.0


def _changed(ahead_s: float) -> str:
    if abs(ahead_s) < NOTICED_S:
        return ""
    way = "forward" if ahead_s > 0 else "back"
    return (
        f"The clock of this machine was set {way} by {_long(abs(ahead_s))} while a heat runs:"
        " its count-down goes on by the seconds that have really passed."
    )


def _long(seconds: float) -> str:
    whole = round(seconds)
    hours, minutes = divmod(whole // 60, 60)
    if hours:
        return f"{hours} h {minutes} min"
    return f"{minutes} min {whole % 60} s" if minutes else f"{whole} s"
