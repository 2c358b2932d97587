"""Start a heat: everything that must hold is looked at, and of two stations one has the heater."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.press.run.circuit import CircuitLoad, overload
from wrapwright.core.press.run.starting import MOST_PIECES, refused
from wrapwright.core.press.run.values import Event
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.run.evidence import makings_of
from wrapwright.jobs.press.run.happening import key_of
from wrapwright.jobs.press.run.live.moments import moment
from wrapwright.jobs.press.run.planning import Asked, plan_heat
from wrapwright.jobs.press.run.showing import piece_of, show_heat
from wrapwright.jobs.press.run.telling import told
from wrapwright.jobs.press.run.values import HeatTold, ShowHeat, StartHeat

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.core.press.recipe.values import Recipe
    from wrapwright.jobs.press.kept.heaters import HeaterKept

LONGEST_PIECE = 60


def start_heat(request: StartHeat, bench: Bench, watch: Watch) -> HeatTold:
    """Return the heat that has begun; the same key again gives the one that it began.

    Raises:
        WrapwrightError: unusable, with all that speaks against it; refused when the heater is taken or its circuit
            would be overloaded; missing for no such heater or recipe.
    """
    del watch
    from wrapwright.outside.store.rows.press.heaters import take_heater_row
    from wrapwright.outside.store.rows.press.heats import add_heat_row, event_of_key, heat_kept
    from wrapwright.outside.store.rows.press.recipes import use_recipe_row

    key = key_of(request.key)
    with bench.kept().reading() as connection:
        begun = event_of_key(connection, key)
    if begun is not None:
        return show_heat(ShowHeat(begun[0]), bench, Watch())
    heater = _heater(request, bench)
    recipe = _recipe(request, bench)
    pieces = _pieces(request)
    plan = plan_heat(Asked(heater, recipe, len(pieces), request), bench)
    with bench.kept().writing() as connection:
        now, words = moment(connection, bench)
        said = (words,) if words else ()
        begun = event_of_key(connection, key)
        if begun is not None:
            return told(heat_kept(connection, begun[0]), now.at, bench, said)
        _bears(connection, heater)
        _in_another(connection, pieces)
        plan = replace(plan, makings=makings_of(connection, pieces))
        first = Event(1, "preheat" if request.preheat else "ready", now, key)
        heat = add_heat_row(connection, heater.id, (recipe.id, recipe.version), plan.table(), first, pieces)
        take_heater_row(connection, heater.id, heat)
        use_recipe_row(connection, recipe.id, recipe.version)
        return told(heat_kept(connection, heat), now.at, bench, said)


def _heater(request: StartHeat, bench: Bench) -> HeaterKept:
    from wrapwright.jobs.press.kept.heaters import ShowHeater, heater_named, show_heater

    if request.heater_id:
        return show_heater(ShowHeater(request.heater_id), bench, Watch())
    found = heater_named(request.heater, bench)
    if not found.id:
        message = f"{found.name} is only an example; nothing can be heated in it."
        raise unusable(message, remedy="Add your own first: wrapwright press heater add.", where="heater")
    return found


def _recipe(request: StartHeat, bench: Bench) -> Recipe:
    from wrapwright.jobs.press.kept.recipes import ShowRecipe, show_recipe

    kept = show_recipe(ShowRecipe(name=request.recipe), bench, Watch())
    if kept.retired:
        message = f"The recipe {kept.recipe.name} is no longer offered."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Restore it, or choose another.", where="recipe")
    return kept.recipe


def _pieces(request: StartHeat) -> tuple[str, ...]:
    given = [piece_of(one) for one in request.pieces]
    count = request.count or len(given)
    if count < len(given):
        message = f"{len(given)} piece numbers were given for {count} pieces."
        raise unusable(message, remedy="Give as many pieces as numbers, or more.", where="count")
    if count > MOST_PIECES:
        message = f"{count} pieces are more than any heater holds ({MOST_PIECES})."
        raise unusable(message, remedy="Heat them in turns.", where="count")
    for one in given:
        if len(one) > LONGEST_PIECE:
            message = f"A piece's number has {len(one)} characters; the limit is {LONGEST_PIECE}."
            raise unusable(message, remedy="Scan the code beside the piece, or type what stands there.", where="pieces")
    twice = sorted({one for one in given if one and given.count(one) > 1})
    if twice:
        raise unusable(f"{', '.join(twice)} was given twice.", remedy="Give each piece once.", where="pieces")
    return (*given, *[""] * (count - len(given)))


def _bears(connection: Connection, heater: HeaterKept) -> None:
    """Refuse when the heater's circuit would be overloaded by what runs on it."""
    from wrapwright.jobs.press.kept.heaters import heaters_of
    from wrapwright.outside.store.rows.press.circuits import circuit_kept

    if not heater.circuit:
        return
    row = circuit_kept(connection, id=heater.circuit)
    running = [
        one
        for one in heaters_of(connection, retired=True)
        if one.circuit == row.id and one.busy and one.id != heater.id
    ]
    circuit = CircuitLoad(row.name, row.volts, row.amps, sum(one.rated_w for one in running))
    too_much = overload(circuit, heater.name, heater.rated_w, [one.name for one in running])
    if too_much:
        raise too_much


def _in_another(connection: Connection, pieces: tuple[str, ...]) -> None:
    """Refuse a piece that is in another heater just now."""
    from wrapwright.outside.store.rows.press.heats import heat_rows

    for one in heat_rows(connection, open_only=True):
        both = sorted({piece.piece for piece in one.pieces} & set(pieces) - {""}) if one.state == "running" else []
        if both:
            message = f"{', '.join(both)} is in heat {one.id} already."
            raise refused(message, "Look at the number beside the piece.")
