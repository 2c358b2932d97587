"""What is said of a heat: its events, what to do now, what is odd."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.heat_words import celsius_words, seconds_words
from wrapwright.core.press.run.values import Event, HeatPlan, HeatState, Phase

_UNLOADED_S = 5.0  # what a hand needs; shorter is not called late
_OPENED_S = 1.0  # a shorter opening is a slip of the finger


def event_words(event: Event) -> str:
    """Return what happened."""
    if event.kind == "longer":
        return f"{seconds_words(event.seconds or 0.0)} added to the dwell"
    if event.kind == "measured":
        return f"Measured {celsius_words(event.celsius or 0.0)}"
    if event.kind == "door-closed" and event.seconds:
        return f"The door had stood open for {seconds_words(event.seconds)}"
    return _EVENTS[event.kind]


_EVENTS = {
    "preheat": "Started: the empty heater warms up",
    "ready": "At temperature",
    "loaded": "Pieces in, door closed",
    "door-opened": "Door opened",
    "door-closed": "Door closed",
    "turned": "Turned",
    "taken-out": "Taken out",
    "cooled": "Cool",
    "stopped": "Stopped",
    "ended": "Ended",
}


def state_words(plan: HeatPlan, state: HeatState, looked: Sequence[str] = ()) -> list[str]:
    """Return what to do now and what is odd, the most pressing first; `looked` are the pieces' results so far."""
    return [word for make in _SAYING.get(state.phase, ()) for word in make(plan, state, looked) if word]


def _preheat(plan: HeatPlan, state: HeatState, _looked: Sequence[str]) -> list[str]:
    there = f"Set to {celsius_words(plan.set_c)}."
    if state.over_s is not None:
        return [f"It should be at temperature. {there} Check it, then say so.", ""]
    if not plan.preheat_s:
        return [f"Warming up. {there} Say when it is at temperature.", ""]
    return [f"Warming up, about {seconds_words(plan.preheat_s)} in all. {there}"]


def _loading(plan: HeatPlan, _state: HeatState, _looked: Sequence[str]) -> list[str]:
    closed = "close the door" if plan.heater_kind == "oven" else "close the press"
    return [f"Put the pieces in quickly, {closed}, then say so: the dwell counts from there."]


def _dwell(plan: HeatPlan, state: HeatState, _looked: Sequence[str]) -> list[str]:
    said = []
    if state.turn_due:
        said.append("Turn the pieces now.")
    if state.door_open:
        said.append(f"The {_door(plan)} is open, for {seconds_words(state.openings[-1].for_s)} now: close it.")
    said.append("Soaking: the coating is at temperature." if state.soak else "Warming the wall.")
    return said + _opened(plan, state)


def _unload(plan: HeatPlan, state: HeatState, _looked: Sequence[str]) -> list[str]:
    late = state.over_s or 0.0
    if late < _UNLOADED_S:
        return ["Take the pieces out now.", *_opened(plan, state)]
    return [f"Take the pieces out now: {seconds_words(late)} over.", *_opened(plan, state)]


def _cool(_plan: HeatPlan, state: HeatState, _looked: Sequence[str]) -> list[str]:
    return [_taken(state), "Hot: do not touch or unwrap with bare hands."]


def _look(_plan: HeatPlan, state: HeatState, looked: Sequence[str]) -> list[str]:
    left = sum(not one for one in looked)
    if not left:
        return [_taken(state), "Every piece has been looked at."]
    count = "the piece" if left == 1 else f"the {left} pieces"
    return [f"Unwrap and look at {count}: good, or which fault?", _taken(state)]


def _ended(_plan: HeatPlan, state: HeatState, _looked: Sequence[str]) -> list[str]:
    if state.loaded is None:
        return ["Ended before anything was put in."]
    return [_taken(state)]


def _taken(state: HeatState) -> str:
    if state.stopped:
        return f"Broken off after {seconds_words(state.in_s)} of {seconds_words(state.dwell_s)}."
    if state.early_s >= 1.0:
        return f"Taken out {seconds_words(state.early_s)} early, after {seconds_words(state.in_s)}."
    if state.late_s > _UNLOADED_S:
        return f"Taken out {seconds_words(state.late_s)} late, after {seconds_words(state.in_s)}."
    return f"In for {seconds_words(state.in_s)}, as planned."


def _opened(plan: HeatPlan, state: HeatState) -> list[str]:
    openings = [one for one in state.openings if one.for_s >= _OPENED_S]
    if not openings:
        return []
    whole, count = sum(one.for_s for one in openings), len(openings)
    often = "once" if count == 1 else f"{count} times"
    return [f"The {_door(plan)} was opened {often}, {seconds_words(whole)} in all."]


def _door(plan: HeatPlan) -> str:
    return "door" if plan.heater_kind == "oven" else "press"


_SAYING = {
    "preheat": (_preheat,),
    "loading": (_loading,),
    "dwell": (_dwell,),
    "unload": (_unload,),
    "cool": (_cool,),
    "look": (_look,),
    "ended": (_ended,),
}
STEPS: dict[Phase, tuple[str, ...]] = {
    "preheat": ("prepare", "heat"),
    "loading": ("prepare", "heat"),
    "dwell": ("heat",),
    "unload": ("heat",),
    "cool": ("heat", "finish"),
    "look": ("finish", "use"),
    "ended": (),
}
