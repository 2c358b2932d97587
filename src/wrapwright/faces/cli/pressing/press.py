"""`press`: recipes, heaters, circuits, and all that is done with heat."""

from __future__ import annotations

import typer

from wrapwright.faces.cli.pressing import circuit, dwell, heater, heats, look, recipe, sleeve, start, trial
from wrapwright.faces.cli.pressing.evidence import known, log, readings, shelf_map

app = typer.Typer(
    no_args_is_help=True,
    help="Heat: recipes, ovens and presses, the right dwell, what is heated and what became of it.",
)
app.add_typer(recipe.app, name="recipe")
app.add_typer(heater.app, name="heater")
app.add_typer(circuit.app, name="circuit")
app.command("start", epilog=f"\b\nExample:\n  {start.EXAMPLE}")(start.start)
app.command("event", epilog=f"\b\nExample:\n  {look.EVENT_EXAMPLE}")(look.event)
app.command("look", epilog=f"\b\nExample:\n  {look.LOOK_EXAMPLE}")(look.look)
app.add_typer(heats.app, name="heats")
app.command("dwell", epilog=f"\b\nExample:\n  {dwell.EXAMPLE}")(dwell.dwell)
app.command("sleeve", epilog=f"\b\nExample:\n  {sleeve.EXAMPLE}")(sleeve.sleeve)
app.command("log", epilog=f"\b\nExample:\n  {log.EXAMPLE}")(log.log)
app.command("readings", epilog=f"\b\nExample:\n  {readings.EXAMPLE}")(readings.readings)
app.command("known", epilog=f"\b\nExample:\n  {known.EXAMPLE}")(known.known)
app.command("map", epilog=f"\b\nExample:\n  {shelf_map.EXAMPLE}")(shelf_map.shelf_map)
app.add_typer(trial.app, name="trial")
