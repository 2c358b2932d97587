"""`press readings`: an oven's offset from a few readings of a thermometer."""

from __future__ import annotations

from typing import Annotated

import typer

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.pressing.evidence.log import Day, DryRun, HeaterName, Note, about_of, as_options, tell
from wrapwright.faces.cli.talk import Talk

EXAMPLE = (
    'wrapwright press readings --heater "Small oven" --at "200 C" --reading "190 C" --reading "195 C" '
    '--reading "190 C" --step "5 C"'
)


def readings(
    *,
    heater: HeaterName = "",
    at: Annotated[str, typer.Option(metavar="TEMP", help='What it was set to: "200 C" or "392 F".')],
    reading: Annotated[list[str], typer.Option(metavar="TEMP", help="What the thermometer said; repeat it.")],
    step: Annotated[str, typer.Option(metavar="DIFFERENCE", help='Smallest step that was read: "5 C", "10 F".')],
    thermometer: Annotated[
        str | None, typer.Option(metavar="DIFFERENCE", help="The thermometer's own error, either way; 5 K if left out.")
    ] = None,
    day: Day = None,
    note: Note = "",
    dry_run: DryRun = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Find an oven's offset from readings of an oven thermometer, three at least, some minutes apart.

    The half-width is that of Student's t-interval of their mean, the step of reading and the thermometer's own error
    let in.
    """
    from wrapwright.core.base.units import temperature_step_k
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.core.press.recipe.asked import celsius_of
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.evidence.values import KeepReadings
    from wrapwright.jobs.press.evidence.without import keep_readings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    request = KeepReadings(
        about_of(heater, day, note, keep=not dry_run),
        set_celsius(at, where="--at"),
        tuple(celsius_of(one, where="--reading") for one in reading),
        temperature_step_k(step, where="--step"),
        None if thermometer is None else temperature_step_k(thermometer, where="--thermometer"),
    )
    with talk.watching() as watch:
        try:
            told = keep_readings(request, bench, watch)
        except WrapwrightError as problem:
            raise as_options(problem) from None
    tell(told, talk)
