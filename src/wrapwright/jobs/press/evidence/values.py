"""What is asked about evidence and what comes back: frozen, picklable values."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.press.fit.values import Fitted, Reference
from wrapwright.jobs.press.kept.heaters import HeaterKept
from wrapwright.outside.logs.values import LogAsked

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wrapwright.core.press.fit.without.oven_map import Point
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow

EvidenceKind = Literal["log", "readings", "recipe", "map"]
LONGEST_NOTE = 200


@dataclass(frozen=True)
class About:
    """Which heater a piece of evidence is about, when it was gathered, and the user's own words.

    Attributes:
        heater: its name; "" where the number says it, or where nothing is kept.
        heater_id: its number, 0: by name.
        day: None: today.
        note: at most LONGEST_NOTE characters.
        keep: whether it is kept; else it is only looked at.
    """

    heater: str = ""
    heater_id: int = 0
    day: date | None = None
    note: str = ""
    keep: bool = True


@dataclass(frozen=True)
class FitLog:
    """A log to be fitted.

    Attributes:
        file: the log.
        about: what it is about.
        columns: what a person says of its columns, unit and dates.
        set_c: what the heater was set to.
        material: of the wall; "" for the recipe's.
        wall_mm: its thickness, of a double one its outer shell's; None: not known.
        double: vacuum ware; None: as the recipe has it.
        covers: what lay over the coating, by name; None: as the recipe has it, bare without one.
        recipe: whose wall and covers it was; "" for none.
        reference: for the sensor's own offset.
        from_s, to_s: the part to look at; None: it is found.
        shown: the log's name in sentences; "" for the file's own.
    """

    file: Path
    about: About = field(default_factory=About)
    columns: LogAsked = field(default_factory=LogAsked)
    set_c: float | None = None
    material: str = ""
    wall_mm: float | None = None
    double: bool | None = None
    covers: tuple[str, ...] | None = None
    recipe: str = ""
    reference: Reference | None = None
    from_s: float | None = None
    to_s: float | None = None
    shown: str = ""


@dataclass(frozen=True)
class KeepReadings:
    """Readings of a thermometer: what was set and read, degrees C; the step of reading and its own error, K."""

    about: About
    set_c: float
    read_c: tuple[float, ...]
    step_k: float
    class_k: float | None = None


@dataclass(frozen=True)
class KeepKnown:
    """A recipe known to be good in this heater, as it was heated.

    Attributes:
        about: the heater.
        recipe: its name.
        set_c: what was set; None: the middle of the recipe.
        dwell_s: how long; None: the middle of the recipe.
        pieces: heated together.
        wall_mm: of the wall; None: the recipe's own.
    """

    about: About
    recipe: str
    set_c: float | None = None
    dwell_s: float | None = None
    pieces: int = 1
    wall_mm: float | None = None


@dataclass(frozen=True)
class KeepMap:
    """A map of an oven, point by point."""

    about: About
    points: tuple[Point, ...]


@dataclass(frozen=True)
class ShowEvidence:
    """All that is known of a heater, by its number or (number 0) its name."""

    heater_id: int = 0
    heater: str = ""


@dataclass(frozen=True)
class DropEvidence:
    """Remove one piece of evidence; the newest of those that stay goes into the heater's figures."""

    heater_id: int
    evidence: int


@dataclass(frozen=True)
class Known:
    """What is known of a heater.

    Attributes:
        heater: as it is kept, the newest figures in it.
        evidence: the newest first.
        sources: which evidence each figure comes from, by the figure's name.
        words: what there is to say of it as a whole.
    """

    heater: HeaterKept
    evidence: tuple[EvidenceRow, ...]
    sources: Mapping[str, int] = field(default_factory=dict)
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class Told:
    """What one piece of evidence told.

    Attributes:
        kind: log, readings, recipe or map.
        figures: what goes into the heater, by the names of `core.press.values.Heater`.
        words: sentences.
        fitted: of a log.
        known: the heater with it, None where nothing was kept.
        evidence: its number, 0 where it was not kept.
        more: what else documents state of it.
    """

    kind: EvidenceKind
    figures: Mapping[str, Any]
    words: tuple[str, ...]
    fitted: Fitted | None = None
    known: Known | None = None
    evidence: int = 0
    more: Mapping[str, Any] = field(default_factory=dict)
