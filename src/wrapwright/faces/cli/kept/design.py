"""`design`: the designs that are kept, each with all its revisions."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.faces.cli.kept.telling import day_of, group, show_columns, show_row, show_rows, tell
from wrapwright.faces.cli.options import Json, Quiet, Revision, Verbose
from wrapwright.faces.cli.talk import Talk, show

Design = Annotated[str, typer.Argument(metavar="DESIGN", help="The design's number, or its title.")]


def every(
    search: Annotated[str, typer.Argument(metavar="WORDS", help="Only those whose title or blank holds this.")] = "",
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the designs, the last saved first."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.designs import ListDesigns, list_designs

    found = list_designs(ListDesigns(search), bench_of(open_settings()), Watch())
    if json:
        show_rows("designs", found)
        return
    rows = [(str(one.id), one.title, f"revision {one.revision}", day_of(one.saved), one.blank) for one in found]
    show_columns(rows)
    if not found:
        Talk(quiet, verbose, json).say("No such design is kept. Add one: wrapwright design add JOB")


def one(
    design: Design,
    revision: Revision = 0,
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Show a design as the job file it is."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.designs import FindDesign, ShowDesign, find_design, show_design
    from wrapwright.outside.jobfile.writing import job_toml

    bench = bench_of(open_settings())
    number = find_design(FindDesign(design), bench, Watch())
    kept = show_design(ShowDesign(number, revision), bench, Watch())
    if json:
        show_row("design", kept)
        return
    Talk(quiet, verbose, json).say(f"{kept.title}, revision {kept.revision} of {kept.newest}, {day_of(kept.saved)}")
    show(job_toml(kept.document).rstrip("\n"))


def add(
    job: Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).")],
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep a job file as a design, with all the files it names."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.kept.exchange import AdoptDesign, adopt_design

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        kept = adopt_design(AdoptDesign(job), bench_of(open_settings()), watch)
    tell("design", kept, f"{kept.id}  {kept.title}", json=json)


def remove(
    design: Design,
    *,
    made: Annotated[bool, typer.Option("--made", help="Remove what was made of it too.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Remove a design for good: all revisions, its files, and the pictures that no other design has."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.designs import FindDesign, RemoveDesign, find_design, remove_design

    bench = bench_of(open_settings())
    number = find_design(FindDesign(design), bench, Watch())
    remove_design(RemoveDesign(number, made=made), bench, Watch())
    if json:
        show_row("removed", number)
    else:
        Talk(quiet, verbose, json).say(f"Design {number} is removed.")


app = group(
    "Designs, each with all its revisions: list, show, add, remove.",
    (
        ("list", every, "wrapwright design list"),
        ("show", one, "wrapwright design show 3 --revision 12"),
        ("add", add, "wrapwright design add bottle.toml"),
        ("remove", remove, "wrapwright design remove 3"),
    ),
)
