"""`press start`: a heat begins."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option
from wrapwright.faces.cli.talk import Talk

EXAMPLE = (
    'wrapwright press start --heater "Small oven" --recipe steel-oven --piece A7-3 --piece A7-4 '
    "--tick open-empty-dry --preheat\n"
    '  wrapwright press start --heater "Mug press" --recipe ceramic-press --at "190 C" --dwell "3 min"'
)

EMPTY = "open-empty-dry"  # as core.press.run.starting has it; written here so that help does not load it
_OPTIONS = {
    **{one: f"--{one}" for one in ("heater", "recipe", "count", "log")},
    "pieces": "--piece, --count",
    "set_c": "--at",
    "dwell_s": "--dwell",
    "thickness_mm": "--wall",
}


def start(
    *,
    heater: Annotated[str, typer.Option(metavar="NAME", help="The heater.")],
    recipe: Annotated[str, typer.Option(metavar="NAME", help="The recipe to go by.")],
    piece: Annotated[
        list[str] | None, typer.Option(metavar="NUMBER", help="What stands beside a piece; may be repeated.")
    ] = None,
    count: Annotated[
        int, typer.Option(metavar="NUMBER", min=0, help="How many pieces go in, if not one a number.")
    ] = 0,
    at: Annotated[str | None, typer.Option(metavar="TEMP", help='What it is set to: "200 C" or "392 F".')] = None,
    dwell: Annotated[str | None, typer.Option(metavar="TIME", help="If not what is recommended: 6 min, 330 s.")] = None,
    wall: Annotated[str | None, length_option("Thickness of the wall, if not the recipe's.")] = None,
    tick: Annotated[
        list[str] | None, typer.Option(metavar="NAME", help="What you have looked at: open-empty-dry. May be repeated.")
    ] = None,
    preheat: Annotated[bool, typer.Option("--preheat", help="The empty heater is warmed up first.")] = False,
    log: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A logger's growing CSV: the dose follows it.")
    ] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Start a heat: the time is kept here, whatever is closed or switched off meanwhile.

    Ware with a lid and vacuum ware wants --tick open-empty-dry: every piece open, empty and dry, lid and gasket off.
    """
    from wrapwright.core.press.recipe.asked import celsius_of, seconds_of
    from wrapwright.faces.cli.pressing.telling import show_heat_told
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.run.starting import start_heat
    from wrapwright.jobs.press.run.values import StartHeat

    numbers = tuple(piece or ())
    request = StartHeat(
        heater,
        recipe,
        numbers,
        count or max(1, len(numbers)),
        set_c=None if at is None else celsius_of(at, where="--at"),
        dwell_s=None if dwell is None else seconds_of(dwell, where="--dwell"),
        ticked=tuple(tick or ()),
        preheat=preheat,
        log="" if log is None else str(log.resolve()),
        thickness_mm=None if wall is None else _mm(wall),
    )
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    try:
        with talk.watching() as watch:
            told = start_heat(request, bench, watch)
    except WrapwrightError as problem:
        raise _as_options(problem) from None
    show_heat_told(told, talk)


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with what it is about called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(one) for one in problem.problems))
    where, remedy = _OPTIONS.get(problem.where, problem.where), problem.remedy
    if where == EMPTY:
        where, remedy = "--tick", f"Look at every piece, then add --tick {EMPTY}."
    return WrapwrightError(problem.kind, problem.message, remedy=remedy, where=where)


def _mm(text: str) -> float:
    from wrapwright.core.base.units import length_mm

    return length_mm(text, where="--wall")
