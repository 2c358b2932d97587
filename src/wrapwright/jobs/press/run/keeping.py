"""What a heat's plan holds besides its figures, as it is stored: heater, recipe, load, what was ticked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from wrapwright.core.press.run.plain import heater_of, heater_table, load_of, load_table, plan_of, plan_table
from wrapwright.core.press.run.values import HeatPlan
from wrapwright.core.press.values import Heater, Load, Window

if TYPE_CHECKING:
    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.outside.store.rows.press.heats import HeatKept


@dataclass(frozen=True)
class RecipeUsed:
    """What of a recipe its heat goes on by, whatever becomes of the recipe."""

    id: int
    name: str
    version: int
    title: str
    ware: str
    source: str
    celsius: tuple[float, float]
    seconds: tuple[float, float]
    lidded: bool = False
    flat: bool = False
    hold: str = ""
    double: bool = False


@dataclass(frozen=True)
class Planned:
    """A heat's plan, read.

    Attributes:
        plan: its figures.
        heater, rated_w, calibrated: what heats, its rated power, whether it was calibrated.
        load: what is heated; None where its wall is not known.
        recipe: what it is heated by.
        words: what was said when it started.
        ticked: names of what was ticked.
        log: a logger's file, "" for none.
        window: where a dose does its work, as far as it was known.
        makings: by a piece's number the making that it is of, where there is one.
    """

    plan: HeatPlan
    heater: Heater
    rated_w: float
    calibrated: bool
    load: Load | None
    recipe: RecipeUsed
    words: tuple[str, ...] = ()
    ticked: tuple[str, ...] = ()
    log: str = ""
    window: Window = field(default=Window())
    makings: Mapping[str, int] = field(default_factory=dict)

    @property
    def double(self) -> bool:
        """Whether what is heated is double-walled, by its recipe or by its wall."""
        return self.recipe.double or (self.load is not None and self.load.wall.double)

    def table(self) -> dict[str, Any]:
        """Return the plan as it is stored."""
        from dataclasses import asdict

        recipe = asdict(self.recipe)
        recipe |= {key: list(recipe[key]) for key in ("celsius", "seconds")}
        return {
            "plan": plan_table(self.plan),
            "heater": heater_table(self.heater),
            "rated_w": self.rated_w,
            "calibrated": self.calibrated,
            "load": None if self.load is None else load_table(self.load),
            "recipe": recipe,
            "words": list(self.words),
            "ticked": list(self.ticked),
            "log": self.log,
            "window": asdict(self.window),
            "makings": dict(self.makings),
        }


def planned(kept: HeatKept) -> Planned:
    """Return the plan of a stored heat."""
    table = kept.plan
    recipe = {key: table["recipe"][key] for key in RecipeUsed.__dataclass_fields__ if key in table["recipe"]}
    for key in ("celsius", "seconds"):
        recipe[key] = tuple(recipe[key])
    return Planned(
        plan=plan_of(table["plan"]),
        heater=heater_of(table["heater"]),
        rated_w=float(table.get("rated_w", 0.0)),
        calibrated=bool(table.get("calibrated", False)),
        load=None if table.get("load") is None else load_of(table["load"]),
        recipe=RecipeUsed(**recipe),
        words=tuple(table.get("words", ())),
        ticked=tuple(table.get("ticked", ())),
        log=str(table.get("log", "")),
        window=_window(table.get("window", {})),
        makings=table.get("makings", {}),
    )


def _window(table: Mapping[str, Any]) -> Window:
    low, high = (None if table.get(key) is None else (float(table[key][0]), float(table[key][1])) for key in _BOUNDS)
    return Window(low, high, str(table.get("source", "")))


_BOUNDS = ("low", "high")


def used(recipe: Recipe) -> RecipeUsed:
    """Return what of a recipe its heat goes on by."""
    from wrapwright.core.press.recipe.stops import is_vacuum

    return RecipeUsed(
        id=recipe.id,
        name=recipe.name,
        version=recipe.version,
        title=recipe.title,
        ware=recipe.ware,
        source=recipe.source,
        celsius=recipe.celsius,
        seconds=recipe.seconds,
        lidded=recipe.lidded,
        flat=recipe.heater == "flat-press",
        hold=recipe.hold,
        double=is_vacuum(recipe),
    )
