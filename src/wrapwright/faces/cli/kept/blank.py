"""`blank`: the shelf of blanks."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.kept.telling import day_of, group, show_columns, show_row, show_rows, show_tables, tell
from wrapwright.faces.cli.options import FromJob, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import (
    Circle,
    Corner,
    Diameter,
    DiameterBottom,
    DiameterTop,
    Girth,
    GirthBottom,
    GirthTop,
    Height,
    Placed,
    Wall,
    Width,
    as_options,
    blank_of,
    length_option,
    lengths_of,
    misuse,
)
from wrapwright.faces.cli.talk import Talk

Name = Annotated[str, typer.Argument(metavar="NAME", help="The blank's name on the shelf.")]


def every(
    search: Annotated[str, typer.Argument(metavar="WORDS", help="Only those whose names hold this.")] = "",
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the blanks on the shelf."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.blanks import ListBlanks, list_blanks

    found = list_blanks(ListBlanks(search), bench_of(open_settings()), Watch())
    if json:
        show_rows("blanks", found)
        return
    show_columns([(one.name, str(one.table.get("kind", "")), f"version {one.version}") for one in found])
    if not found:
        Talk(quiet, verbose, json).say("No such blank is on the shelf. Add one: wrapwright blank add NAME --girth ...")


def one(
    name: Name,
    version: Annotated[int, typer.Option("--version", metavar="NUMBER", min=0, help="Of its readings.")] = 0,
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Show the readings of a blank, as a job file writes them."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.blanks import ShowBlank, show_blank

    kept = show_blank(ShowBlank(name=name, version=version), bench_of(open_settings()), Watch())
    if json:
        show_row("blank", kept)
        return
    Talk(quiet, verbose, json).say(f"{kept.name}, version {kept.version} of {kept.newest}, {day_of(kept.added)}")
    show_tables({"blank": kept.table, "wrap": kept.wrap})


def add(
    name: Name,
    *,
    girth: Girth = None,
    girth_top: GirthTop = None,
    girth_bottom: GirthBottom = None,
    diameter: Diameter = None,
    diameter_top: DiameterTop = None,
    diameter_bottom: DiameterBottom = None,
    wall: Wall = None,
    height: Height = None,
    width: Width = None,
    circle: Circle = None,
    corner: Corner = None,
    reading: Placed = None,
    handle_gap: Annotated[str | None, length_option("Mugs: the bare width left on the wall at the handle.")] = None,
    coating: Annotated[
        str | None, typer.Option(metavar="COLOUR", help="Colour of the bare coating: #rrggbb; white when left out.")
    ] = None,
    from_job: FromJob = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Put a blank on the shelf: its readings given here, or those of a job file.

    A job file uses it by its name: blank = { use = "NAME" }. Lengths are written as for fit.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.kept.blanks import AddBlank, AdoptBlank, add_blank, adopt_blank

    written = {
        "--girth": girth,
        "--girth-top": girth_top,
        "--girth-bottom": girth_bottom,
        "--diameter": diameter,
        "--diameter-top": diameter_top,
        "--diameter-bottom": diameter_bottom,
        "--wall": wall,
        "--height": height,
        "--width": width,
        "--circle": circle,
        "--corner": corner,
    }
    more = {"--handle-gap": handle_gap, "--coating": coating}
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        if from_job is not None:
            _alone({**written, **more}, reading)
            kept = adopt_blank(AdoptBlank(name, from_job), bench, watch)
        else:
            table = _table(written, reading or [], more)
            try:
                kept = add_blank(AddBlank(name, table), bench, watch)
            except WrapwrightError as problem:
                raise as_options(problem) from None
    tell("blank", kept, kept.name, json=json)


def remove(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Take a blank off the shelf; designs made on it keep its readings."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.blanks import RemoveBlank, ShowBlank, remove_blank, show_blank

    bench = bench_of(open_settings())
    kept = show_blank(ShowBlank(name=name), bench, Watch())
    remove_blank(RemoveBlank(kept.id), bench, Watch())
    if json:
        show_row("removed", kept.name)
    else:
        Talk(quiet, verbose, json).say(f"{kept.name} is off the shelf.")


app = group(
    "The shelf of blanks: list, show, add, remove.",
    (
        ("list", every, "wrapwright blank list"),
        ("show", one, 'wrapwright blank show "Big tumbler"'),
        ("add", add, 'wrapwright blank add "Big tumbler" --girth "9 1/4 in" --wall "6 1/2 in"'),
        ("remove", remove, 'wrapwright blank remove "Big tumbler"'),
    ),
)


def _alone(written: dict[str, str | None], readings: list[str] | None) -> None:
    """Raise when readings are given beside a job file."""
    given = [option for option, text in written.items() if text is not None] + (["--reading"] if readings else [])
    if given:
        raise misuse(f"--from and {given[0]} do not go together.", "Give the job file or the readings.")


def _table(written: dict[str, str | None], readings: list[str], more: dict[str, str | None]) -> dict[str, Any]:
    """Return the readings as a job file writes them, in the words they were given in.

    Raises:
        WrapwrightError: usage, for options that do not go together; unusable, for what is no length.
    """
    given, placed = lengths_of(written, readings)
    kind = blank_of(given, placed).kind
    table: dict[str, Any] = {"kind": kind}
    table |= {option[2:].replace("-", "_"): text for option, text in written.items() if text is not None}
    if readings:
        table["readings"] = [[part.strip() for part in text.split("=", 1)] for text in readings]
    if more["--handle-gap"] is not None:
        table["handle"] = {"gap": more["--handle-gap"]}
    if more["--coating"] is not None:
        table["coating"] = more["--coating"]
    if kind == "profile" and "wall" in table:
        message = "--reading and --wall do not go together: the last reading says how high the wall is."
        raise WrapwrightError(Kind.USAGE, message, remedy="Leave --wall out.")
    return table
