"""`press dwell`: how long this wall wants, in this heater, so many pieces together."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.press.plan.values import PlanHeat, Planned

EXAMPLE = (
    'wrapwright press dwell --recipe steel-oven --wall "0.5 mm" --pieces 4\n'
    '  wrapwright press dwell --recipe ceramic-oven --wall "4 mm" --heater "Big oven" --at "383 F" --plot dwell.svg'
)

Recipe = Annotated[str, typer.Option(metavar="NAME", help="The recipe to go by.")]
Heater = Annotated[str, typer.Option(metavar="NAME", help="The heater, or its kind: oven, mug-press, flat-press.")]
Power = Annotated[str | None, typer.Option(metavar="WATTS", help="Its rated power, if not what is kept of it.")]
Capacity = Annotated[int | None, typer.Option(metavar="NUMBER", help="How many pieces it holds.")]
WallThickness = Annotated[
    str | None, length_option("Thickness of the wall; of double-walled ware, of its outer shell.")
]
Material = Annotated[str, typer.Option(metavar="NAME", help="What the wall is made of, if not what the recipe says.")]
Double = Annotated[bool | None, typer.Option("--double/--single", help="Double-walled vacuum ware, or not.")]
At = Annotated[str | None, typer.Option(metavar="TEMP", help='What it is set to: "200 C" or "392 F".')]
Stay = Annotated[str | None, typer.Option("--dwell", metavar="TIME", help="Look at this dwell: 6 min, 5:30, 330 s.")]
Plot = Annotated[Path | None, typer.Option("--plot", metavar="FILE", help="Draw it: FILE.svg or FILE.png.")]


def dwell(
    *,
    recipe: Recipe,
    wall: WallThickness = None,
    pieces: Annotated[int, typer.Option("--pieces", "-n", metavar="NUMBER", help="Heated together.")] = 1,
    at: At = None,
    heater: Heater = "",
    power: Power = None,
    capacity: Capacity = None,
    material: Material = "",
    double: Double = None,
    girth: Annotated[str | None, length_option("Distance round a piece, for its share of the power.")] = None,
    height: Annotated[str | None, length_option("Its height, with --girth.")] = None,
    cold: Annotated[bool, typer.Option("--cold", help="The heater is cold when the pieces go in.")] = False,
    stay: Stay = None,
    plot: Plot = None,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Estimate the dwell for a wall, a heater and a number of pieces.

    An estimate with its band, never a promise: the makers' instructions come first, and a test piece before a batch.
    Without the wall's thickness nothing is estimated.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.plan.planning import plan_heat

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    words = {"at": at, "power": power, "stay": stay, "wall": wall, "girth": girth, "height": height}
    named = {"recipe": recipe, "heater": heater, "pieces": pieces, "capacity": capacity, "material": material}
    request = _request(words, {**named, "double": double, "preheated": False if cold else None})
    with talk.watching() as watch:
        try:
            planned = plan_heat(request, bench, watch)
            if plot is not None:
                from wrapwright.jobs.press.plan.drawn import plot_file

                plot_file(planned, plot, bench, force=force)
        except WrapwrightError as problem:
            raise _as_options(problem) from None
    if talk.json:
        from wrapwright.jobs.press.plan.stated import plan_statement

        show_document({"format": FORMAT, "press": plan_statement(planned)})
        return
    _tell(planned)
    if plot is not None:
        talk.say(f"Drawn: {plot}")


_OPTIONS = (
    "recipe",
    "heater",
    "wall",
    "material",
    "pieces",
    "at",
    "power",
    "capacity",
    "dwell",
    "girth",
    "height",
    "plot",
)


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with what it is about called by the options' names."""
    where = f"--{problem.where}" if problem.where in _OPTIONS else problem.where
    kind = problem.kind
    if where == "press: recipe":  # named on the line, not in a job file
        kind, where = Kind.MISSING, "--recipe"
    return WrapwrightError(kind, problem.message, remedy=problem.remedy, where=where)


def _request(words: dict[str, str | None], named: dict[str, Any]) -> PlanHeat:
    from wrapwright.core.press.load.asked import set_celsius, watts
    from wrapwright.core.press.recipe.asked import seconds_of
    from wrapwright.faces.cli.readings import lengths_of, misuse
    from wrapwright.jobs.press.plan.values import PlanHeat

    lengths = lengths_of({f"--{key}": words[key] for key in ("wall", "girth", "height")}, [])[0]
    sides = [name for name in ("--girth", "--height") if name in lengths]
    if len(sides) == 1:
        raise misuse(f"{sides[0]} needs the other beside it.", "Give --girth and --height, or neither.")
    face = None
    if sides:
        from wrapwright.core.press.load.piece import face_m2

        round_mm = lengths["--girth"]
        face = face_m2(((0.0, round_mm), (lengths["--height"], round_mm)))
    at, power, stay = words["at"], words["power"], words["stay"]
    return PlanHeat(
        **named,
        wall_mm=lengths.get("--wall"),
        face_m2=face,
        set_c=None if at is None else set_celsius(at, where="--at"),
        power_w=None if power is None else watts(power, where="--power"),
        dwell_s=None if stay is None else seconds_of(stay, where="--dwell"),
    )


def _tell(planned: Planned) -> None:
    from wrapwright.core.base.heat_words import celsius_range_words, seconds_range_words
    from wrapwright.core.press.load.telling import minutes, minutes_words, span_words
    from wrapwright.core.press.load.words import change_words, effect_words, load_words
    from wrapwright.faces.cli.kept.telling import show_columns
    from wrapwright.faces.cli.talk import lines

    recipe = planned.asked.recipe
    show(f"{load_words(planned.asked.load)}, in: {planned.asked.heater.name}")
    told = f"{celsius_range_words(recipe.celsius)}, {seconds_range_words(recipe.seconds)} ({recipe.source})"
    show(f"Recipe {recipe.name}: {told}.")
    for line in lines(planned.findings):  # what speaks against it comes before what it would want
        show(line)
    for one in planned.words:
        show(one)
    show("")
    rows = [("pieces", "about", "band", "at temperature after")]
    for row in planned.rows:
        span, known = row.dwell_s, math.isfinite(row.dwell_s.mid)
        between = span_words(span.low, span.high) if known else "-"
        rows.append((str(row.pieces), f"{minutes(span.mid)} min", between, minutes_words(row.to_temperature_s)))
    show_columns(rows)
    show("")
    show_columns([(change_words(one), effect_words(one)) for one in planned.shifts])
