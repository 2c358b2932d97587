"""`setup`: printers with their paper, profile and measured scale."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.kept.telling import group, show_columns, show_row, show_rows, show_tables, tell
from wrapwright.faces.cli.options import FromJob, Json, Quiet, Verbose
from wrapwright.faces.cli.printing import setup_printer
from wrapwright.faces.cli.readings import length_option, misuse
from wrapwright.faces.cli.talk import Talk

Name = Annotated[str, typer.Argument(metavar="NAME", help="The set-up's name.")]


def every(*, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """List the set-ups."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.setups import ListSetups, list_setups

    found = list_setups(ListSetups(), bench_of(open_settings()), Watch())
    if json:
        show_rows("setups", found)
        return
    show_columns([(one.name, str(one.sheet.get("paper", "Letter")), _route(one.colour)) for one in found])
    if not found:
        Talk(quiet, verbose, json).say("There is no set-up yet. Add one: wrapwright setup add NAME --paper Letter")


def one(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Show a set-up, as a job file writes it."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup

    del quiet, verbose
    kept = show_setup(ShowSetup(name=name), bench_of(open_settings()), Watch())
    if json:
        show_row("setup", kept)
    else:
        show_tables({"sheet": kept.sheet, "colour": kept.colour})


def add(
    name: Name,
    *,
    paper: Annotated[str | None, typer.Option(metavar="PAPER", help="Letter, A4, A3 ... or 13x19 in.")] = None,
    margins: Annotated[str | None, length_option("What the printer cannot reach, on every side.")] = None,
    ppi: Annotated[int | None, typer.Option(metavar="NUMBER", help="Pixels per inch of the raster part.")] = None,
    paper_thickness: Annotated[str | None, length_option("Thickness of the paper.")] = None,
    grain: Annotated[str | None, typer.Option(metavar="RUN", help="long, short or unknown.")] = None,
    scale: Annotated[
        str | None,
        typer.Option(metavar="ACROSS,ALONG", help="Measured length / asked length, across and along the feed."),
    ] = None,
    profile: Annotated[
        Path | None, typer.Option(metavar="FILE", help="The printer's ICC profile: we convert the colours.")
    ] = None,
    intent: Annotated[
        str | None, typer.Option(metavar="INTENT", help="perceptual, relative, saturation or absolute.")
    ] = None,
    from_job: FromJob = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep a set-up: its figures given here, or those of a job file.

    Without --profile the printer's own software converts the colours.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.kept.setups import AddSetup, AdoptSetup, add_setup, adopt_setup

    sheet = {"paper": paper, "margins": margins, "ppi": ppi, "thickness": paper_thickness, "grain": grain}
    sheet = {key: value for key, value in sheet.items() if value is not None}
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        if from_job is not None:
            if sheet or scale or profile or intent:
                raise misuse("--from and other figures do not go together.", "Give the job file or the figures.")
            kept = adopt_setup(AdoptSetup(name, from_job), bench, watch)
        else:
            full = {**sheet, **({"scale": _scale(scale)} if scale else {})}
            colour = {"route": "convert" if profile else "driver", **({"intent": intent} if intent else {})}
            try:
                kept = add_setup(AddSetup(name, full, colour, profile), bench, watch)
            except WrapwrightError as problem:
                raise _as_options(problem) from None
    tell("setup", kept, kept.name, json=json)


def remove(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Remove a set-up; designs printed with it keep its figures."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.setups import RemoveSetup, ShowSetup, remove_setup, show_setup

    bench = bench_of(open_settings())
    kept = show_setup(ShowSetup(name=name), bench, Watch())
    remove_setup(RemoveSetup(kept.id), bench, Watch())
    if json:
        show_row("removed", kept.name)
    else:
        Talk(quiet, verbose, json).say(f"{kept.name} is removed.")


app = group(
    "Set-ups, each a printer with its paper, profile and scale: list, show, add, printer, remove.",
    (
        ("list", every, "wrapwright setup list"),
        ("show", one, 'wrapwright setup show "Desk printer"'),
        ("add", add, 'wrapwright setup add "Desk printer" --paper Letter --scale 1.0012,0.9987'),
        ("printer", setup_printer.setup_printer, setup_printer.EXAMPLE),
        ("remove", remove, 'wrapwright setup remove "Desk printer"'),
    ),
)


def _route(colour: Any) -> str:
    profile = colour.get("profile")
    return f"converts with {profile}" if profile else "the printer's software converts"


def _scale(text: str) -> list[float]:
    """Return the two figures of ACROSS,ALONG."""
    parts = text.split(",")
    try:
        across, along = (float(part) for part in parts)
    except ValueError:
        message = f'--scale "{text}" is not two figures with a comma between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Write it as 1.0012,0.9987.") from None
    return [across, along]


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with the keys of a job called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(one) for one in problem.problems))
    key = problem.where.partition(": ")[2].split(" ")[0]
    options = {"thickness": "--paper-thickness", **{one: f"--{one}" for one in _SAME}}
    where = options.get(key, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


_SAME = ("paper", "margins", "ppi", "grain", "scale", "profile", "intent")
