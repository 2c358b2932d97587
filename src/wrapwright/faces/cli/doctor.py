"""`doctor`: what is installed and whether it will do."""

from __future__ import annotations

from typing import Annotated

import typer

from wrapwright.core.base.errors import raise_all
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXAMPLE = "wrapwright doctor --json"


def doctor(
    *,
    tables: Annotated[
        bool, typer.Option("--tables", help="Also make the colour tables of the profiles you keep, for faster pages.")
    ] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List versions, fonts, profiles, settings, folders and free space, and what is missing.

    Ends with 5 when something is missing that is needed.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.examine_setup import ExamineRequest, examine_setup

    talk = Talk(quiet, verbose, json)
    settings = open_settings()
    with talk.watching() as watch:
        setup = examine_setup(ExamineRequest(tables=tables), bench_of(settings), watch)
    raised = list(setup.problems())
    if json and not raised:
        facts = [{"name": one.name, "value": one.value, "state": one.state} for one in setup.facts]
        show_document({"format": FORMAT, "facts": facts})
    if not json:
        width = max(len(one.name) for one in setup.facts)
        for one in setup.facts:
            show(f"{one.name:<{width}}  {one.value}" + ("" if one.state == "good" else f"  ({one.state})"))
    raise_all(raised)
