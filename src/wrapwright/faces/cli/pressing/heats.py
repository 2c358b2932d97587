"""`press heats`: what is heated, and what was."""

from __future__ import annotations

from typing import Annotated

import typer

from wrapwright.faces.cli.kept.telling import group
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk

Heat = Annotated[int, typer.Argument(metavar="HEAT", min=1, help="The heat's number.")]


def every(
    *,
    heater: Annotated[str, typer.Option(metavar="NAME", help="Only those of this heater.")] = "",
    piece: Annotated[str, typer.Option(metavar="NUMBER", help="Only those with this piece.")] = "",
    running: Annotated[bool, typer.Option("--open", help="Only those that have not ended.")] = False,
    most: Annotated[int, typer.Option(metavar="NUMBER", min=1, max=200, help="No more than so many.")] = 50,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the heats, the newest first."""
    from wrapwright.faces.cli.pressing.telling import show_heats_told
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import ShowHeater, show_heater
    from wrapwright.jobs.press.run.showing import list_heats
    from wrapwright.jobs.press.run.values import ListHeats

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    number = show_heater(ShowHeater(name=heater), bench, Watch()).id if heater else 0
    told = list_heats(ListHeats(number, piece, running, most), bench, Watch())
    show_heats_told(told, talk)
    if not told and not json:
        talk.say("There is no such heat. Start one: wrapwright press start --help")


def one(heat: Heat, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Show a heat as it is now."""
    from wrapwright.faces.cli.pressing.telling import show_heat_told
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.run.showing import show_heat
    from wrapwright.jobs.press.run.values import ShowHeat

    told = show_heat(ShowHeat(heat), bench_of(open_settings()), Watch())
    show_heat_told(told, Talk(quiet, verbose, json))


app = group(
    "Heats, running and done: list, show.",
    (
        ("list", every, "wrapwright press heats list --open"),
        ("show", one, "wrapwright press heats show 12"),
    ),
)
