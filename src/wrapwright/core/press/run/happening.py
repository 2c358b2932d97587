"""What may happen to a heat in its state: what is new, what has been told already, what cannot be."""

from __future__ import annotations

import math
from typing import Literal

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.heat_words import celsius_words
from wrapwright.core.base.units import to_celsius
from wrapwright.core.press.recipe.values import LONGEST_S
from wrapwright.core.press.run.starting import refused
from wrapwright.core.press.run.values import EventKind, HeatState, Phase

# In which phases an event is new.
_WHEN: dict[EventKind, tuple[Phase, ...]] = {
    "preheat": (),  # a heat begins with it; it does not happen again
    "ready": ("preheat",),
    "loaded": ("preheat", "loading"),
    "door-opened": ("dwell", "unload"),
    "door-closed": ("dwell", "unload"),
    "turned": ("dwell", "unload"),
    "longer": ("dwell", "unload"),
    "taken-out": ("dwell", "unload"),
    "cooled": ("cool",),
    "measured": ("preheat", "loading", "dwell", "unload"),
    "stopped": ("preheat", "loading", "dwell", "unload"),
    "ended": ("preheat", "loading", "cool", "look"),
}
_ORDER: tuple[Phase, ...] = ("preheat", "loading", "dwell", "unload", "cool", "look", "ended")
# Told again after they happened they change nothing: two people at two stations press the same button.
_ONCE: tuple[EventKind, ...] = ("ready", "loaded", "taken-out", "cooled", "stopped", "ended")
LONGEST_ADDED_S = 1800.0
LONGEST_OPENING_S = 900.0
_PHASE_WORDS: dict[Phase, str] = {
    "preheat": "is still warming up empty",
    "loading": "waits for its pieces",
    "dwell": "is in its dwell",
    "unload": "waits to be taken out",
    "cool": "is cooling",
    "look": "waits to be looked at",
    "ended": "has ended",
}


def may_happen(state: HeatState) -> tuple[EventKind, ...]:
    """Return the kinds of events that can happen now, the door only the way it can move."""
    kinds = [kind for kind, phases in _WHEN.items() if state.phase in phases]
    gone: EventKind = "door-opened" if state.door_open else "door-closed"
    return tuple(kind for kind in kinds if kind != gone)


def judged(
    state: HeatState, kind: EventKind, *, seconds: float | None = None, celsius: float | None = None
) -> Literal["new", "known"]:
    """Return whether an event is new, or known already so that nothing changes.

    Raises:
        WrapwrightError: refused, when it cannot happen in this state; unusable, for figures that cannot be meant.
    """
    if kind in _ONCE and _happened(state, kind):
        return "known"
    if state.phase not in _WHEN[kind]:
        raise refused(f"This heat {_PHASE_WORDS[state.phase]}: {_NOT[kind]}.", _remedy(state))
    if kind == "door-opened" and state.door_open:
        return "known"
    if kind == "door-closed" and not state.door_open and seconds is None:
        return "known"
    _figures(state, kind, seconds, celsius)
    return "new"


def _happened(state: HeatState, kind: EventKind) -> bool:
    if kind == "stopped":
        return state.stopped or state.phase == "ended"
    after: dict[EventKind, Phase] = {
        "ready": "loading",
        "loaded": "dwell",
        "taken-out": "cool",
        "cooled": "look",
        "ended": "ended",
    }
    if state.phase == "ended" and kind != "ended":
        # Ended before it came so far: that did not happen.
        reached = {"ready": True, "loaded": state.loaded is not None}.get(kind, state.out is not None)
        return bool(reached)
    return _ORDER.index(state.phase) >= _ORDER.index(after[kind])


def _figures(state: HeatState, kind: EventKind, seconds: float | None, celsius: float | None) -> None:
    if kind == "longer":
        _longer(state, seconds)
    elif kind == "door-closed" and seconds is not None and not 0.0 < seconds <= LONGEST_OPENING_S:
        message = f"A door open for {seconds:g} s cannot be meant: it runs to {LONGEST_OPENING_S / 60:g} min."
        raise unusable(message, remedy="Give how many seconds it stood open.", where="seconds")
    elif kind == "measured":
        if celsius is None or not math.isfinite(celsius):
            raise unusable("A reading needs its temperature.", remedy="Give it in C or F.", where="celsius")
        if not -30.0 <= celsius <= 300.0:
            meant = f" Is {celsius:g} °F meant, {to_celsius(celsius):.0f} °C?" if 300.0 < celsius <= 520.0 else ""
            limits = f"{celsius_words(-30.0)} to {celsius_words(300.0)}"
            message = f"{celsius_words(celsius)} is no reading of a heater: those lie from {limits}.{meant}"
            raise unusable(message, remedy="Give degrees Celsius.", where="celsius")


def _longer(state: HeatState, seconds: float | None) -> None:
    if seconds is None or not 1.0 <= seconds <= LONGEST_ADDED_S:
        given = "nothing" if seconds is None else f"{seconds:g} s"
        message = f"{given} cannot be added to the dwell: it runs from 1 s to {LONGEST_ADDED_S / 60:g} min."
        raise unusable(message, remedy="Give the seconds to add.", where="seconds")
    if state.dwell_s + seconds > LONGEST_S.value:
        message = (
            f"The dwell would be {(state.dwell_s + seconds) / 60:.1f} min; the limit is {LONGEST_S.value / 60:g} min."
        )
        raise unusable(message, remedy="Take the pieces out and look at them.", where="seconds")


def problem_of(error: WrapwrightError) -> str:
    """Return the sentence of a problem, for lists."""
    return f"{error.message} {error.remedy}".strip()


_NOT: dict[EventKind, str] = {
    "preheat": "it does not begin again",
    "ready": "it is not warming up",
    "loaded": "nothing can be put in",
    "door-opened": "its door does not matter now",
    "door-closed": "its door does not matter now",
    "turned": "nothing is in it to be turned",
    "longer": "there is no dwell to make longer",
    "taken-out": "nothing is in it to be taken out",
    "cooled": "nothing is cooling",
    "measured": "no temperature is kept of it any more",
    "stopped": "there is nothing to stop",
    "ended": "pieces are in it",
}


def _remedy(state: HeatState) -> str:
    steps: dict[Phase, str] = {
        "preheat": "Say when it is at temperature.",
        "loading": "Say when the pieces are in and the door is closed.",
        "dwell": "Take them out first, or stop the heat.",
        "unload": "Take them out first, or stop the heat.",
        "cool": "Let them cool, then look at them.",
        "look": "Look at the pieces.",
        "ended": "Start another heat.",
    }
    return steps[state.phase]
