"""What is asked of heats, and what is told of them: frozen, picklable values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wrapwright.core.press.run.faults.values import Ranked
from wrapwright.core.press.run.values import EventKind, Phase
from wrapwright.core.press.values import HeaterKind


@dataclass(frozen=True)
class ShowPress:
    """Everything on the press's screen."""


@dataclass(frozen=True)
class StartHeat:
    """Start a heat.

    Attributes:
        heater: its name or, where `heater_id` is given, whatever.
        recipe: its name.
        pieces: numbers as scanned or typed; "" for a piece without one.
        count: how many go in; 0: as many as `pieces`.
        set_c: what the heater is set to; None: the recipe's middle.
        dwell_s: from the door's closing; None: what is recommended for this load, else the recipe's middle.
        ticked: names of what was ticked.
        preheat: the empty heater is warmed up first.
        key: given by the sender; the same key again gives the heat that it started.
        heater_id: number of the heater; 0: by name.
        log: a logger's growing file of temperatures; "" for none.
        thickness_mm: of the wall, where it is not the recipe's.
    """

    heater: str
    recipe: str
    pieces: tuple[str, ...] = ()
    count: int = 0
    set_c: float | None = None
    dwell_s: float | None = None
    ticked: tuple[str, ...] = ()
    preheat: bool = False
    key: str = ""
    heater_id: int = 0
    log: str = ""
    thickness_mm: float | None = None


@dataclass(frozen=True)
class ShowHeat:
    """One heat."""

    id: int


@dataclass(frozen=True)
class ListHeats:
    """Heats, the newest first: of one heater (0: all), with one piece ("": any), only those that have not ended."""

    heater: int = 0
    piece: str = ""
    open_only: bool = False
    most: int = 50


@dataclass(frozen=True)
class TellEvent:
    """Something happened to a heat.

    Attributes:
        id: of the heat.
        kind: what.
        seconds: longer: how much; door-closed: how long it stood open, where its opening was not told.
        celsius: measured: what the thermometer reads.
        key: given by the sender; the same key twice stands once.
        revision: the sender saw; None: whatever it is. Another station that was quicker is not overruled.
        ago_s: how long ago it happened, where it could not be told at once.
    """

    id: int
    kind: EventKind
    seconds: float | None = None
    celsius: float | None = None
    key: str = ""
    revision: int | None = None
    ago_s: float = 0.0


@dataclass(frozen=True)
class TellLook:
    """What became of a piece: "good" or a fault; its number, where it was not given before (None: as it is)."""

    id: int
    place: int
    result: str
    note: str = ""
    piece: str | None = None


@dataclass(frozen=True)
class HeaterWord:
    """A heater by number, name and kind."""

    id: int
    name: str
    kind: HeaterKind


@dataclass(frozen=True)
class RecipeWord:
    """A recipe by name, version and title."""

    name: str
    version: int
    title: str


@dataclass(frozen=True)
class PieceTold:
    """A piece by place, with its number, its result ("", good or a fault) and why it went wrong; 0: of no making."""

    place: int
    piece: str
    result: str
    note: str
    making: int = 0
    causes: tuple[Ranked, ...] = ()


@dataclass(frozen=True)
class EventTold:
    """What happened, in words too; `at` as text."""

    number: int
    kind: EventKind
    at: str
    words: str


@dataclass(frozen=True)
class DoseTold:
    """Equivalent minutes at 195 degrees Celsius.

    Attributes:
        now, now_low, now_high: so far, with its band; None where it cannot be reckoned.
        planned_low, planned_mid, planned_high: at the end of the dwell, as planned.
        target: what is aimed at; None: not known yet.
        by: what tells it: "model", or "log" where a logger reads along.
        air_c, coating_c: reckoned now; None where they cannot be.
    """

    now: float | None
    now_low: float | None
    now_high: float | None
    planned_low: float | None
    planned_mid: float | None
    planned_high: float | None
    target: float | None
    by: str
    air_c: float | None
    coating_c: float | None


@dataclass(frozen=True)
class CautionTold:
    """A caution and whether it is grave."""

    text: str
    grave: bool


@dataclass(frozen=True)
class OfferTold:
    """Something that could be done now: an event's kind with its seconds, and why."""

    kind: EventKind
    seconds: float | None
    words: str


@dataclass(frozen=True)
class TickTold:
    """What is ticked before a start."""

    name: str
    text: str


@dataclass(frozen=True)
class HeatTold:
    """A heat as it is now; times are texts in UTC, lengths of time in seconds.

    Attributes:
        soak_s: when the coating comes to its temperature, from the door's closing; None where not reckoned.
        may: kinds of events that can happen now.
    """

    id: int
    revision: int
    heater: HeaterWord
    recipe: RecipeWord
    phase: Phase
    soak: bool
    now: str
    phase_began: str
    phase_ends: str | None
    remaining_s: float | None
    over_s: float | None
    set_c: float
    dwell_s: float
    preheat_s: float
    cool_s: float
    door_open: bool
    turn_at_s: tuple[float, ...]
    pieces: tuple[PieceTold, ...]
    events: tuple[EventTold, ...]
    dose: DoseTold
    words: tuple[str, ...]
    cautions: tuple[CautionTold, ...]
    offers: tuple[OfferTold, ...]
    started: str
    loaded: str | None
    out: str | None
    ended: str | None
    in_s: float
    soak_s: float | None
    turn_due: bool
    stopped: bool
    may: tuple[EventKind, ...]


@dataclass(frozen=True)
class HeaterTold:
    """A heater on the screen, with what it heats just now or has not been looked at yet."""

    id: int
    name: str
    kind: HeaterKind
    capacity: int
    rated_w: float
    circuit: str
    calibrated: bool
    heat: HeatTold | None


@dataclass(frozen=True)
class RecipeTold:
    """A recipe on the screen, with what is ticked before it starts."""

    id: int
    name: str
    title: str
    version: int
    ware: str
    heater: str
    celsius: tuple[float, float]
    seconds: tuple[float, float]
    lidded: bool
    preheat: bool
    source: str
    ticks: tuple[TickTold, ...]


@dataclass(frozen=True)
class CircuitTold:
    """A circuit: its breaker, what runs on it, and what it is used for at most."""

    name: str
    volts: float
    amps: float
    load_w: float
    limit_w: float


@dataclass(frozen=True)
class PressTold:
    """Everything on the press's screen; `waiting` are heats out of their heater that have not been looked at."""

    now: str
    heaters: tuple[HeaterTold, ...]
    recipes: tuple[RecipeTold, ...]
    circuits: tuple[CircuitTold, ...]
    waiting: tuple[HeatTold, ...]
    faults: Mapping[str, str]
    words: tuple[str, ...]
