"""`make`: the sheets, proof, ticket and report of a job."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated, Literal

import typer

from wrapwright.core.base.findings import Severity
from wrapwright.faces.cli.options import Accept, Folder, Force, Job, Json, Quiet, Verbose, job_named, rules_of
from wrapwright.faces.cli.talk import Talk, lines, show, show_document

EXAMPLE = "wrapwright make bottle.toml -o bottle-sheets --accept picture-ppi"


class As(StrEnum):
    """Kinds of file for the sheets."""

    PDF = "pdf"
    PNG = "png"
    TIFF = "tiff"


def make(
    job: Job,
    output: Folder,
    kind: Annotated[As, typer.Option("--as", help="The sheets' kind of file.")] = As.PDF,
    *,
    force: Force = False,
    accept: Accept = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Make the sheets, the proof, the ticket and the report of a job.

    The sheets are true size and mirrored, to be printed at 100 %. On any error the folder stays exactly as it was.
    """
    path, text = job_named(job)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.make_sheets import make_sheets
    from wrapwright.jobs.requests import MakeRequest

    talk = Talk(quiet, verbose, json)
    chosen: Literal["pdf", "png", "tiff"] = kind.value
    request = MakeRequest(path, text, output, chosen, force=force, accept=rules_of(accept))
    with talk.watching() as watch:
        made = make_sheets(request, bench_of(open_settings()), watch)
    if json:
        show_document(made.report)
        return
    for file in made_files(made.report, output):
        show(str(file))
    for line in lines(
        made.findings if verbose else [one for one in made.findings if one.severity is not Severity.NOTE]
    ):
        talk.say(line)


def made_files(report: object, folder: Path) -> list[Path]:
    """Return the paths of what was made, the report last."""
    files = report.get("files", []) if hasattr(report, "get") else []
    return [*(folder / entry["path"] for entry in files), folder / "report.json"]
