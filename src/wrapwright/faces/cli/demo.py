"""`demo`: the shipped example, end to end."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.faces.cli.make import made_files
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document

EXAMPLE = "wrapwright demo -o wrapwright-demo"


def demo(
    output: Annotated[Path, typer.Option("--output", "-o", metavar="DIR", help="The folder for the files.")] = Path(
        "wrapwright-demo"
    ),
    *,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Make the shipped example: its sheet, proof, ticket and report."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.requests import DemoRequest
    from wrapwright.jobs.show_demo import show_demo

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        made = show_demo(DemoRequest(output, force=force), bench_of(open_settings()), watch)
    if json:
        show_document(made.report)
        return
    for file in made_files(made.report, output):
        show(str(file))
