"""The state of a heat: a pure function of its plan, its events and the moment.

Nothing is counted down anywhere: whoever asks later, after a reload, a sleep or a restart, is told the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from wrapwright.core.press.run.values import Event, EventKind, HeatPlan, HeatState, Phase, Reading
from wrapwright.core.press.values import Opening


@dataclass
class _Marks:
    """The moments that part the phases; None for what has not happened."""

    began: datetime
    ready: datetime | None = None
    loaded: datetime | None = None
    out: datetime | None = None
    cooled: datetime | None = None
    ended: datetime | None = None


def state_of(plan: HeatPlan, events: Sequence[Event], now: datetime, *, warm_s: float | None = None) -> HeatState:
    """Return the state of a heat.

    Args:
        plan: what was planned.
        events: what happened, in order; the first is the heat's start.
        now: the moment; never before the last event (an earlier one counts as that event's).
        warm_s: when the coating came to its temperature as reckoned with what happened; None: as planned.

    Raises:
        ValueError: for no events.
    """
    if not events:
        raise ValueError("a heat begins with an event.")
    now = max(now, events[-1].at)
    marks = _marks(plan, events)
    longer_s = sum(one.seconds or 0.0 for one in events if one.kind == "longer")
    dwell_s = plan.dwell_s + longer_s
    phase, began, ends = _phase(plan, marks, now, dwell_s)
    in_s = 0.0 if marks.loaded is None else ((marks.out or marks.ended or now) - marks.loaded).total_seconds()
    openings, door_open = _openings(events, marks, now)
    turns = sum(one.kind == "turned" for one in events)
    warm = plan.warm_s if warm_s is None else warm_s
    over = (now - ends).total_seconds() if ends is not None else -1.0
    return HeatState(
        phase=phase,
        soak=phase == "dwell" and warm is not None and in_s >= warm,
        now=now,
        began=began,
        ends=ends,
        over_s=over if over >= 0.0 else None,
        loaded=marks.loaded,
        out=marks.out,
        in_s=in_s,
        dwell_s=dwell_s,
        longer_s=longer_s,
        door_open=door_open,
        openings=openings,
        readings=_readings(events, marks),
        turns=turns,
        turn_due=phase == "dwell" and sum(at <= in_s for at in plan.turn_at_s) > turns,
        stopped=any(one.kind == "stopped" for one in events),
    )


def _marks(plan: HeatPlan, events: Sequence[Event]) -> _Marks:
    """Return the marks; what is told out of its order (taken out before anything was in) did not happen."""
    marks = _Marks(events[0].at)
    for one in events:
        _mark(marks, one.kind, one.at)
        if marks.ended is not None:
            break
    marks.ready = marks.ready or (marks.loaded if plan.preheat else marks.began)
    return marks


def _mark(marks: _Marks, kind: EventKind, at: datetime) -> None:
    """Note what an event makes of a heat: the first of its kind counts."""
    if kind == "ready":
        marks.ready = marks.ready or at
    elif kind == "loaded":
        marks.loaded = marks.loaded or at
    elif kind in ("taken-out", "stopped") and marks.loaded is not None:
        marks.out = marks.out or at
    elif kind == "cooled" and marks.out is not None:
        marks.cooled = marks.cooled or at
    elif kind == "ended" or (kind == "stopped" and marks.loaded is None):
        # Stopped before anything was in: there is nothing to take out, to cool or to look at.
        marks.ended = at


def _phase(plan: HeatPlan, marks: _Marks, now: datetime, dwell_s: float) -> tuple[Phase, datetime, datetime | None]:
    """Return the phase with when it began and when it is to end."""
    if marks.ended is not None:
        return "ended", marks.ended, None
    if marks.out is not None:
        cool = marks.cooled or marks.out + timedelta(seconds=plan.cool_s)
        return ("cool", marks.out, cool) if now < cool else ("look", cool, None)
    if marks.loaded is not None:
        done = marks.loaded + timedelta(seconds=dwell_s)
        return ("dwell", marks.loaded, done) if now < done else ("unload", done, done)
    if marks.ready is not None:
        return "loading", marks.ready, None
    return "preheat", marks.began, marks.began + timedelta(seconds=plan.preheat_s) if plan.preheat_s else None


def _openings(events: Sequence[Event], marks: _Marks, now: datetime) -> tuple[tuple[Opening, ...], bool]:
    """Return the door's openings while the pieces are in, and whether it stands open."""
    if marks.loaded is None:
        return (), False
    start, end = marks.loaded, marks.out or marks.ended or now
    spans: list[tuple[datetime, datetime]] = []
    opened: datetime | None = None
    for one in events:
        if one.kind == "door-opened":
            opened = opened or one.at
        elif one.kind == "door-closed":
            since = one.at - timedelta(seconds=one.seconds) if one.seconds else opened
            if since is not None:
                spans.append((since, one.at))
            opened = None
    door_open = opened is not None and marks.out is None and marks.ended is None
    if opened is not None:
        spans.append((opened, end))
    clipped = [(max(since, start), min(until, end)) for since, until in spans]
    told = tuple(
        Opening((since - start).total_seconds(), (until - since).total_seconds())
        for number, (since, until) in enumerate(clipped, 1)
        if until > since or (door_open and number == len(clipped))  # opened this very moment
    )
    return told, door_open


def _readings(events: Sequence[Event], marks: _Marks) -> tuple[Reading, ...]:
    """Return the readings that tell of the heater as the pieces have it: since it was said to be at temperature."""
    if marks.loaded is None:
        return ()
    first, start, end = marks.ready or marks.loaded, marks.loaded, marks.out
    return tuple(
        Reading((one.at - start).total_seconds(), one.celsius)
        for one in events
        if one.kind == "measured" and one.celsius is not None and one.at >= first and (end is None or one.at <= end)
    )
