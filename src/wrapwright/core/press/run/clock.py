"""What time it is for heats that run: the time that has really passed, whatever was done to the wall clock."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from wrapwright.core.press.run.values import Stamp

NOTICED_S = 2.0  # a smaller change of the wall clock is the network's care for it and not worth a word


def stamp_after(last: Stamp | None, here: Stamp) -> tuple[Stamp, str]:
    """Return the moment on the heats' own time, and a sentence where the wall clock does not tell it (else "").

    Within one start of the machine the counter of its seconds tells what has passed since the last event, so that
    neither a changed wall clock nor a new start of the program matters. After a new start of the machine there is
    only the wall clock; one that reads earlier than the last event cannot be right, and the heat goes on from there.

    Args:
        last: of the last event of a heat that runs; None where none does: then the wall clock counts.
        here: what this machine says now.
    """
    if last is None:
        return here, ""
    if last.boot and last.boot == here.boot and here.ticks >= last.ticks:
        at = last.at + timedelta(seconds=here.ticks - last.ticks)
        return replace(here, at=at), _changed((here.at - at).total_seconds())
    if here.at < last.at:
        back = (last.at - here.at).total_seconds()
        words = (
            f"The clock of this machine reads {_long(back)} earlier than the last event, so how long the machine was"
            " off is not known: the heat goes on from that event. Set the clock, and judge the pieces by eye."
        )
        return replace(here, at=last.at), words
    return here, ""


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
