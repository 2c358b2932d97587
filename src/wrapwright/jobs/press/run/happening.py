"""What happens to a heat while it runs."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING
from uuid import uuid4

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.nearest import nearest
from wrapwright.core.press.run.happening import judged
from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import EVENT_KINDS, Event, EventKind, Stamp
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.run.keeping import planned
from wrapwright.jobs.press.run.live.moments import moment
from wrapwright.jobs.press.run.telling import told
from wrapwright.jobs.press.run.values import HeatTold, TellEvent

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.outside.store.rows.press.heats import HeatKept

MOST_AGO_S = 3600.0
MOST_EVENTS = 500
LONGEST_KEY = 100


def tell_event(request: TellEvent, bench: Bench, watch: Watch) -> HeatTold:
    """Return the heat after something happened to it; what was told before, by its key or its sense, stands once.

    Raises:
        WrapwrightError: missing for no such heat; refused for what cannot happen now, or when another station was
            quicker; unusable for figures that cannot be meant.
    """
    del watch
    from wrapwright.outside.store.rows.press.heats import add_event_row, event_of_key, heat_kept

    key = key_of(request.key)
    with bench.kept().writing() as connection:
        kept = heat_kept(connection, request.id)
        now, words = moment(connection, bench)
        said = (words,) if words else ()
        if event_of_key(connection, key, heat=kept.id) is not None:
            return told(kept, now.at, bench, said)
        state = state_of(planned(kept).plan, kept.events, now.at)
        if judged(state, request.kind, seconds=request.seconds, celsius=request.celsius) == "known":
            return told(kept, now.at, bench, said)
        _quicker(kept, request)
        event = _event(request, key, kept, _then(now, request, kept))
        add_event_row(connection, kept.id, event)
        settle(connection, kept.id, bench)
        return told(heat_kept(connection, kept.id), now.at, bench, said)


def kind_of(word: str) -> EventKind:
    """Return the kind of event that a word names.

    Raises:
        WrapwrightError: usage, with the kinds there are.
    """
    plain = "-".join(word.lower().split())
    for kind in EVENT_KINDS:
        if kind == plain:
            return kind
    near = nearest(plain, EVENT_KINDS)
    meant = f'Is "{near}" meant? ' if near else ""
    message = f'"{word[:60]}" is no event of a heat.'
    raise WrapwrightError(Kind.USAGE, message, remedy=f"{meant}There are {', '.join(EVENT_KINDS)}.", where="event")


def settle(connection: Connection, heat: int, bench: Bench) -> None:
    """Write down how far a heat is after an event: its heater is free once the pieces are out, its end is kept."""
    from wrapwright.jobs.press.run.ending import found_of
    from wrapwright.outside.store.rows.press.heats import change_heat_state, heat_kept

    kept = heat_kept(connection, heat)
    last = kept.events[-1].at
    state = state_of(planned(kept).plan, kept.events, last)
    if state.phase == "ended":
        change_heat_state(connection, heat, "ended", ended=last, found=found_of(kept, last, bench))
    elif state.out is not None and kept.state == "running":
        change_heat_state(connection, heat, "looking", found=found_of(kept, last, bench))


def key_of(given: str) -> str:
    """Return the key of an event, a new one where none is given.

    Raises:
        WrapwrightError: unusable; too long.
    """
    if len(given) > LONGEST_KEY:
        message = f"The key of an event has {len(given)} characters; the limit is {LONGEST_KEY}."
        raise WrapwrightError(Kind.UNUSABLE, message, where="key")
    return given or uuid4().hex


def _quicker(kept: HeatKept, request: TellEvent) -> None:
    if request.revision is not None and request.revision != kept.revision:
        message = (
            f"Another station was quicker: heat {kept.id} is at revision {kept.revision}, not at {request.revision}."
        )
        raise WrapwrightError(Kind.REFUSED, message, remedy="Look at it again, then decide.")
    if len(kept.events) >= MOST_EVENTS:
        message = f"Heat {kept.id} has {len(kept.events)} events; the limit is {MOST_EVENTS}."
        raise WrapwrightError(Kind.REFUSED, message, remedy="End it and start another.")


def _then(now: Stamp, request: TellEvent, kept: HeatKept) -> Stamp:
    """Return when it happened: now, or so long ago, but never before what was told before it."""
    ago = min(max(0.0, request.ago_s), MOST_AGO_S)
    ago = min(ago, max(0.0, (now.at - kept.events[-1].at).total_seconds()))
    return Stamp(now.at - timedelta(seconds=ago), now.boot, now.ticks - ago)


def _event(request: TellEvent, key: str, kept: HeatKept, stamp: Stamp) -> Event:
    seconds = request.seconds if request.kind in ("longer", "door-closed") else None
    celsius = request.celsius if request.kind == "measured" else None
    return Event(kept.events[-1].number + 1, request.kind, stamp, key, seconds, celsius)
