"""A heat as its events tell it: what was planned, what happened when, and what that makes of it now."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, get_args

from wrapwright.core.press.values import Dose, HeaterKind, Opening

Phase = Literal["preheat", "loading", "dwell", "unload", "cool", "look", "ended"]
EventKind = Literal[
    "preheat",
    "ready",
    "loaded",
    "door-opened",
    "door-closed",
    "turned",
    "longer",
    "taken-out",
    "cooled",
    "measured",
    "stopped",
    "ended",
]
PHASES: tuple[Phase, ...] = get_args(Phase)
EVENT_KINDS: tuple[EventKind, ...] = get_args(EventKind)
GOOD = "good"


@dataclass(frozen=True)
class Stamp:
    """A moment, with what lets another clock be compared.

    Attributes:
        at: UTC.
        boot: which start of the machine the ticks count from; "" where that is not known.
        ticks: seconds on the machine's own counter, sleep counted.
    """

    at: datetime
    boot: str = ""
    ticks: float = 0.0


@dataclass(frozen=True)
class Event:
    """Something that happened.

    Attributes:
        number: in its heat, from 1.
        kind: what.
        stamp: when.
        key: given by the sender.
        seconds: longer: how much; door-closed: how long it stood open, where nobody said when it opened.
        celsius: measured: what the thermometer reads.
    """

    number: int
    kind: EventKind
    stamp: Stamp
    key: str = ""
    seconds: float | None = None
    celsius: float | None = None

    @property
    def at(self) -> datetime:
        """When it happened."""
        return self.stamp.at


@dataclass(frozen=True)
class HeatPlan:
    """What was planned when the heat began; times in s.

    Attributes:
        heater_kind: oven, mug-press or flat-press.
        set_c: what the heater is set to.
        dwell_s: from the door's closing.
        preheat: whether the heat begins with an empty heater that warms up.
        preheat_s: how long that takes, an estimate; 0 where it cannot be said.
        cool_s: until the pieces may be touched and unwrapped; 0 for at once.
        turn_at_s: when the pieces are turned, from the door's closing.
        warm_s: when the coating has come to its temperature, from the door's closing; None where not reckoned.
        dose: planned, with its band; None where it was not reckoned.
        target: the dose aimed at, in equivalent minutes; None: not known yet.
    """

    heater_kind: HeaterKind
    set_c: float
    dwell_s: float
    preheat: bool = False
    preheat_s: float = 0.0
    cool_s: float = 0.0
    turn_at_s: tuple[float, ...] = ()
    warm_s: float | None = None
    dose: Dose | None = None
    target: float | None = None


@dataclass(frozen=True)
class Reading:
    """A thermometer read: when, from the door's closing (below 0: before, at temperature), and what it said."""

    at_s: float
    celsius: float


@dataclass(frozen=True)
class HeatState:
    """What a heat is at one moment; times in s.

    Attributes:
        phase: preheat, loading, dwell, unload, cool, look or ended.
        soak: in the dwell: the coating has come to its temperature.
        now: the moment.
        began: when the phase began.
        ends: when it is to end; None where that is for the person to say.
        over_s: how far the end has passed while nobody did anything; None where nothing is over.
        loaded: when the door closed behind the pieces; None before.
        out: when they were taken out; None before.
        in_s: how long they have been in, or were; 0 before.
        dwell_s: planned, with what was added.
        longer_s: what was added.
        door_open: whether the door stands open while they are in.
        openings: of the door while they are in; one that stands open counts up to now.
        readings: of a thermometer, from when the heater was said to be at temperature.
        turns: how often they have been turned.
        turn_due: whether a turn is due and has not been done.
        stopped: whether the heat was broken off.
    """

    phase: Phase
    soak: bool
    now: datetime
    began: datetime
    ends: datetime | None
    over_s: float | None
    loaded: datetime | None
    out: datetime | None
    in_s: float
    dwell_s: float
    longer_s: float
    door_open: bool
    openings: tuple[Opening, ...]
    readings: tuple[Reading, ...]
    turns: int
    turn_due: bool
    stopped: bool

    @property
    def remaining_s(self) -> float | None:
        """Seconds to the phase's end, 0 when it has passed; None where it has none."""
        return None if self.ends is None else max(0.0, (self.ends - self.now).total_seconds())

    @property
    def early_s(self) -> float:
        """Seconds of the dwell that were missing when the pieces were taken out; 0 for none."""
        return max(0.0, self.dwell_s - self.in_s) if self.out is not None else 0.0

    @property
    def late_s(self) -> float:
        """Seconds beyond the dwell that the pieces were in, so far."""
        return max(0.0, self.in_s - self.dwell_s) if self.loaded is not None else 0.0
