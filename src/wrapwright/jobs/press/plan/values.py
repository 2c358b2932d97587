"""What is asked of a heat's plan, and what comes back: frozen, picklable values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from wrapwright.core.base.findings import Finding
from wrapwright.core.press.load.values import Aim, Recommended, Shift
from wrapwright.core.press.recipe.values import Recipe
from wrapwright.core.press.values import Load, Window
from wrapwright.jobs.press.kept.heaters import HeaterKept

if TYPE_CHECKING:
    from wrapwright.core.press.dose.band import DoseBand

WallFrom = Literal["given", "recipe"]


@dataclass(frozen=True)
class PlanHeat:
    """What is asked about one load.

    Attributes:
        recipe: its name; or the recipe itself, as it has been found already.
        heater: its name, or its kind for one to start from; "": the recipe's kind.
        heater_id: number of the heater, 0: by name.
        pieces: together in it.
        wall_mm: thickness of the wall, of a double one its outer shell; None: the recipe's own, where `recipe_wall`.
        material: "" for the recipe's.
        double: None for the recipe's.
        face_m2: heated outer face of one piece; None: a usual one.
        set_c: what the heater is set to; None: the middle of the recipe.
        dwell_s: how long they stay; None: what is recommended.
        preheated: whether the heater is hot before; None: as the recipe has it.
        power_w, capacity: in place of the heater's own; None: those.
        recipe_wall: whether the recipe's own wall stands in for one that is not given.
    """

    recipe: str | Recipe
    heater: str = ""
    heater_id: int = 0
    pieces: int = 1
    wall_mm: float | None = None
    material: str = ""
    double: bool | None = None
    face_m2: float | None = None
    set_c: float | None = None
    dwell_s: float | None = None
    preheated: bool | None = None
    power_w: float | None = None
    capacity: int | None = None
    recipe_wall: bool = False


@dataclass(frozen=True)
class Asked:
    """A load in its heater, all names found and all figures in their limits; nothing reckoned yet.

    Attributes:
        recipe: what it goes by.
        heater: what heats.
        load: what is heated.
        wall_from: whether the wall was given or is the recipe's own.
        dwell_s: how long it stays, None for what is recommended.
        face_given: whether the face was measured.
        capacity: pieces that the heater holds; at least those asked about.
        window: the dose's bounds as they are known.
    """

    recipe: Recipe
    heater: HeaterKept
    load: Load
    wall_from: WallFrom = "given"
    dwell_s: float | None = None
    face_given: bool = False
    capacity: int = 1
    window: Window = field(default_factory=Window)


@dataclass(frozen=True)
class Planned:
    """A load's heat as it is reckoned.

    Attributes:
        asked: what it is about.
        aim: the dose that is wanted.
        rows: how long 1, 2, 3 ... pieces want, up to the heater's capacity.
        chosen: the row of the pieces asked about.
        dwell_s: how long they stay: as given, else the recommended as a timer is set.
        band: what that does, with its curves.
        shifts: what small changes do.
        findings: what speaks against it.
        words: what there is to say, in sentences.
    """

    asked: Asked
    aim: Aim
    rows: tuple[Recommended, ...]
    chosen: Recommended
    dwell_s: float
    band: DoseBand
    shifts: tuple[Shift, ...]
    findings: tuple[Finding, ...] = field(default=())
    words: tuple[str, ...] = ()
