"""Heats as they are: one, a list of them, and everything on the press's screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wrapwright.core.press.run.circuit import CircuitLoad
from wrapwright.core.press.run.faults.values import TITLES
from wrapwright.core.press.run.starting import Tick, ticks_of
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.run.live.moments import moment, said
from wrapwright.jobs.press.run.telling import told
from wrapwright.jobs.press.run.values import (
    CircuitTold,
    HeaterTold,
    HeatTold,
    ListHeats,
    PressTold,
    RecipeTold,
    ShowHeat,
    ShowPress,
    TickTold,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept


def show_heat(request: ShowHeat, bench: Bench, watch: Watch) -> HeatTold:
    """Return one heat as it is now.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.press.heats import heat_kept

    with bench.kept().reading() as connection:
        kept = heat_kept(connection, request.id)
        now, words = moment(connection, bench)
    return told(kept, now.at, bench, (words,) if words else ())


def list_heats(request: ListHeats, bench: Bench, watch: Watch) -> tuple[HeatTold, ...]:
    """Return heats, the newest first."""
    del watch
    from wrapwright.outside.store.rows.press.heats import heat_rows

    with bench.kept().reading() as connection:
        kept = heat_rows(
            connection,
            heater=request.heater,
            piece=piece_of(request.piece),
            open_only=request.open_only,
            most=request.most,
        )
        now, _ = moment(connection, bench)
    return tuple(told(one, now.at, bench) for one in kept)


def show_press(request: ShowPress, bench: Bench, watch: Watch) -> PressTold:
    """Return heaters with what they heat, recipes with what is ticked, circuits with their load."""
    del request, watch
    from wrapwright.jobs.press.kept.heaters import heaters_of
    from wrapwright.jobs.press.kept.recipes import ListRecipes, list_recipes
    from wrapwright.outside.store.rows.press.heats import heat_rows

    recipes = list_recipes(ListRecipes(), bench, Watch())
    with bench.kept().reading() as connection:
        heaters = heaters_of(connection)
        kept = heat_rows(connection, open_only=True)
        now, words = moment(connection, bench)
        circuits = circuits_told(connection, heaters)
    running = {one.heater: one for one in kept if one.state == "running"}
    waiting = [one for one in kept if one.state == "looking"]
    shown = {one.heater: one for one in reversed(waiting)} | running
    rest = [one for one in waiting if shown.get(one.heater) is not one or not one.heater]
    heats = {number: told(one, now.at, bench) for number, one in shown.items() if number}
    return PressTold(
        now=said(now.at),
        heaters=tuple(_heater(one, heats.get(one.id)) for one in heaters),
        recipes=tuple(_recipe(one.recipe) for one in recipes),
        circuits=circuits,
        waiting=tuple(told(one, now.at, bench) for one in rest),
        faults={str(name): title for name, title in TITLES.items()},
        words=(words,) if words else (),
    )


def circuits_told(connection: Connection, heaters: Sequence[HeaterKept]) -> tuple[CircuitTold, ...]:
    """Return the circuits with the rated power of what runs on each."""
    from wrapwright.outside.store.rows.press.circuits import circuit_rows

    found = []
    for row in circuit_rows(connection):
        load = sum(one.rated_w for one in heaters if one.busy and one.circuit == row.id)
        circuit = CircuitLoad(row.name, row.volts, row.amps, load)
        found.append(CircuitTold(row.name, row.volts, row.amps, load, circuit.limit_w))
    return tuple(found)


def ticks_for(recipe: Recipe) -> tuple[Tick, ...]:
    """Return what is ticked before a recipe's heat starts; ware that nobody knows counts as lidded."""
    from wrapwright.core.press.recipe.stops import is_vacuum

    unknown = recipe.ware == "unknown" and recipe.heater != "flat-press"
    return ticks_of(lidded=recipe.lidded or unknown, double=is_vacuum(recipe))


def piece_of(given: str) -> str:
    """Return a piece's number as it is kept: no spaces round it, capital letters."""
    return " ".join(given.split()).upper()


def _heater(one: HeaterKept, heat: HeatTold | None) -> HeaterTold:
    kind, capacity = one.heater.kind, one.heater.capacity
    return HeaterTold(one.id, one.name, kind, capacity, one.rated_w, one.circuit_name, one.calibrated, heat)


def _recipe(one: Recipe) -> RecipeTold:
    return RecipeTold(
        id=one.id,
        name=one.name,
        title=one.title,
        version=one.version,
        ware=one.ware,
        heater=one.heater,
        celsius=one.celsius,
        seconds=one.seconds,
        lidded=one.lidded,
        preheat=one.preheat,
        source=one.source,
        ticks=tuple(TickTold(tick.name, tick.text) for tick in ticks_for(one)),
    )
