"""`press event` and `press look`: what happens to a heat, and what became of its pieces."""

from __future__ import annotations

from typing import Annotated

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.pressing.heats import Heat
from wrapwright.faces.cli.talk import Talk

# As core.press.run.values has them; written here so that help does not load it.
KINDS = "preheat, ready, loaded, door-opened, door-closed, turned, longer, taken-out, cooled, measured, stopped, ended"
EVENT_EXAMPLE = (
    "wrapwright press event 12 loaded\n"
    '  wrapwright press event 12 door-closed --for "20 s"\n'
    '  wrapwright press event 12 measured --reads "188 C"'
)
LOOK_EXAMPLE = (
    'wrapwright press look 12 1 good\n  wrapwright press look 12 2 faded --note "pale at the rim" --piece A7-4'
)


def event(
    heat: Heat,
    kind: Annotated[str, typer.Argument(metavar="EVENT", help=f"What happened: {KINDS}.")],
    *,
    lasting: Annotated[
        str | None, typer.Option("--for", metavar="TIME", help="longer: how much; door-closed: how long it was open.")
    ] = None,
    reads: Annotated[str | None, typer.Option(metavar="TEMP", help="measured: what the thermometer reads.")] = None,
    ago: Annotated[str | None, typer.Option(metavar="TIME", help="How long ago it happened.")] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Tell what happened to a heat: the door, a turn, taken out, more time, a reading.

    In order: preheat, ready (at temperature), loaded (pieces in, door closed: the dwell counts from here), taken-out,
    cooled. What is told twice stands once.
    """
    from wrapwright.core.press.recipe.asked import celsius_of, seconds_of
    from wrapwright.faces.cli.pressing.telling import show_heat_told
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.run.happening import kind_of, tell_event
    from wrapwright.jobs.press.run.values import TellEvent

    request = TellEvent(
        heat,
        kind_of(kind),
        None if lasting is None else seconds_of(lasting, where="--for"),
        None if reads is None else celsius_of(reads, where="--reads"),
        ago_s=0.0 if ago is None else seconds_of(ago, where="--ago"),
    )
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        told = tell_event(request, bench, watch)
    show_heat_told(told, talk)


def look(
    heat: Heat,
    place: Annotated[int, typer.Argument(metavar="PLACE", min=1, help="Which piece of the heat, from 1.")],
    result: Annotated[str, typer.Argument(metavar="RESULT", help="good, or a fault: faded, ghosted, blurred ...")],
    *,
    note: Annotated[str, typer.Option(metavar="WORDS", help="A note to keep with it.")] = "",
    piece: Annotated[str | None, typer.Option(metavar="NUMBER", help="What stands beside the piece.")] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Tell what became of a piece; for a fault its likely causes are ranked by what is known of this run.

    The faults: faded, ghosted, blurred, yellowed, spots, seam-gap, crease, cold-patch, wrong-place, mirrored,
    blank-flaw. Once every piece has been looked at the heat has ended.
    """
    from wrapwright.faces.cli.pressing.telling import show_heat_told
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.run.looking import tell_look
    from wrapwright.jobs.press.run.values import TellLook

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        told = tell_look(TellLook(heat, place, result, note, piece), bench, watch)
    show_heat_told(told, talk, looked=place)
